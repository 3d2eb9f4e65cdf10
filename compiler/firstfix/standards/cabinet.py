"""Cabinet geometry in millimetres: EIA/ECA-310 (IEC 60297), and what 10-inch cabinets do in practice."""

from functools import cache
from typing import NamedTuple

from firstfix.standards.table import Limit, limits


class CabinetDimensions(NamedTuple):
    rack_unit: Limit
    panel_clearance: Limit
    panel_width: Limit
    rail_opening: Limit
    hole_centres: Limit
    first_hole: Limit
    hole_pitch: Limit
    hole_gap_between_units: Limit
    square_hole: Limit
    holes_per_unit: Limit
    half_panel_width: Limit
    half_rail_opening: Limit
    half_hole_centres: Limit


class CabinetStability(NamedTuple):
    """`tip_angle`: degrees to which what stands on a floor may be tilted without falling."""

    tip_angle: Limit


@cache
def cabinet_dimensions() -> CabinetDimensions:
    return limits("cabinet_dimensions", CabinetDimensions)


@cache
def cabinet_stability() -> CabinetStability:
    return limits("cabinet_stability", CabinetStability)
