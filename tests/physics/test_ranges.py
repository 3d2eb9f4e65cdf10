"""Outside the range that its source covers, a formula refuses; exactly at the edge, it answers."""

import math
from collections.abc import Callable

import pytest

from firstfix.physics import cabinet, channel, copper, fibre, mains, pathway, poe, thermal
from firstfix.physics.range import OutOfRange, at_least, at_most, not_negative, positive, within

REFUSED: list[tuple[str, Callable[[], object]]] = [
    ("gauge too thick", lambda: copper.conductor_diameter_mm(-4)),
    ("gauge too thin", lambda: copper.conductor_diameter_mm(41)),
    ("negative length", lambda: copper.conductor_resistance(24, -1)),
    ("endless length", lambda: copper.conductor_resistance(24, math.inf)),
    ("length not a number", lambda: copper.conductor_resistance(24, math.nan)),
    ("hot conductor", lambda: copper.conductor_resistance(24, 1, 151)),
    ("better than silver", lambda: copper.conductor_resistance(24, 1, 20, 1.2)),
    ("no conductor", lambda: copper.conductor_resistance(24, 1, 20, 0)),
    ("negative cable", lambda: copper.highest_resistance(-1)),
    ("negative connections", lambda: copper.powered_loop([], -1, 2)),
    ("no such class", lambda: poe.poe_class(9)),
    ("no volts", lambda: poe.delivery_from_source(15.4, 0, 20)),
    ("all lost on the way", lambda: poe.delivery_from_source(60, 50, 50)),
    ("negative device", lambda: poe.delivery_to_device(-1, 50, 1)),
    ("negative resistance", lambda: poe.delivery_to_device(1, 50, -1)),
    ("negative port", lambda: poe.assigned_class(3, -1)),
    ("too much for LLDP", lambda: poe.lldp_steps(100)),
    ("nothing for LLDP", lambda: poe.lldp_steps(0)),
    ("steps beyond LLDP", lambda: poe.lldp_power(1000)),
    ("gains in a cascade", lambda: poe.cascade_budget(6, 5, 1.01)),
    ("cord too thin", lambda: channel.cord_derating(30)),
    ("cord too thick", lambda: channel.cord_derating(18)),
    ("cable too warm", lambda: channel.temperature_factor(60.1, False)),
    ("screened cable too warm", lambda: channel.temperature_factor(60.1, True)),
    ("link too long", lambda: channel.longest_cords(90.1, 24)),
    ("thin cord in a work area", lambda: channel.longest_work_area_cord(50, 28)),
    ("negative cord", lambda: channel.channel_length([], [channel.Cord("cord", -1, 24)])),
    ("cord better than cable", lambda: channel.iso_fixed_length("interconnect-outlet", "E", 1, 0.9)),
    ("negative fibre", lambda: fibre.link_loss(-1, 3, 0, 0)),
    ("fibre that amplifies", lambda: fibre.link_loss(1, -3, 0, 0)),
    ("negative splices", lambda: fibre.link_loss(1, 3, 0, -1)),
    ("no height", lambda: cabinet.panel_height_mm(0)),
    ("no units", lambda: cabinet.hole_heights_mm(0)),
    ("below the floor", lambda: cabinet.occupied_units(0, 1)),
    ("flat item", lambda: cabinet.occupied_units(1, 0)),
    ("no cabinet", lambda: thermal.effective_area(0, 1, 1, thermal.Standing.FREE)),
    ("no area", lambda: thermal.temperature_rise(10, 0, 5.5)),
    ("in space", lambda: thermal.density_ratio(12_000)),
    ("also in space", lambda: thermal.pressure_ratio(12_000)),
    ("no rise", lambda: thermal.airflow_m3h(100, 0)),
    ("supply of magic", lambda: thermal.poe_heat(1, 1, 1.1)),
    ("high voltage", lambda: mains.continuous_power(11_000, 10)),
    ("power factor above one", lambda: mains.backup_power(1500, 1.1)),
    ("no load", lambda: mains.backup_time(24, 9, 0.9, 0.8, 0)),
    ("no leakage", lambda: mains.devices_on_residual_current(0, 30, 0.25)),
    ("backbone too long", lambda: mains.bonding_backbone_awg(40)),
    ("no bore", lambda: pathway.fill_fraction((6.0,), 0)),
    ("no cables", lambda: pathway.fill_limit(0)),
    ("no cable", lambda: pathway.bend_radius_mm(0)),
    ("fewer than no circuits", lambda: pathway.mains_separation_mm("b", "none", -1)),
    ("air above the cable's rating", lambda: pathway.ampacity_factor(61, 60)),
]


