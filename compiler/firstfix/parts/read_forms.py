"""The shape of a part: how it sits in a cabinet, how big a cabinet is, what a cable or cord is made of."""

from typing import Any

from firstfix.parts.facts import NOT_SAID, exactly
from firstfix.parts.part import JACK_FAMILIES, CableForm, Outside, Part, RackForm
from firstfix.parts.reading import Reading
from firstfix.source.fields import as_quantity
from firstfix.source.node import describe
from firstfix.units import LENGTH, RACK_HEIGHT

# What a medium is made of and ends in, unless a part says otherwise.
_USUAL = {
    "copper": ("copper", "rj45"),
    "twinax": ("copper", "sfp-plus"),
    "fibre": ("glass", "lc"),
    "mains": ("copper", "mains"),
}
_CABLE_KEYS = (
    "medium", "category", "gauge", "stranded", "screened", "conductor", "rating", "lengths", "family",
    "diameter",
)  # fmt: skip


def rack(reading: Reading, base: Part) -> dict[str, Any]:
    """Height makes a part rack-mounted, or says how many units a cabinet has; width and depth go with it."""
    height = _whole_units(reading)
    if base.kind == "cabinet":
        return _cabinet(reading, base, height)
    fields = reading.fields
    if height is None and base.rack is None and "depth" not in fields and "width" not in fields:
        return {}
    form = base.rack or RackForm(0, "none", NOT_SAID)
    usual = form.width if form.width != "none" else "full"
    width = fields.choice("width", ("full", "half", "none")) or usual
    depth = reading.figure("depth", LENGTH) or form.depth
    units = form.height if height is None else height
    return {"rack": RackForm(units, width if units else "none", depth)}


def _whole_units(reading: Reading) -> int | None:
    height = reading.fields.quantity("height", RACK_HEIGHT, 1, 60)
    if height is None or height == int(height):
        return None if height is None else int(height)
    _, node = reading.fields.entries["height"]
    reading.wrong(node, f"'height' is a whole number of units such as '2U', not {describe(node)}")
    return None


def _cabinet(reading: Reading, base: Part, height: int | None) -> dict[str, Any]:
    depth = reading.fields.value("depth")
    if depth is not None:
        reading.wrong(depth, "a cabinet has a 'usable-depth' behind its rails, and a depth 'outside'")
    width = reading.fields.choice("width", ("full", "half")) or base.rail_width or "full"
    return {"rail_width": width, "units": base.units if height is None else height}


def outside(reading: Reading, key: str) -> Outside | None:
    """`{width: 600 mm, height: 640 mm, depth: 450 mm}`"""
    table = reading.below(key, Outside._fields)
    return (
        None
        if table is None
        else Outside(*(table.figure_or_unknown(each, LENGTH) for each in Outside._fields))
    )


def cable(reading: Reading, key: str) -> CableForm | None:
    """`{medium: copper, category: 6, gauge: 23, lengths: [100 m, 305 m]}`"""
    table = reading.below(key, _CABLE_KEYS)
    if table is None or not table.fields.require("medium"):
        return None
    fields = table.fields
    medium = fields.choice("medium", tuple(_USUAL)) or "copper"
    gauge = fields.integer("gauge", 10, 40)
    conductor, family = _USUAL[medium]
    return CableForm(
        medium,
        fields.text("category") or "",
        NOT_SAID if gauge is None else exactly(gauge, table.basis),
        fields.flag("stranded") or False,
        fields.flag("screened") or False,
        fields.choice("conductor", ("copper", "copper-clad-aluminium", "glass")) or conductor,
        fields.choice("rating", ("indoor", "outdoor", "buried")) or "indoor",
        _lengths(table),
        fields.choice("family", (*JACK_FAMILIES, "mains")) or family,
        table.figure_or_unknown("diameter", LENGTH),
    )


def _lengths(table: Reading) -> tuple[float, ...]:
    nodes = table.fields.items("lengths")
    read = (as_quantity(node, table.faults, LENGTH, "'lengths'", 0.05, 5000) for node in nodes)
    return tuple(sorted(each for each in read if each is not None))
