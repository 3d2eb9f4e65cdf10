"""Mains and earthing figures. Local codes and a licensed electrician always come before them."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read


class MainsLimits(NamedTuple):
    """Fractions of a rating, and currents in milliampere."""

    continuous_load: Limit
    leakage_advised: Limit
    leakage_most: Limit
    touch_current_class_2: Limit
    touch_current_hand_held: Limit
    touch_current_class_1: Limit
    strong_earth_above: Limit
    residual_current: Limit
    power_factor_least: Limit
    backup_efficiency: Limit
    backup_depth: Limit
    conversion_least: Limit


class BondingLimits(NamedTuple):
    """`backbone_size` in kcmil per foot of length; `least_gauge` an AWG number."""

    backbone_size: Limit
    least_gauge: Limit


class Coupler(NamedTuple):
    """A plug or appliance coupler and its rated current; None where it is not used."""

    name: str
    current_a: float | None
    current_north_america_a: float | None
    basis: Basis
    note: str


class PlugFit(NamedTuple):
    """A plug that goes into a socket of another letter, as the letters of IEC/TR 60083 are used in the trade."""

    plug: str
    socket: str
    basis: Basis
    note: str


@cache
def plug_fits() -> Mapping[tuple[str, str], PlugFit]:
    """By plug and socket; a plug goes into a socket of its own letter without a row."""
    rows = (PlugFit(row.text("plug"), row.text("socket"), row.basis, row.note) for row in read("mains_plugs"))
    return keyed(rows, lambda row: (row.plug, row.socket))


@cache
def mains_limits() -> MainsLimits:
    return limits("mains_limits", MainsLimits)


@cache
def bonding_limits() -> BondingLimits:
    return limits("bonding_limits", BondingLimits)


@cache
def couplers() -> Mapping[str, Coupler]:
    """By name: C13, C19, BS 1363, CEE 7/4, CEE 7/16, NEMA 5-15, NEMA 5-20."""
    rows = (
        Coupler(
            row.text("coupler"), row.number_or_none("current_a"),
            row.number_or_none("current_north_america_a"), row.basis, row.note,
        )
        for row in read("mains_couplers")
    )  # fmt: skip
    return keyed(rows, lambda row: row.name)
