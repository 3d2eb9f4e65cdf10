"""The groups of facts of `forms.py` out of their tables: `exposure: {place: outdoor, uv: true, ingress: IP66}`.

A part that is like another says only what differs: each key of a group stands by itself.
"""

import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from firstfix.parts import forms
from firstfix.parts.facts import NOT_SAID, Figure
from firstfix.parts.forms import Word
from firstfix.parts.part import Part
from firstfix.parts.reading import Reading
from firstfix.source.fields import as_quantity
from firstfix.source.node import clip
from firstfix.units import (
    APPARENT_POWER,
    AREA,
    DURATION,
    ENERGY,
    LENGTH,
    LEVEL,
    MASS,
    POWER,
    TEMPERATURE,
    VOLTAGE,
    WAVELENGTH,
    Dimension,
)

# IEC 60529: IP, a digit against solids (0 to 6) and one against water (0 to 9), X where it was not tested, and letters.
_INGRESS = re.compile(r"IP[0-6X][0-9X][A-Z]{0,2}")
_ABSOLUTE_ZERO_C = -273.15

Reader = Callable[[Reading, str], Any]


class Group(NamedTuple):
    """The attribute of a part that a table is read into, its type, and each key's attribute and reader."""

    attribute: str
    form: Callable[[], Any]
    keys: Mapping[str, tuple[str, Reader]]


def read_groups(reading: Reading, base: Part) -> dict[str, Any]:
    """Each group that the part has a table for, laid over what `base` says of it."""
    found: dict[str, Any] = {}
    for key, group in GROUPS.items():
        table = reading.below(key, tuple(group.keys)) if reading.fields.value(key) is not None else None
        if table is not None:
            found[group.attribute] = _laid_over(table, group, getattr(base, group.attribute))
    return found


def _laid_over(table: Reading, group: Group, base: Any) -> Any:
    read = {
        attribute: value
        for key, (attribute, reader) in group.keys.items()
        if table.fields.value(key) is not None and (value := reader(table, key)) is not None
    }
    return (base or group.form())._replace(**read)


def _figure(dimension: Dimension) -> Reader:
    return lambda table, key: table.figure(key, dimension)


def _word(words: tuple[str, ...]) -> Reader:
    return lambda table, key: table.word(key, words)


def _celsius(table: Reading, key: str) -> Figure | None:
    return table.level(key, TEMPERATURE, _ABSOLUTE_ZERO_C)


def _light(table: Reading, key: str) -> Figure | None:
    return table.level(key, LEVEL, -100.0)


def _jack(table: Reading, key: str) -> str | None:
    return table.fields.text(key)


def _poe_class(table: Reading, key: str) -> Figure | None:
    return table.count(key, 0, 8)


def _ingress(table: Reading, key: str) -> Word | None:
    """`IP66`"""
    if table.says_unknown(key):
        return NOT_SAID
    text = table.fields.text(key)
    if text is None or _INGRESS.fullmatch(text):
        return text
    _, node = table.fields.entries[key]
    table.wrong(node, f"'{clip(text)}' is no code of IEC 60529 such as 'IP20' or 'IP66'")
    return None


def _lasts(table: Reading, key: str) -> tuple[tuple[float, float], ...]:
    """`{100 W: 22 min, 300 W: 6 min}`"""
    found: list[tuple[float, float]] = []
    for text, key_node, value in table.fields.table(key):
        load = as_quantity(key_node, table.faults, POWER, "a load")
        lasts = as_quantity(value, table.faults, DURATION, f"how long it lasts at {clip(text)}")
        if load is not None and lasts is not None:
            found.append((load, lasts))
    return tuple(sorted(found))


_length = _figure(LENGTH)

GROUPS: dict[str, Group] = {
    "exposure": Group(
        "exposure",
        forms.Exposure,
        {
            "place": ("place", _word(forms.PLACES)),
            "uv": ("uv", Reading.yes_no),
            "ingress": ("ingress", _ingress),
            "coldest": ("coldest", _celsius),
            "warmest": ("warmest", _celsius),
        },
    ),
    "cooling": Group(
        "cooling",
        forms.Cooling,
        {"by": ("by", _word(("passive", "fan"))), "above": ("above", _length), "below": ("below", _length)},
    ),
    "size": Group("size", forms.Size, {"width": ("width", _length), "height": ("height", _length)}),
    "cabinet": Group(
        "cabinet",
        forms.CabinetForm,
        {
            "mounting": ("mounting", _word(forms.MOUNTINGS)),
            "front": ("front", _word(forms.FRONTS)),
            "load": ("load", _figure(MASS)),
            "before-rails": ("before_rails", _length),
            "swing": ("swing", _length),
            "clear-width": ("clear_width", _length),
            "rails-back": ("rails_back", _length),
        },
    ),
    "shelf": Group(
        "shelf",
        forms.ShelfForm,
        {
            "load": ("load", _figure(MASS)),
            "clear-width": ("clear_width", _length),
            "tie-slots": ("tie_slots", Reading.yes_no),
        },
    ),
    "cover": Group(
        "cover",
        forms.CoverForm,
        {
            "form": ("form", _word(forms.COVERS)),
            "clear-under": ("clear_under", _length),
            "swing": ("swing", _length),
            "screw-head": ("screw_head", _length),
        },
    ),
    "fastener": Group(
        "fastener",
        forms.FastenerForm,
        {
            "form": ("form", _word(forms.FASTENERS)),
            "head": ("head", _word(forms.HEADS)),
            "head-height": ("head_height", _length),
            "length": ("length", _length),
        },
    ),
    "optics": Group(
        "optics",
        forms.Optics,
        {
            "wavelength": ("wavelength", _figure(WAVELENGTH)),
            "sends": ("sends", _light),
            "reads": ("reads", _light),
        },
    ),
    "battery": Group(
        "battery",
        forms.Battery,
        {
            "apparent": ("apparent", _figure(APPARENT_POWER)),
            "energy": ("energy", _figure(ENERGY)),
            "lasts": ("lasts", _lasts),
        },
    ),
    "surge": Group(
        "surge",
        forms.SurgeForm,
        {
            "line": ("line", _jack),
            "guarded": ("guarded", _jack),
            "earth": ("earth", _word(("screw terminal", "lead", "stud", "rail"))),
            "poe-class": ("poe_class", _poe_class),
        },
    ),
    "low-voltage": Group(
        "gives_low_voltage",
        forms.LowVoltage,
        {
            "voltage": ("voltage", _figure(VOLTAGE)),
            "power": ("power", _figure(POWER)),
            "efficiency": ("efficiency", Reading.ratio),
        },
    ),
    "pathway": Group(
        "pathway",
        forms.PathwayForm,
        {
            "form": ("form", _word(forms.PATHWAYS)),
            "inside": ("inside", _length),
            "outside": ("outside", _length),
            "length": ("length", _length),
            "clamps": ("clamps", _length),
        },
    ),
    "earth": Group(
        "earth",
        forms.EarthLead,
        {"area": ("area", _figure(AREA)), "length": ("length", _length)},
    ),
}
