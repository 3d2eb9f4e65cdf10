"""The jacks of a part: built in, or openings that jack modules fill; and which of them are joined inside."""

from collections.abc import Iterator

from firstfix.parts.facts import Figure, Unknown
from firstfix.parts.numbering import MOST_JACKS, jack_names
from firstfix.parts.part import JACK_FAMILIES, JackSpec, Pass
from firstfix.parts.reading import Reading
from firstfix.source.fields import Fields, as_text
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Mapping, Node, Scalar, clip
from firstfix.units import RATE

PASSIVE = Unknown("a passive jack has no rate of its own")

_JACK_KEYS = ("family", "rate", "side")
_PASS_KEYS = ("to", "power")


def jacks(reading: Reading, key: str) -> tuple[JackSpec, ...]:
    """`{1-8: {family: rj45, rate: 1 Gb/s}}`; with one word after the colon, a passive jack of that family."""
    found: list[JackSpec] = []
    for names, value in _jack_table(reading, key):
        family, rate, side = (
            _passive(reading, value) if isinstance(value, Scalar) else _active(reading, value)
        )
        if family is not None:
            found.extend(JackSpec(name, family, rate, "", side) for name in names)
    return tuple(found)


def _passive(reading: Reading, value: Scalar) -> tuple[str | None, Figure, str]:
    family = as_text(value, reading.faults, "a jack's family")
    if family is not None and family not in JACK_FAMILIES:
        hint = did_you_mean(family, JACK_FAMILIES) if reading.faults.may_hint() else ""
        reading.wrong(value, f"'{clip(family)}' is no family of jacks{hint}")
        family = None
    return family, PASSIVE, "inside"


def _active(reading: Reading, value: Node) -> tuple[str | None, Figure, str]:
    jack = Reading(Fields(value, reading.faults, "a jack", _JACK_KEYS), reading.faults, reading.basis)
    if isinstance(value, Mapping):
        jack.fields.require("family")
    side = jack.fields.choice("side", ("inside", "outside")) or "inside"
    return jack.fields.choice("family", JACK_FAMILIES), jack.figure_or_unknown("rate", RATE), side


def openings(reading: Reading, key: str) -> tuple[JackSpec, ...]:
    """`{1-24: keystone}`: openings that jack modules fill."""
    found: list[JackSpec] = []
    for names, value in _jack_table(reading, key):
        opening = as_text(value, reading.faults, "an opening")
        if opening is not None:
            found.extend(JackSpec(name, "rj45", PASSIVE, opening) for name in names)
    return tuple(found)


def _jack_table(reading: Reading, key: str) -> Iterator[tuple[tuple[str, ...], Node]]:
    """The names that each entry of a table of jacks stands for, with its value."""
    count = 0
    for text, key_node, value in reading.fields.table(key):
        names = _some_jacks(reading, text, key_node)
        count += len(names)
        if count > MOST_JACKS:
            reading.wrong(key_node, f"with this one, the part has more than {MOST_JACKS:,} jacks")
            return
        if names:
            yield names, value


def _some_jacks(reading: Reading, text: str, node: Node) -> tuple[str, ...]:
    names = jack_names(text)
    if names is None:
        message = f"'{clip(text)}' is no jack and no range of jacks such as '1-8' or 'sfp1-sfp2'"
        reading.wrong(node, message)
    return names or ()


def jack_list(reading: Reading, key: str) -> tuple[str, ...]:
    """`1-8`, or `[1-8, sfp1]`."""
    names: list[str] = []
    for text, node in reading.fields.texts(key):
        names.extend(_some_jacks(reading, text, node))
        if len(names) > MOST_JACKS:
            reading.wrong(node, f"with this one, the list has more than {MOST_JACKS:,} jacks")
            return ()
    return tuple(names)


def passes(reading: Reading, key: str) -> tuple[Pass, ...]:
    """`{line: {to: device, power: passes}}`"""
    found: list[Pass] = []
    for near, _, value in reading.fields.table(key):
        fields = Fields(value, reading.faults, "a pass", _PASS_KEYS)
        if not isinstance(value, Mapping) or not (fields.require("to") and fields.require("power")):
            continue
        far = fields.text("to")
        power = fields.choice("power", ("passes", "blocks", "injects"))
        if far is not None and power is not None:
            found.append(Pass(near, far, power))
    return tuple(found)
