"""Heat: how well a cabinet's faces shed it, and what air equipment of each class may breathe."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read


class SurfaceFactor(NamedTuple):
    """The share of a face's area that counts: top-exposed, top-covered, side-exposed, side-covered, floor."""

    surface: str
    factor: float
    basis: Basis
    note: str


class CabinetHeat(NamedTuple):
    """Heat that a closed cabinet of `material` sheds per square metre of effective area and kelvin."""

    material: str
    heat_w_per_m2k: float
    basis: Basis
    note: str


class AirClass(NamedTuple):
    """Inlet temperatures in degrees Celsius."""

    name: str
    allowable_low_c: float
    allowable_high_c: float
    recommended_low_c: float
    recommended_high_c: float
    basis: Basis
    note: str

    def allows(self, celsius: float) -> bool:
        return self.allowable_low_c <= celsius <= self.allowable_high_c

    def recommends(self, celsius: float) -> bool:
        return self.recommended_low_c <= celsius <= self.recommended_high_c


class RoomAir(NamedTuple):
    """Degrees Celsius that a room of a `place` (indoors, outdoors) is taken to have where nobody says it.

    On the coldest day between `coldest_c` and `mild_cold_c`; on the warmest between `mild_warm_c` and `warmest_c`, usually `warm_c`.
    """

    place: str
    coldest_c: float
    mild_cold_c: float
    mild_warm_c: float
    warm_c: float
    warmest_c: float
    basis: Basis
    note: str


class AirLimits(NamedTuple):
    """Fractions: of a meshed door that is holes, of the free flow that a fan moves once built in; a hole's discharge."""

    mesh_open_least: Limit
    mesh_open_most: Limit
    discharge: Limit
    fan_in_place: Limit


@cache
def room_air() -> Mapping[str, RoomAir]:
    """By place: indoors, outdoors."""
    rows = (
        RoomAir(
            row.text("place"), row.number("coldest_c"), row.number("mild_cold_c"), row.number("mild_warm_c"),
            row.number("warm_c"), row.number("warmest_c"), row.basis, row.note,
        )
        for row in read("room_air")
    )  # fmt: skip
    return keyed(rows, lambda row: row.place)


@cache
def air_limits() -> AirLimits:
    return limits("air_limits", AirLimits)


@cache
def surface_factors() -> Mapping[str, SurfaceFactor]:
    rows = (
        SurfaceFactor(row.text("surface"), row.number("factor"), row.basis, row.note)
        for row in read("cabinet_surfaces")
    )
    return keyed(rows, lambda row: row.surface)


@cache
def cabinet_heat() -> Mapping[str, CabinetHeat]:
    """By material: painted-steel, plastic, aluminium."""
    rows = (
        CabinetHeat(row.text("material"), row.number("heat_w_per_m2k"), row.basis, row.note)
        for row in read("cabinet_heat")
    )
    return keyed(rows, lambda row: row.material)


@cache
def air_classes() -> Mapping[str, AirClass]:
    """By name: A1 to A4."""
    rows = (
        AirClass(
            row.text("class"), row.number("allowable_low_c"), row.number("allowable_high_c"),
            row.number("recommended_low_c"), row.number("recommended_high_c"), row.basis, row.note,
        )
        for row in read("air_classes")
    )  # fmt: skip
    return keyed(rows, lambda row: row.name)
