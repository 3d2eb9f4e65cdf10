"""Power over Ethernet by IEEE 802.3 Clauses 33 and 145: types, classes, demotion, further figures."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read

# What a port may be set to, the last to be switched off first (RFC 3621, pethPsePortPowerPriority; from memory). The RFC sets no
# default; that ports stand at low until somebody sets them is common practice, no source.
PRIORITIES = ("critical", "high", "low")
USUAL_PRIORITY = "low"


class PoeType(NamedTuple):
    """What a Type of source gives at most, within which volts, over which loop resistance per pairset."""

    number: int
    pairs_max: int
    pse_power_w: float
    pse_min_v: float
    pse_max_v: float
    pd_min_v: float
    pairset_current_ma: float
    pairset_loop_ohm: float
    basis: Basis
    note: str


class PoeClass(NamedTuple):
    """A power class: what its source must reserve, what its device may draw, and the worst case between.

    `type` is the lowest Type that can power it; `pairs`, how many carry the power; `loop_ohm`, the worst loop
    resistance over those pairs together; `pse_min_v`, the lowest voltage of that source.
    """

    number: int
    type: int
    pairs: int
    pse_power_w: float
    pse_min_v: float
    loop_ohm: float
    pd_power_w: float
    basis: Basis
    note: str


class DemotionLevel(NamedTuple):
    """A device that asks for more and sees `class_events` class events must live with class `level`."""

    class_events: int
    level: int
    basis: Basis
    note: str


class PoeLimits(NamedTuple):
    lldp_step: Limit
    lldp_most_steps: Limit
    port_ceiling: Limit
    cable_hottest: Limit
    bundle_power: Limit
    bundle_ambient: Limit


@cache
def types() -> Mapping[int, PoeType]:
    """The four Types by number."""
    rows = (
        PoeType(
            row.whole("type"), row.whole("pairs_max"), row.number("pse_power_w"), row.number("pse_min_v"),
            row.number("pse_max_v"), row.number("pd_min_v"), row.number("pairset_current_ma"),
            row.number("pairset_loop_ohm"), row.basis, row.note,
        )
        for row in read("poe_types")
    )  # fmt: skip
    return keyed(rows, lambda row: row.number)


@cache
def classes() -> Mapping[int, PoeClass]:
    """The classes 0 to 8 by number."""
    rows = (
        PoeClass(
            row.whole("class"), row.whole("type"), row.whole("pairs"), row.number("pse_power_w"),
            row.number("pse_min_v"), row.number("loop_ohm"), row.number("pd_power_w"), row.basis, row.note,
        )
        for row in read("poe_classes")
    )  # fmt: skip
    return keyed(rows, lambda row: row.number)


@cache
def demotion_levels() -> tuple[DemotionLevel, ...]:
    """Class events to level, fewest events first."""
    rows = (
        DemotionLevel(row.whole("class_events"), row.whole("class"), row.basis, row.note)
        for row in read("poe_demotion")
    )
    return tuple(sorted(rows))


@cache
def poe_limits() -> PoeLimits:
    return limits("poe_limits", PoeLimits)