@pytest.mark.parametrize("ask", [ask for _, ask in REFUSED], ids=[name for name, _ in REFUSED])
def test_outside_its_range_a_formula_refuses(ask: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        ask()


# Each range as its function's docstring states it: both ends still answer, a hair beyond either is refused.
EDGES: list[tuple[str, Callable[[float], object], float, float]] = [
    ("gauge", copper.conductor_diameter_mm, -3, 40),
    ("conductor temperature", lambda x: copper.conductor_resistance(24, 1, x), -60, 150),
    ("conductivity", lambda x: copper.conductor_resistance(24, 1, 20, x), 0.01, 1.1),
    ("cable temperature", lambda x: channel.temperature_factor(x, False), -60, 60),
    ("permanent link", lambda x: channel.longest_cords(x, 24), 0, 90),
    ("cord ratio", lambda x: channel.iso_fixed_length("interconnect-outlet", "E", 1, x), 1, 2),
    ("point ratio", lambda x: channel.iso_fixed_length("interconnect-outlet", "E", 1, 1, 1, x), 1, 2),
    ("cascade efficiency", lambda x: poe.cascade_budget(6, 5, x), 0.1, 1),
    ("altitude of density", thermal.density_ratio, -500, 11_000),
    ("altitude of pressure", thermal.pressure_ratio, -500, 11_000),
    ("temperature rise", lambda x: thermal.airflow_m3h(1, x), 1, 60),
    ("air ratio", lambda x: thermal.airflow_m3h(1, 1, x), 0.2, 1.1),
    ("supply efficiency", lambda x: thermal.poe_heat(1, 1, x), 0.5, 1),
    ("supply voltage", lambda x: mains.continuous_power(x, 1), 1, 1000),
    ("power factor", lambda x: mains.backup_power(1, x), 0.5, 1),
    ("battery efficiency", lambda x: mains.backup_time(1, 1, x, 1, 1), 0.1, 1),
    ("depth of discharge", lambda x: mains.backup_time(1, 1, 1, x, 1), 0.05, 1),
    ("share of a rating", lambda x: mains.devices_on_residual_current(1, 30, x), 0.01, 1),
    ("cable rating", lambda x: pathway.ampacity_factor(30, x), 50, 250),
    ("ambient", lambda x: pathway.ampacity_factor(x, 60), -40, 60),
]
WHOLE_EDGES: list[tuple[str, Callable[[int], object], int, int]] = [
    ("cord gauge", channel.cord_derating, 20, 28),
    ("class", poe.poe_class, 0, 8),
    ("steps", poe.lldp_power, 1, 999),
    ("units of holes", cabinet.hole_heights_mm, 1, 100),
    ("position", lambda x: cabinet.occupied_units(x, 1), 1, 100),
    ("height", lambda x: cabinet.occupied_units(1, x), 1, 100),
    ("cables", pathway.fill_limit, 1, 10_000),
    ("circuits", lambda x: pathway.mains_separation_mm("b", "none", x), 0, 10_000),
]


@pytest.mark.parametrize(
    ("ask", "low", "high"), [edge[1:] for edge in EDGES], ids=[edge[0] for edge in EDGES]
)
def test_a_range_ends_where_it_says(ask: Callable[[float], object], low: float, high: float) -> None:
    ask(low)
    ask(high)
    for beyond in (low - 1e-6, high + 1e-6):
        with pytest.raises(OutOfRange):
            ask(beyond)


@pytest.mark.parametrize(
    ("ask", "low", "high"), [edge[1:] for edge in WHOLE_EDGES], ids=[edge[0] for edge in WHOLE_EDGES]
)
def test_a_whole_range_ends_where_it_says(ask: Callable[[int], object], low: int, high: int) -> None:
    ask(low)
    ask(high)
    for beyond in (low - 1, high + 1):
        with pytest.raises(OutOfRange):
            ask(beyond)


def test_a_loop_that_would_eat_all_power_is_told_its_limit() -> None:
    with pytest.raises(OutOfRange) as caught:
        poe.delivery_from_source(60, 50, 50)
    assert caught.value.high == pytest.approx(50 / (60 / 50))
    assert poe.delivery_from_source(50, 50, 50).device_w == 0.0


def test_what_is_out_of_range_says_so() -> None:
    with pytest.raises(OutOfRange, match=r"^cord gauge 30 AWG is not within 20 to 28 AWG$") as caught:
        channel.cord_derating(30)
    assert (caught.value.what, caught.value.value, caught.value.low, caught.value.high) == (
        "cord gauge",
        30,
        20,
        28,
    )
    assert str(OutOfRange("share", 2, 0, 1)) == "share 2 is not within 0 to 1"


def test_the_guards_give_their_value_back() -> None:
    assert within("x", 1, 1, 2) == 1
    assert positive("x", 0.5) == 0.5
    assert not_negative("x", 0.0) == 0.0
    for bad in (0.0, -1.0, math.nan, math.inf):
        with pytest.raises(OutOfRange):
            positive("x", bad)
    for bad in (-1e-12, math.nan, math.inf):
        with pytest.raises(OutOfRange):
            not_negative("x", bad)


def test_exactly_at_a_limit_is_kept_and_a_step_beyond_is_not() -> None:
    assert at_most(0.1 + 0.2, 0.3)
    assert at_least(0.3, 0.1 + 0.2)
    assert at_most(90.0, 90.0)
    assert not at_most(90.001, 90.0)
    assert not at_least(89.999, 90.0)
    assert not at_most(math.nan, 90.0)
