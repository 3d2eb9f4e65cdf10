"""The shape of a part: how it sits in a cabinet, how big a cabinet is, what a cable or cord is made of."""

from typing import Any

from firstfix.parts.facts import NOT_SAID
from firstfix.parts.forms import COUPLERS, EARS, FIRE_CLASSES, PLACES, SOCKETS
from firstfix.parts.part import JACK_FAMILIES, CableForm, Outside, Part, RackForm
from firstfix.parts.reading import Reading
from firstfix.source.fields import as_quantity
from firstfix.source.node import clip, describe
from firstfix.units import CURRENT, LENGTH, RACK_HEIGHT

# What a medium is made of and ends in, unless a part says otherwise.
_USUAL = {
    "copper": ("copper", "rj45"),
    "twinax": ("copper", "sfp-plus"),
    "fibre": ("glass", "lc"),
    "mains": ("copper", "mains"),
}
FORM_KEYS = ("height", "width", "depth", "front-depth", "plug-space", "ears")
_CABLE_KEYS = (
    "medium", "category", "gauge", "stranded", "screened", "conductor", "rating", "lengths", "family",
    "diameter", "bend", "bend-pulling", "fire-class", "plug-length", "fibres", "reels",
    "ends", "current",
)  # fmt: skip


def rack(reading: Reading, base: Part) -> dict[str, Any]:
    """Height makes a part rack-mounted, or says how many units a cabinet has; width and depth go with it."""
    height = _whole_units(reading)
    if base.kind == "cabinet":
        return _cabinet(reading, base, height)
    fields = reading.fields
    if height is None and base.rack is None and not any(key in fields for key in FORM_KEYS):
        return {}
    form = base.rack or RackForm(0, "none", NOT_SAID)
    usual = form.width if form.width != "none" else "full"
    width = fields.choice("width", ("full", "half", "none")) or usual
    depth = reading.figure("depth", LENGTH) or form.depth
    units = form.height if height is None else height
    return {
        "rack": RackForm(
            units,
            width if units else "none",
            depth,
            reading.figure("front-depth", LENGTH) or form.front_depth,
            reading.figure("plug-space", LENGTH) or form.plug_space,
            reading.word("ears", EARS) or form.ears,
        )
    }


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
    for key in ("front-depth", "plug-space", "ears"):
        node = reading.fields.value(key)
        if node is not None:
            reading.wrong(node, f"a cabinet has no '{key}'; that is said of what is mounted in it")
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


def cable(reading: Reading, key: str, base: CableForm | None) -> CableForm | None:
    """`{medium: copper, category: 6, gauge: 23, lengths: [100 m, 305 m]}`, laid over `base` of the same medium."""
    table = reading.below(key, _CABLE_KEYS)
    if table is None or (base is None and not table.fields.require("medium")):
        return None
    fields = table.fields
    medium = fields.choice("medium", tuple(_USUAL)) or (base.medium if base else "copper")
    form = base if base is not None and base.medium == medium else _blank(medium)
    stranded, screened = fields.flag("stranded"), fields.flag("screened")
    return CableForm(
        medium,
        fields.text("category") or form.category,
        table.count("gauge", 10, 40) or form.gauge_awg,
        form.is_stranded if stranded is None else stranded,
        form.is_screened if screened is None else screened,
        fields.choice("conductor", ("copper", "copper-clad-aluminium", "glass")) or form.conductor,
        fields.choice("rating", PLACES) or form.rating,
        _lengths(table, "lengths") or form.lengths,
        fields.choice("family", (*JACK_FAMILIES, "mains")) or form.family,
        table.figure("diameter", LENGTH) or form.diameter,
        table.figure("bend", LENGTH) or form.bend,
        table.figure("bend-pulling", LENGTH) or form.bend_pulling,
        table.word("fire-class", FIRE_CLASSES) or form.fire_class,
        table.figure("plug-length", LENGTH) or form.plug_length,
        fields.integer("fibres", 1, 1000) or form.fibres,
        _lengths(table, "reels") or form.reels,
        _ends(table) or form.ends,
        table.figure("current", CURRENT) or form.current,
    )


def _blank(medium: str) -> CableForm:
    conductor, family = _USUAL[medium]
    return CableForm(medium, "", NOT_SAID, False, False, conductor, "indoor", (), family)


def _ends(table: Reading) -> tuple[str, ...]:
    """`[local, C13]`"""
    found = []
    for text, node in table.fields.texts("ends"):
        if text in SOCKETS or text in COUPLERS:
            found.append(text)
        else:
            table.wrong(node, f"'{clip(text)}' is no plug's letter, no coupler such as 'C13' and not 'local'")
    return tuple(found)


def _lengths(table: Reading, key: str) -> tuple[float, ...]:
    nodes = table.fields.items(key)
    read = (as_quantity(node, table.faults, LENGTH, f"'{key}'", 0.05, 5000) for node in nodes)
    return tuple(sorted(each for each in read if each is not None))
