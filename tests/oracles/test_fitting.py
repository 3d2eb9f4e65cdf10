"""Formulas of cabinets and pipes against a second method, and each row of their tables once, against figures typed in anew."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.physics.cabinet import fastener_holes, mass_centre, plug_reach_mm, tip_angle_deg
from firstfix.physics.pathway import (
    cables_that_fit,
    fill_fraction,
    fill_limit,
    narrowest_bore_mm,
    plug_diagonal_mm,
)
from firstfix.physics.range import OutOfRange, at_most
from firstfix.standards.cabinet import cabinet_dimensions, cabinet_stability
from firstfix.standards.installation import bend_radii, conduit_fills, installation_limits, plug_sizes
from oracles import fitting

law = settings(derandomize=True, deadline=None, max_examples=80)
sizes = st.floats(0.5, 60)
masses = st.lists(st.tuples(st.floats(0, 60), st.floats(0, 2000)), min_size=1, max_size=6)

# EIA/ECA-310-E (2005); of 10-inch cabinets, common practice.
DIMENSIONS = {
    "rack_unit": 44.45, "panel_clearance": 0.79, "panel_width": 482.6, "rail_opening": 450, "hole_centres": 465.1,
    "first_hole": 6.35, "hole_pitch": 15.875, "hole_gap_between_units": 12.7, "square_hole": 9.5,
    "holes_per_unit": 3, "half_panel_width": 254, "half_rail_opening": 222, "half_hole_centres": 236.5,
}  # fmt: skip
LIMITS = {
    "pull_tension": 110, "bends_between_pull_points": 2, "pull_point_spacing": 30, "support_spacing": 1.5,
    "untwist": 0.013, "label_from_end": 0.3, "outdoor_jacket_indoors": 15, "starting_fill": 0.25,
    "bundle_cables": 24, "bundle_rise": 15, "bundle_ambient": 30,
}  # fmt: skip
# In mm: an eight-contact plug 0.46 in wide (IEC 60603-7), pluggable modules (INF-8074, SFF-8432), duplex LC and SC.
PLUGS = {"rj45": (11.7, 8), "sfp": (13.7, 8.6), "sfp-plus": (13.7, 8.6), "lc": (12.8, 10), "sc": (21.8, 9.3)}
BENDS = {
    ("twisted-pair", "at rest"): 4, ("twisted-pair", "pulling"): 8, ("fibre", "at rest"): 10, ("fibre", "pulling"): 20,
}  # fmt: skip


def test_rows() -> None:
    assert {name: each.value for name, each in cabinet_dimensions()._asdict().items()} == DIMENSIONS
    assert {name: each.value for name, each in installation_limits()._asdict().items()} == LIMITS
    assert {name: (row.width_mm, row.height_mm) for name, row in plug_sizes().items()} == PLUGS
    assert {key: row.times_diameter for key, row in bend_radii().items()} == BENDS
    assert [(row.cables_from, row.fraction) for row in conduit_fills()] == [(1, 0.53), (2, 0.31), (3, 0.4)]
    assert cabinet_stability().tip_angle.value == 10


def test_two_half_panels_are_wider_than_rails_of_the_full_width() -> None:
    """Why halves are joined to each other and not each to a rail: 10-inch panels are half of 20 inches."""
    known = cabinet_dimensions()
    assert 2 * known.half_panel_width.value > known.panel_width.value
    assert known.half_panel_width.value < known.hole_centres.value


@law
@given(sizes, sizes)
def test_two_cables_in_a_bore(first: float, second: float) -> None:
    assert narrowest_bore_mm((first, second)) == pytest.approx(fitting.two_in_a_bore(first, second), rel=1e-6)


def test_three_equal_cables_need_more_than_the_bound() -> None:
    """The bore round three touching circles is (1 + 2 / sqrt 3) d: the bound lies below, as it must."""
    assert narrowest_bore_mm((6.0, 6.0, 6.0)) == pytest.approx(12.0)
    assert narrowest_bore_mm((6.0, 6.0, 6.0)) <= (1 + 2 / math.sqrt(3)) * 6


@law
@given(st.lists(sizes, min_size=1, max_size=12), st.floats(1, 120))
def test_fill(diameters: list[float], bore: float) -> None:
    assert fill_fraction(tuple(diameters), bore) == pytest.approx(fitting.fill(diameters, bore))


@law
@given(st.lists(sizes, min_size=1, max_size=6), st.floats(0.5, 60))
def test_one_more_cable_never_needs_a_narrower_bore(diameters: list[float], another: float) -> None:
    assert narrowest_bore_mm((*diameters, another)) >= narrowest_bore_mm(tuple(diameters))


@law
@given(st.floats(2, 20), st.floats(5, 120))
def test_as_many_as_fit_keep_the_limit_and_can_lie_there(diameter: float, bore: float) -> None:
    count = cables_that_fit(diameter, bore)
    if count:
        assert at_most(fitting.fill([diameter] * count, bore), fill_limit(count))
        assert at_most(narrowest_bore_mm((diameter,) * count), bore)


@law
@given(sizes, sizes)
def test_plug_in_a_round_bore(width: float, height: float) -> None:
    assert plug_diagonal_mm(width, height) == pytest.approx(fitting.bore_of_plug(width, height))


@law
@given(st.floats(0, 80), st.floats(0, 100), st.floats(0, 20))
def test_cord_before_its_jack(plug: float, bend: float, thick: float) -> None:
    assert plug_reach_mm(plug, bend, thick) == pytest.approx(
        fitting.farthest_of_cord(plug, bend, thick), abs=1e-6
    )


@law
@given(masses)
def test_centre_of_gravity(things: list[tuple[float, float]]) -> None:
    if sum(mass for mass, _ in things) > 1e-3:
        assert mass_centre(tuple(things)) == pytest.approx(fitting.common_centre(things), rel=1e-6, abs=1e-6)


@law
@given(st.floats(50, 2000), st.floats(100, 1000))
def test_angle_at_which_it_falls(centre: float, base: float) -> None:
    assert tip_angle_deg(centre, base) == pytest.approx(fitting.tips_at(centre, base), abs=1e-6)
    assert tip_angle_deg(centre * 1.1, base) < tip_angle_deg(centre, base) < tip_angle_deg(centre, base * 1.1)


def test_single_figures_by_hand() -> None:
    # A square block as high as wide has its centre at half its height, and falls at 45 degrees.
    assert tip_angle_deg(300, 600) == pytest.approx(45)
    # 3, 4, 5.
    assert plug_diagonal_mm(3, 4) == 5
    assert plug_reach_mm(30, 24, 5.9) == pytest.approx(59.9)
    assert [fastener_holes(units) for units in (1, 2)] == [6, 12]


@pytest.mark.parametrize(
    "ask",
    [
        lambda: fastener_holes(0), lambda: fastener_holes(101), lambda: plug_reach_mm(-1, 1, 1),
        lambda: plug_reach_mm(1, -1, 1), lambda: plug_reach_mm(1, 1, math.nan), lambda: mass_centre(()),
        lambda: mass_centre(((0, 5),)), lambda: mass_centre(((-1, 5), (3, 5))), lambda: tip_angle_deg(0, 1),
        lambda: tip_angle_deg(1, 0), lambda: narrowest_bore_mm(()), lambda: narrowest_bore_mm((0,)),
        lambda: plug_diagonal_mm(0, 1), lambda: plug_diagonal_mm(1, math.inf),
    ],
)  # fmt: skip
def test_outside_its_range_a_formula_refuses(ask: object) -> None:
    with pytest.raises(OutOfRange):
        ask()  # type: ignore[operator]
