"""The groups of a part's facts as rows for people: "exposure  outdoor, in sunlight: yes, ingress IP66, -30 °C to 55 °C"."""

from collections.abc import Callable, Iterator

from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.parts.read_groups import GROUPS
from firstfix.units import celsius, kilograms, metres, number, watts

_MINUTE_S = 60.0


def _with(unit: str) -> Callable[[float], str]:
    return lambda value: f"{number(value)} {unit}"


def _milliamperes(value: float) -> str:
    return f"{number(value * 1000)} mA"


# How a group's figures are printed; those not named here are lengths.
_SHOWN: dict[str, Callable[[float], str]] = {
    "coldest": celsius,
    "warmest": celsius,
    "load": kilograms,
    "wavelength": _with("nm"),
    "sends": _with("dBm"),
    "reads": _with("dBm"),
    "apparent": _with("VA"),
    "energy": _with("Wh"),
    "voltage": _with("V"),
    "power": watts,
    "efficiency": number,
    "area": _with("mm²"),
    "poe-class": number,
}


def group_rows(part: Part) -> Iterator[tuple[str, str]]:
    """One row for each group that says something; what is not known says so."""
    for name, group in GROUPS.items():
        facts = getattr(part, group.attribute)
        if facts is None:
            continue
        said = {key: getattr(facts, attribute) for key, (attribute, _) in group.keys.items()}
        words = [f"{key} {_shown(key, value)}" for key, value in said.items() if f"{name}.{key}" in part.said]
        yield name, ", ".join(words)


def mains_rows(part: Part) -> Iterator[tuple[str, str]]:
    """What is known of the mains beside inlet and outlets."""
    mains = part.mains
    for key, value, shown in (
        ("mains shape", mains.shape, number),
        ("mains leakage", mains.leakage, _milliamperes),
        ("outlets covered", mains.blocks, number),
        ("mains sockets", mains.sockets, number),
        ("mains current", mains.current, _with("A")),
        ("mains protection", mains.protection, number),
        ("surge arresters", mains.surge, number),
    ):
        if f"mains.{key.split()[-1]}" in part.said or not isinstance(value, Unknown):
            yield key, _value(value, shown)


def _shown(key: str, value: object) -> str:
    if isinstance(value, tuple) and not isinstance(value, Fact | Unknown):
        return "; ".join(f"{watts(load)} for {number(time / _MINUTE_S)} min" for load, time in value)
    return _value(value, _SHOWN.get(key, metres))


def _value(value: object, shown: Callable[[float], str]) -> str:
    if isinstance(value, Unknown):
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Fact):
        return shown(value.low) if value.low == value.high else f"{shown(value.low)} to {shown(value.high)}"
    return str(value)
