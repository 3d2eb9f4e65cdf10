"""Single examples and second methods for what the worked checks and laws leave out."""

import math

import pytest

from firstfix.physics import pathway, thermal
from firstfix.physics.channel import Cord, FixedCable, channel_length, cord_derating, iso_fixed_length
from firstfix.physics.copper import Stretch, conductor_area_mm2, highest_resistance, pair_loop, powered_loop
from firstfix.physics.fibre import link_loss, optical_verdict
from firstfix.physics.mains import backup_time, bonding_backbone_awg, bonding_backbone_kcmil
from firstfix.physics.poe import (
    Delivery,
    Infeasible,
    assigned_on_port,
    conductor_current,
    delivery_from_source,
    delivery_to_device,
)
from firstfix.physics.thermal import Standing, effective_area
from firstfix.standards.optical import optical_reach

# IEC TR 60890 (2014) gives the areas as closed forms too; H, W, D in metres.
CLOSED_FORMS = {
    Standing.FREE: lambda h, w, d: 1.8 * h * (w + d) + 1.4 * w * d,
    Standing.WALL: lambda h, w, d: 1.4 * w * (h + d) + 1.8 * d * h,
    Standing.ROW_END: lambda h, w, d: 1.4 * d * (h + w) + 1.8 * w * h,
    Standing.ROW_END_WALL: lambda h, w, d: 1.4 * h * (w + d) + 1.4 * w * d,
    Standing.ROW_MIDDLE: lambda h, w, d: 1.8 * w * h + 1.4 * w * d + d * h,
    Standing.ROW_MIDDLE_WALL: lambda h, w, d: 1.4 * w * (h + d) + d * h,
    Standing.ROW_MIDDLE_WALL_COVERED: lambda h, w, d: 1.4 * w * h + 0.7 * w * d + d * h,
}


@pytest.mark.parametrize("standing", Standing)
def test_effective_area_as_the_closed_form_has_it(standing: Standing) -> None:
    expected = CLOSED_FORMS[standing](2.1, 0.8, 0.6)
    assert effective_area(2.1, 0.8, 0.6, standing) == pytest.approx(expected)


def test_a_channel_of_several_gauges() -> None:
    """85 m of 23 AWG, a 5 m 26 AWG cord and a 2 m 24 AWG cord, 4 connections, added up by hand."""
    row = [Stretch("link", 85, 23), Stretch("cord", 5, 26), Stretch("lead", 2, 24)]
    by_hand = 0.85 * 6.6784 + 0.05 * 13.3904 + 0.02 * 8.4213 + 4 * 0.2
    loop = powered_loop(row, 4, 2)
    assert loop.ohms == pytest.approx(by_hand, abs=1e-4)
    assert [term.what for term in loop.terms] == ["link", "cord", "lead", "4 mated connections"]
    assert loop.terms[1].source == "5 m of 26 AWG, a wire of it 13.39 Ω per 100 m; IEC 60028"
    assert "IEC 60603-7" in loop.terms[3].source
    assert pair_loop(row, 4).ohms < 25


def test_a_compliant_channel_keeps_the_loop_limit() -> None:
    """100 m of the most resistive cable that is allowed and 4 connections: the published limits agree."""
    assert highest_resistance(100) == pytest.approx(9.38)
    assert 2 * (highest_resistance(100) + 4 * 0.2) < 25


def test_area_of_a_gauge_in_a_handbook() -> None:
    assert conductor_area_mm2(24) == pytest.approx(0.20473, abs=1e-5)
    assert conductor_area_mm2(6) == pytest.approx(13.30, abs=0.01)


def test_at_the_last_feasible_power_half_the_volts_arrive() -> None:
    edge = delivery_to_device(50, 50, 12.5)
    assert isinstance(edge, Delivery)
    assert edge.device_v == pytest.approx(25)
    beyond = delivery_to_device(50.001, 50, 12.5)
    assert isinstance(beyond, Infeasible)
    assert tuple(beyond) == pytest.approx((50.001, 50))


def test_rounding_does_not_make_the_edge_infeasible() -> None:
    """V² - 4 R P is a hair below zero here although the power is exactly the most there is."""
    source_v, loop_ohm = 48.1, 7.3
    most = source_v**2 / (4 * loop_ohm)
    hair = math.nextafter(most, math.inf)
    assert source_v**2 - 4 * loop_ohm * hair < 0
    assert isinstance(delivery_to_device(hair, source_v, loop_ohm), Delivery)


def test_without_cable_nothing_is_lost() -> None:
    found = delivery_to_device(25.5, 50, 0)
    assert isinstance(found, Delivery)
    assert (found.source_w, found.loss_w, found.device_v) == (25.5, 0.0, 50.0)
    assert delivery_from_source(0, 50, 12.5).device_w == 0.0


@pytest.mark.parametrize(
    ("source_w", "source_v", "pairs", "amperes"),
    [(30, 50, 2, 0.300), (60, 50, 4, 0.300), (90, 52, 4, 0.433)],
)
def test_current_per_conductor(source_w: float, source_v: float, pairs: int, amperes: float) -> None:
    delivery = delivery_from_source(source_w, source_v, 0)
    assert conductor_current(delivery, 2 if pairs == 2 else 4) == pytest.approx(amperes, abs=0.0005)


def test_a_port_known_by_its_class() -> None:
    assert assigned_on_port(8, 6).granted == assigned_on_port(6, 6).granted
    assert assigned_on_port(8, 6).demoted
    assert not assigned_on_port(6, 8).demoted
    denied = assigned_on_port(3, 2)
    assert denied.granted is None
    assert not denied.demoted


