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


@pytest.mark.parametrize(
    "ask",
    [
        lambda: copper.conductor_diameter_mm(-3),
        lambda: copper.conductor_diameter_mm(40),
        lambda: channel.temperature_factor(60, False),
        lambda: channel.longest_cords(90, 24),
        lambda: channel.cord_derating(20),
        lambda: poe.lldp_steps(99.9),
        lambda: thermal.density_ratio(11_000),
        lambda: pathway.ampacity_factor(60, 60),
    ],
)
def test_at_the_edge_a_formula_answers(ask: Callable[[], object]) -> None:
    ask()


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
