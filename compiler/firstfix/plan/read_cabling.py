"""`cabling:`: parts, allowances and colours of whatever a link does not say itself."""

import re

from firstfix.finding.collector import Collector
from firstfix.plan.colours import read_colour
from firstfix.plan.model import PLUGS, SPLICED, CablingSpec, CordColours, Written
from firstfix.plan.read_places import MOST_IN_BUNDLE
from firstfix.source.fields import Fields, as_quantity
from firstfix.source.node import Scalar, describe
from firstfix.units import LENGTH

_CABLING_KEYS = (
    "indoor", "outdoor", "buried", "cords", "jacks", "plugs", "fibre", "direct-attach", "slack", "drop", "dressing", "desk-cord",
    "bundle", "colours", "spares", "fibre-ends",
)  # fmt: skip

# Allowances used where a plan has none of its own; common practice, no source, and said in each length's terms.
SLACK_EACH_END = 1.5
DROP = 2.0
DRESSING_EACH_END = 0.15
DESK_CORD = 2.0
# One spare for each ten of a lot, and at least one: common practice, no source. `spares: none` buys none.
SPARE_FOR_EACH = 10

_SPARES = re.compile(r"1 in ([1-9][0-9]{0,2})")
_EACH_END = re.compile(r"(.*?)\s+(?:at )?each end")


def read_cabling(fields: Fields, faults: Collector) -> CablingSpec:
    cabling = fields.below("cabling", "'cabling'", _CABLING_KEYS)
    if cabling is None:
        cabling = Fields(fields.node, faults, "'cabling'", fields.entries)
        cabling.entries = {}
    return CablingSpec(
        cabling.text("indoor") or "cat6-indoor",
        cabling.text("outdoor") or "cat6-outdoor",
        cabling.text("buried") or "cat6-buried",
        cabling.text("cords") or "cord-cat6",
        cabling.text("jacks") or "jack-cat6",
        cabling.text("plugs") or "plug-cat6",
        cabling.text("fibre") or "fibre-os2-indoor",
        cabling.text("direct-attach") or "direct-attach-sfp-plus",
        _slack(cabling, faults),
        _length(cabling, "drop", DROP),
        _length(cabling, "dressing", DRESSING_EACH_END),
        _length(cabling, "desk-cord", DESK_CORD),
        Written(None, cabling.node) if "cabling" in fields else None,
        cabling.integer("bundle", 1, MOST_IN_BUNDLE),
        _colours(cabling),
        _spares(cabling),
        cabling.choice("fibre-ends", (SPLICED, PLUGS)) or SPLICED,
    )


def _length(cabling: Fields, key: str, otherwise: float) -> float:
    value = cabling.quantity(key, LENGTH, 0, 100)
    return otherwise if value is None else value


def _slack(cabling: Fields, faults: Collector) -> float:
    """`1.5 m`, or `1.5 m each end`, which means the same."""
    node = cabling.value("slack")
    if node is None:
        return SLACK_EACH_END
    said = _EACH_END.fullmatch(node.text) if isinstance(node, Scalar) else None
    if said is not None and isinstance(node, Scalar):
        node = node.saying(said[1])
    value = as_quantity(node, faults, LENGTH, "'slack'", 0, 100)
    return SLACK_EACH_END if value is None else value


def _colours(cabling: Fields) -> CordColours:
    """`{cords: grey, tagged: blue, runs: violet}`"""
    colours = cabling.below("colours", "'colours'", CordColours._fields)
    return (
        CordColours()
        if colours is None
        else CordColours(*(read_colour(colours, each) for each in CordColours._fields))
    )


def _spares(cabling: Fields) -> int:
    """`1 in 10`, or `none`."""
    node = cabling.value("spares")
    if node is None:
        return SPARE_FOR_EACH
    if isinstance(node, Scalar):
        if node.text == "none":
            return 0
        said = _SPARES.fullmatch(node.text)
        if said is not None:
            return int(said[1])
    cabling.wrong(
        node, f"'spares' is 'none', or one for each so many, such as '1 in 10', not {describe(node)}"
    )
    return SPARE_FOR_EACH
