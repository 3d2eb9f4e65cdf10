"""Putting cable in: pulling, bending, filling conduit, bundling, and keeping away from mains cable."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read


class InstallationLimits(NamedTuple):
    """Each with its own unit: metres, newton, kelvin, degrees Celsius, a count or a fraction."""

    pull_tension: Limit
    bends_between_pull_points: Limit
    pull_point_spacing: Limit
    support_spacing: Limit
    untwist: Limit
    label_from_end: Limit
    outdoor_jacket_indoors: Limit
    starting_fill: Limit
    bundle_cables: Limit
    bundle_rise: Limit
    bundle_ambient: Limit


class BendRadius(NamedTuple):
    """Smallest bend of a cable (twisted-pair, fibre) in a state (at rest, pulling), in outer diameters."""

    cable: str
    state: str
    times_diameter: float
    basis: Basis
    note: str


class ConduitFill(NamedTuple):
    """From this many cables on, cables may take this share of the bore."""

    cables_from: int
    fraction: float
    basis: Basis
    note: str


class SeparationDistance(NamedTuple):
    """Least distance S for a data cable's class (b, c, d) and its containment, before the power factor."""

    cable_class: str
    containment: str
    distance_mm: float
    basis: Basis
    note: str


class SeparationPower(NamedTuple):
    """From this many circuits (230 V, 20 A, single phase) on, the factor P."""

    circuits_from: int
    factor: float
    basis: Basis
    note: str


class PlugSize(NamedTuple):
    """Across a plug of this family, its latch pressed down: what has to pass a bore with a cord that is pulled in."""

    family: str
    width_mm: float
    height_mm: float
    basis: Basis
    note: str


@cache
def installation_limits() -> InstallationLimits:
    return limits("installation_limits", InstallationLimits)


@cache
def bend_radii() -> Mapping[tuple[str, str], BendRadius]:
    """By cable and state: ("twisted-pair", "at rest")."""
    rows = (
        BendRadius(row.text("cable"), row.text("state"), row.number("times_diameter"), row.basis, row.note)
        for row in read("bend_radius")
    )
    return keyed(rows, lambda row: (row.cable, row.state))


@cache
def conduit_fills() -> tuple[ConduitFill, ...]:
    """Fewest cables first."""
    return tuple(
        sorted(
            ConduitFill(row.whole("cables_from"), row.number("fill_fraction"), row.basis, row.note)
            for row in read("conduit_fill")
        )
    )


@cache
def separation_distances() -> Mapping[tuple[str, str], SeparationDistance]:
    """By class and containment (none, open-metal, perforated-metal, solid-metal)."""
    rows = (
        SeparationDistance(
            row.text("cable_class"), row.text("containment"), row.number("distance_mm"), row.basis, row.note
        )
        for row in read("separation_distance")
    )
    return keyed(rows, lambda row: (row.cable_class, row.containment))


@cache
def separation_powers() -> tuple[SeparationPower, ...]:
    """Fewest circuits first."""
    return tuple(
        sorted(
            SeparationPower(row.whole("circuits_from"), row.number("factor"), row.basis, row.note)
            for row in read("separation_power")
        )
    )


@cache
def plug_sizes() -> Mapping[str, PlugSize]:
    """By family of jacks."""
    rows = (
        PlugSize(row.text("family"), row.number("width_mm"), row.number("height_mm"), row.basis, row.note)
        for row in read("plug_sizes")
    )
    return keyed(rows, lambda row: row.family)