@pytest.mark.parametrize(
    ("awg", "counts_as"), [(22, 24), (23, 24), (24, 24), (25, 26), (26, 26), (27, 28), (28, 28)]
)
def test_a_cord_between_two_gauges_counts_as_the_thinner(awg: int, counts_as: int) -> None:
    assert cord_derating(awg).awg == counts_as


def test_the_terms_of_a_channel_say_why() -> None:
    found = channel_length(
        [FixedCable("loft run", 60, 45), FixedCable("hall run", 20)], [Cord("lead", 3, 26)]
    )
    assert [term.what for term in found.terms] == ["loft run", "hall run", "lead"]
    assert found.terms[0].value == pytest.approx(60 * 1.11)
    assert found.terms[0].source == (
        "60 m at 45 °C, factor 1.11 by 0.4 % per K from 20 °C and 0.6 % per K from 40 °C; "
        "ANSI/TIA-568.2-D (2018), insertion loss temperature dependence"
    )
    assert found.terms[1].source == "as laid"
    assert "26 AWG cord, factor 1.5; ANSI/TIA-568.2-D (2018)" in found.terms[2].source
    assert found.equivalent_m == pytest.approx(66.6 + 20 + 4.5)
    assert (found.permanent_link_m, found.channel_m) == (80.0, 83.0)


def test_an_unpublished_model_is_refused() -> None:
    with pytest.raises(LookupError):
        iso_fixed_length("interconnect-outlet", "Z", 5, 1.2)


def test_connectors_may_have_a_limit_of_their_own() -> None:
    reach = optical_reach("40GBASE-SR4", "OM4")
    assert reach is not None
    two = optical_verdict(10, link_loss(10, 3.0, 2, 0, connector_db=0.55), reach)
    assert two.loss_kept
    assert not two.connectors_kept
    assert optical_verdict(10, link_loss(10, 3.0, 2, 0, connector_db=0.5), reach).connectors_kept


def test_an_engineered_reach_is_possible_but_not_sure() -> None:
    reach = optical_reach("10GBASE-ER", "OS2")
    assert reach is not None
    found = optical_verdict(35_000, link_loss(35_000, 0.25, 2, 0, connector_db=0.3), reach)
    assert (found.length_sure, found.length_possible, found.loss_kept) == (False, True, True)


def test_a_loss_without_joints_has_one_term() -> None:
    assert [term.what for term in link_loss(100, 3.0, 0, 0).terms] == ["fibre"]


@pytest.mark.parametrize("bore", [4.0, 6.0, 8.5, 9.0, 11.0, 16.0, 21.0, 40.0])
def test_cables_that_fit_as_counting_finds_them(bore: float) -> None:
    fitting = [n for n in range(1, 60) if pathway.fill_fraction((6.0,) * n, bore) <= pathway.fill_limit(n)]
    assert pathway.cables_that_fit(6.0, bore) == max(fitting, default=0)


@pytest.mark.parametrize(("cables", "limit"), [(1, 0.53), (2, 0.31), (3, 0.40), (50, 0.40)])
def test_fill_limits(cables: int, limit: float) -> None:
    assert pathway.fill_limit(cables) == limit


@pytest.mark.parametrize(
    ("cable", "state", "radius"),
    [("twisted-pair", "pulling", 48), ("fibre", "at rest", 60), ("fibre", "pulling", 120)],
)
def test_bends_of_a_cable_of_6_mm(cable: str, state: str, radius: float) -> None:
    assert pathway.bend_radius_mm(6.0, cable, state) == radius


@pytest.mark.parametrize(
    ("circuits", "factor"),
    [
        (1, 0.2),
        (3, 0.2),
        (4, 0.4),
        (6, 0.4),
        (7, 0.6),
        (9, 0.6),
        (12, 0.8),
        (15, 1),
        (16, 2),
        (30, 2),
        (31, 3),
        (75, 5),
    ],
)
def test_the_power_factor_at_its_steps(circuits: int, factor: float) -> None:
    assert pathway.mains_separation_mm("b", "none", circuits) == pytest.approx(100 * factor)


def test_solid_metal_needs_no_distance() -> None:
    assert pathway.mains_separation_mm("b", "solid-metal", 50) == 0


def test_a_powered_bundle_is_warmer_than_its_air() -> None:
    warm = pathway.bundle_temperature(45)
    assert warm.value == 60
    assert warm.source.startswith("TIA TSB-184-A")


def test_the_thinnest_backbone_that_is_enough() -> None:
    for length in range(1, 33):
        awg = bonding_backbone_awg(length)
        wanted = bonding_backbone_kcmil(length)
        areas = {number: (0.005 * 92 ** ((36 - number) / 39) * 1000) ** 2 / 1000 for number in range(-3, 7)}
        assert areas[awg] >= wanted * (1 - 1e-9)
        assert awg == 6 or areas[awg + 1] < wanted


def test_the_common_airflow_constant_belongs_to_warm_air() -> None:
    """3.1 m³/h per watt and kelvin is met by air of 33 °C: density falls as absolute temperature rises."""
    density_at_33 = 1.204 * 293.15 / 306.15
    assert thermal.airflow_m3h(1, 1, density_at_33 / 1.2) == pytest.approx(3.1, abs=0.02)


def test_airflow_and_backup_time_from_first_principles() -> None:
    """Heat in an hour over the heat that a cubic metre takes; stored energy over load."""
    assert thermal.airflow_m3h(500, 10) == pytest.approx(500 * 3600 / (1.2 * 1005 * 10))
    assert backup_time(24, 9, 0.9, 0.8, 400) == pytest.approx(24 * 9 * 3600 * 0.9 * 0.8 / 400)
