"""Copper pairs: conductor materials and the published limits of d.c. resistance."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read


class ConductorMaterial(NamedTuple):
    """`conductivity` as a ratio to annealed copper; `compliant`: data-cable specifications admit it."""

    name: str
    conductivity: float
    compliant: bool
    basis: Basis
    note: str


class ResistanceLimits(NamedTuple):
    conductor_per_100m: Limit
    channel_pair_loop: Limit
    permanent_link_pair_loop: Limit
    per_connection: Limit
    channel_unbalance_least: Limit
    channel_unbalance: Limit
    stranding: Limit


@cache
def conductor_materials() -> Mapping[str, ConductorMaterial]:
    """By name: copper, copper-clad-aluminium, copper-clad-aluminium-15."""
    rows = (
        ConductorMaterial(
            row.text("material"), row.number("conductivity_ratio"), row.flag("compliant"), row.basis, row.note
        )
        for row in read("conductor_materials")
    )
    return keyed(rows, lambda row: row.name)


@cache
def resistance_limits() -> ResistanceLimits:
    """In ohm (the per-100-m conductor limit at 20 °C) and as a fraction (unbalance)."""
    return limits("resistance_limits", ResistanceLimits)
