"""Each formula of physics once more by another method: root finders, integrals, networks of resistors, counting. See formula_oracles.

The oracles here import nothing of ours; figures of the standards are typed in anew.
"""

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import networkx as nx
import numpy as np
import pytest
import scipy.constants
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from firstfix.physics import cabinet, channel, copper, fibre, mains, pathway, poe, range, thermal
from firstfix.physics.channel import Cord, Verdict
from firstfix.physics.copper import PoweredPairs, Stretch
from firstfix.standards.optical import OpticalReach, optical_reach
from firstfix.standards.poe import classes
from firstfix.standards.twisted_pair import PairReach, pair_reach

law = settings(derandomize=True, deadline=None, max_examples=30)

# ANSI/TIA-568.2-D: what a metre of cord counts, by gauge; percent per kelvin by temperature.
CORD = {24: 1.2, 26: 1.5, 28: 1.95}


def loss_per_kelvin(celsius: float, screened: bool) -> float:
    if celsius < 20:
        return 0
    return 0.002 if screened else 0.004 if celsius < 40 else 0.006


@law
@given(st.floats(-20, 60), st.booleans())
def test_temperature_factor_by_an_integral(celsius: float, screened: bool) -> None:
    more, _ = quad(loss_per_kelvin, -30, celsius, args=(screened,), points=[20, 40], limit=100)
    assert channel.temperature_factor(celsius, screened) == pytest.approx(1 + more, abs=1e-6)


@law
@given(st.floats(-20, 60), st.booleans(), st.floats(0, 40), st.sampled_from([24, 26, 28]))
def test_longest_link_by_a_root_finder(celsius: float, screened: bool, cord_m: float, awg: int) -> None:
    factor = 1 + quad(loss_per_kelvin, -30, celsius, args=(screened,), points=[20, 40], limit=100)[0]

    def left(link_m: float) -> float:
        return 102 - factor * link_m - CORD[awg] * cord_m

    expected = min(90.0, brentq(left, 0, 200)) if left(0) > 0 else 0.0
    assert channel.longest_link(celsius, screened, [Cord("cords", cord_m, awg)]) == pytest.approx(
        expected, abs=1e-5
    )


@law
@given(st.floats(0, 90), st.sampled_from([24, 26, 28]))
def test_longest_cords_by_a_root_finder(link_m: float, awg: int) -> None:
    most = brentq(lambda cord_m: 102 - link_m - CORD[awg] * cord_m, 0, 120)
    most = min(most, 15) if awg == 28 else most
    assert channel.longest_cords(link_m, awg) == pytest.approx(most)
    if awg != 28:
        usual, longest = {24: (5.0, 22.0), 26: (3.5, 17.0)}[awg]
        assert channel.longest_work_area_cord(link_m, awg) == pytest.approx(np.clip(most - usual, 0, longest))


def test_cord_derating_by_gauge() -> None:
    """The thinner published gauge stands for one between; what is thicker than 24 counts as 24."""
    found = {awg: channel.cord_derating(awg).factor for awg in (20, 22, 24, 25, 26, 27, 28)}
    assert (min(found), max(found)) == channel.CORD_GAUGES
    assert found == {20: 1.2, 22: 1.2, 24: 1.2, 25: 1.5, 26: 1.5, 27: 1.95, 28: 1.95}


@law
@given(st.floats(0, 60), st.sampled_from([1.2, 1.5]), st.floats(0, 20), st.sampled_from([1.2, 1.5]))
def test_iso_fixed_length_by_a_root_finder(
    cords_m: float, ratio: float, point_m: float, point_ratio: float
) -> None:
    """ISO/IEC 11801 (2002), Table 21, cross-connect and consolidation point, Class E: 105 - 3 - F X - C Y."""

    def left(fixed_m: float) -> float:
        return 105 - 3 - fixed_m - cords_m * ratio - point_m * point_ratio

    expected = min(90.0, brentq(left, 0, 200)) if left(0) > 0 else 0.0
    found = channel.iso_fixed_length("crossconnect-point-outlet", "E", cords_m, ratio, point_m, point_ratio)
    assert found == pytest.approx(expected)


@pytest.mark.parametrize(
    ("length_m", "said"), [(37, Verdict.SURE), (37.1, Verdict.POSSIBLE), (55, Verdict.POSSIBLE), (55.1, Verdict.TOO_LONG)]
)  # fmt: skip
def test_reach_verdict_at_both_edges(length_m: float, said: Verdict) -> None:
    """TIA TSB-155-A: 10GBASE-T over unscreened category 6 is sure to 37 m, and possible to 55 m."""
    reach = pair_reach(10_000, "6", screened=False)
    assert isinstance(reach, PairReach)
    assert channel.reach_verdict(length_m, reach) is said


@law
@given(st.integers(-3, 39))
def test_wires_by_their_ratio(awg: int) -> None:
    """ASTM B258: 39 equal ratios from 0.4600 in (No. 0000, here -3) to 0.0050 in (No. 36)."""
    wires = np.geomspace(0.46, 0.005, 40)
    inches = wires[awg + 3] if awg <= 36 else wires[-1] * (wires[1] / wires[0]) ** (awg - 36)
    assert copper.conductor_diameter_mm(awg) == pytest.approx(inches * 25.4)
    assert copper.area_kcmil(awg) == pytest.approx((inches * 1000) ** 2 / 1000)
    round_mm2, _ = quad(lambda radius: 2 * math.pi * radius, 0, inches * 25.4 / 2)
    assert copper.conductor_area_mm2(awg) == pytest.approx(round_mm2)


wires = st.lists(st.tuples(st.floats(0.5, 100), st.sampled_from([22, 24, 26])), min_size=1, max_size=4)


@law
@given(wires, st.integers(0, 5), st.sampled_from([2, 4]))
def test_powered_loop_as_a_network_of_resistors(
    made: list[tuple[float, int]], connections: int, pairs: PoweredPairs
) -> None:
    """Every wire is an edge: half of them lead out, half back; networkx finds the resistance from end to end."""
    stretches = [Stretch("wire", length, awg) for length, awg in made]
    each = [copper.conductor_resistance(awg, length) for length, awg in made] + [0.2] * connections
    circuit: nx.Graph[str] = nx.Graph()
    for direction in ("out", "back"):
        for wire in range_of(pairs):
            places = [
                f"{direction} begin",
                *(f"{direction} {wire} {at}" for at in range_of(len(each) - 1)),
                f"{direction} end",
            ]
            for at, ohms in enumerate(each):
                key = (places[at], places[at + 1])
                have = circuit.edges[key]["ohms"] if circuit.has_edge(*key) else math.inf
                circuit.add_edge(*key, ohms=1 / (1 / have + 1 / ohms))
    circuit.add_edge("out end", "back end", ohms=1e-9)
    expected = nx.resistance_distance(circuit, "out begin", "back begin", weight="ohms")
    assert copper.powered_loop(stretches, connections, pairs).ohms == pytest.approx(expected, rel=1e-5)
    if pairs == 2:
        pair = math.fsum(2 * ohms for ohms in each)
        assert copper.pair_loop(stretches, connections).ohms == pytest.approx(pair)


def range_of(count: int) -> list[int]:
    return list(np.arange(count))


@law
@given(st.floats(0, 200))
def test_highest_resistance_adds_up_metre_by_metre(length_m: float) -> None:
    expected, _ = quad(lambda _: 0.0938, 0, length_m)
    assert copper.highest_resistance(length_m) == pytest.approx(expected)


@law
@given(st.floats(0, 5000), st.floats(0, 4), st.integers(0, 4), st.integers(0, 4))
def test_link_loss_as_light_that_is_left(length_m: float, per_km: float, pairs: int, splices: int) -> None:
    light = 10 ** (-per_km * length_m / 10_000)
    for _ in range_of(pairs):
        light *= 10**-0.075
    for _ in range_of(splices):
        light *= 10**-0.03
    found = fibre.link_loss(length_m, per_km, pairs, splices)
    assert found.loss_db == pytest.approx(-10 * math.log10(light), abs=1e-9)
    assert found.connectors_db == pytest.approx(0.75 * pairs)


@law
@given(st.floats(0, 400), st.integers(0, 3))
def test_optical_verdict_keeps_both_limits(length_m: float, pairs: int) -> None:
    """IEEE Std 802.3: 10GBASE-SR over OM3, 300 m and 2.6 dB; 40GBASE-SR4 over OM4, 150 m, 1.5 dB, 1.0 dB of it in connectors."""
    for phy, grade, metres, most, joints in (
        ("10GBASE-SR", "OM3", 300, 2.6, 9),
        ("40GBASE-SR4", "OM4", 150, 1.5, 1),
    ):
        reach = optical_reach(phy, grade)
        assert isinstance(reach, OpticalReach)
        loss = fibre.link_loss(length_m, 3.0, pairs, 0)
        found = fibre.optical_verdict(length_m, loss, reach)
        exact = Fraction(length_m) * 3 / 1000 + Fraction(3, 4) * pairs
        assert found.length_sure == (length_m <= metres)
        if abs(float(exact) - most) > 1e-6:
            assert found.loss_kept == (exact < most)
        assert found.connectors_kept == (Fraction(3, 4) * pairs <= joints)


@law
@given(st.floats(1, 500), st.floats(0.5, 63), st.floats(0.5, 1))
def test_continuous_and_backup_power(volts: float, amperes: float, factor: float) -> None:
    """NFPA 70, 210.20(A): the device bears 125 % of the continuous load. And real power as the mean of u(t) i(t)."""
    load = brentq(lambda watts: 1.25 * watts - volts * amperes, 0, volts * amperes + 1)
    assert mains.continuous_power(volts, amperes) == pytest.approx(load, rel=1e-6)
    angle = math.acos(factor)
    mean, _ = quad(lambda t: 2 * math.sin(t) * math.sin(t - angle), 0, 2 * math.pi)
    assert mains.backup_power(volts * amperes, factor) == pytest.approx(
        volts * amperes * mean / (2 * math.pi), rel=1e-6
    )


@law
@given(st.floats(6, 96), st.floats(1, 50), st.floats(0.5, 1), st.floats(0.2, 1), st.floats(10, 2000))
def test_backup_time_by_discharging(
    volts: float, hours: float, efficiency: float, depth: float, load: float
) -> None:
    """dE/dt = -P / eta from a full battery, until what may not be taken is left."""
    full = volts * hours * 3600
    seconds = mains.backup_time(volts, hours, efficiency, depth, load)
    run = solve_ivp(lambda _, __: [-load / efficiency], (0, seconds), [full], rtol=1e-9)
    assert run.y[0][-1] == pytest.approx(full * (1 - depth), rel=1e-6, abs=full * 1e-6)


@law
@given(st.floats(100, 900))
def test_backup_time_between_points_by_logarithms(load: float) -> None:
    points = ((100.0, 3600.0), (400.0, 700.0), (900.0, 200.0))
    logs = np.log(np.array(points))
    expected = math.exp(np.interp(math.log(load), logs[:, 0], logs[:, 1]))
    assert mains.backup_time_between(points, load) == pytest.approx(expected)


@law
@given(st.integers(1, 400), st.integers(10, 300), st.sampled_from([25, 30]))
def test_devices_on_residual_current_by_counting(leakage_hundredths: int, rating: int, percent: int) -> None:
    leakage = Fraction(leakage_hundredths, 100)
    count = 0
    while (count + 1) * leakage <= Fraction(rating * percent, 100):
        count += 1
    assert mains.devices_on_residual_current(float(leakage), rating, percent / 100) == count


@law
@given(st.floats(0, 32))
def test_bonding_backbone_by_feet_and_inches(length_m: float) -> None:
    """ANSI/TIA-607-D: 2 kcmil for each foot, No. 6 (26.24 kcmil) at the least."""
    wires = np.geomspace(0.46, 0.005, 40)[:10] * 1000
    wanted = max(2 * length_m / scipy.constants.foot, wires[9] ** 2 / 1000)
    assert mains.bonding_backbone_kcmil(length_m) == pytest.approx(wanted)
    enough = [awg for awg in range_of(10) if wires[awg] ** 2 / 1000 >= wanted - 1e-9]
    assert mains.bonding_backbone_awg(length_m) == max(enough) - 3


@law
@given(st.floats(-20, 59), st.sampled_from([60, 75, 90]))
def test_ampacity_factor_by_the_heat_that_can_leave(ambient: float, rating: float) -> None:
    """Warmth by I^2 R leaves in proportion to the difference: at 30 °C the rated current warms to the rating."""
    per_kelvin = 1 / (rating - 30)
    share = brentq(lambda current: current**2 / per_kelvin - (rating - ambient), 0, 4)
    assert pathway.ampacity_factor(ambient, rating) == pytest.approx(share)


def test_bends_bundles_and_fill_by_hand() -> None:
    """ANSI/TIA-568.0-D: 4 diameters at rest, fibre 10, pulled 8 and 20. TSB-184-A: 15 K. NFPA 70, Chapter 9: 53, 31, 40 %."""
    assert pathway.bend_radius_mm(6.5) == 26
    assert pathway.bend_radius_mm(3, "fibre", "pulling") == 60
    assert pathway.bundle_temperature(45).value == 60
    assert [pathway.fill_limit(count) for count in (1, 2, 3, 40)] == [0.53, 0.31, 0.4, 0.4]


@law
@given(st.integers(1, 100))
def test_mains_separation_by_steps(circuits: int) -> None:
    """EN 50174-2: a step for each three circuits up to 15, then one for each 15, the sixth from 76 on."""
    factor = 0.2 * math.ceil(circuits / 3) if circuits <= 15 else min(6, math.ceil(circuits / 15))
    for containment, least in (
        ("none", 100),
        ("open-metal", 75),
        ("perforated-metal", 50),
        ("solid-metal", 0),
    ):
        assert pathway.mains_separation_mm("b", containment, circuits) == pytest.approx(least * factor)


# IEEE Std 802.3 Clauses 33 and 145: what a class reserves at the source, and brings to the device [W].
SOURCE = {0: 15.4, 1: 4, 2: 7, 3: 15.4, 4: 30, 5: 45, 6: 60, 7: 75, 8: 90}
DEVICE = {0: 12.95, 1: 3.84, 2: 6.49, 3: 12.95, 4: 25.5, 5: 40, 6: 51, 7: 62, 8: 71.3}


@law
@given(st.integers(0, 8), st.floats(0, 100))
def test_assigned_class_by_going_down_the_ladder(asked: int, source_w: float) -> None:
    ladder = [asked, *(level for level in (8, 6, 4, 3) if level < asked)]
    expected = next((level for level in ladder if SOURCE[level] <= source_w), None)
    found = poe.assigned_class(asked, source_w).granted
    assert (None if found is None else found.number) == expected
    assert poe.poe_class(asked) is classes()[asked]


def test_assigned_on_port_for_each_pair_of_classes() -> None:
    for asked in SOURCE:
        for port in SOURCE:
            ladder = [asked, *(level for level in (8, 6, 4, 3) if level < asked)]
            expected = next((level for level in ladder if SOURCE[level] <= SOURCE[port]), None)
            found = poe.assigned_on_port(asked, port).granted
            assert (None if found is None else found.number) == expected


@law
@given(st.lists(st.integers(0, 8), max_size=48))
def test_reserved_power_in_tenths_of_a_watt(granted: list[int]) -> None:
    tenths = sum(round(SOURCE[each] * 10) for each in granted)
    assert poe.reserved_power(granted) == pytest.approx(tenths / 10)


@law
@given(st.sampled_from([3, 4, 6, 8]), st.floats(0.2, 12))
def test_negotiated_power_by_a_root_finder(granted: int, draw: float) -> None:
    volts, ohms = {3: (44, 20), 4: (50, 12.5), 6: (50, 6.25), 8: (52, 6.25)}[granted]
    asked = math.ceil(draw * 10 - 1e-8) / 10
    amperes = brentq(lambda current: (volts - ohms * current) * current - asked, 0, volts / (2 * ohms))
    assert poe.negotiated_power(draw, granted) == pytest.approx(volts * amperes, rel=1e-6)


@law
@given(st.floats(0.5, 60), st.floats(48, 57), st.floats(0.1, 6))
def test_conductor_current_by_kirchhoff(source_w: float, volts: float, ohms: float) -> None:
    delivery = poe.delivery_from_source(source_w, volts, ohms)
    assert delivery.current_a == pytest.approx(source_w / volts)
    assert delivery.device_w == pytest.approx(source_w - ohms * (source_w / volts) ** 2)
    pair_counts: tuple[PoweredPairs, ...] = (2, 4)
    for pairs in pair_counts:
        ways = int(pairs)
        out = np.linalg.solve(
            np.eye(ways) + np.ones((ways, ways)), np.full(ways, delivery.current_a * (ways + 1) / ways)
        )
        assert poe.conductor_current(delivery, pairs) == pytest.approx(out[0])


@law
@given(st.integers(1, 9990))
def test_lldp_by_fractions(hundredths: int) -> None:
    steps = math.floor(Fraction(hundredths, 1000) * 10 + Fraction(1, 2))
    if 1 <= steps <= 999:
        assert poe.lldp_steps(hundredths / 1000) == steps
        assert poe.lldp_power(steps) == pytest.approx(float(Fraction(steps, 10)))


@law
@given(st.integers(0, 8), st.floats(0, 5), st.floats(0.5, 1), st.floats(0, 60))
def test_cascades_keep_energy(granted: int, own: float, efficiency: float, given_w: float) -> None:
    budget = poe.cascade_budget(granted, own, efficiency)
    assert own + budget / efficiency == pytest.approx(DEVICE[granted], abs=1e-9)
    drawn = brentq(lambda watts: (watts - own) * efficiency - given_w, own, own + 200)
    assert poe.converted_draw(own, given_w, efficiency) == pytest.approx(drawn, abs=1e-6)


@law
@given(st.integers(1, 42))
def test_heights_by_sixteenths_of_an_inch(units: int) -> None:
    """A unit is 28/16 in; a panel is 1/32 in lower; holes at 4, 14 and 24 sixteenths from each unit's lower edge."""
    sixteenth = scipy.constants.inch * 1000 / 16
    assert cabinet.opening_height_mm(units) == pytest.approx(28 * units * sixteenth)
    assert cabinet.panel_height_mm(units) == pytest.approx((28 * units - 0.5) * sixteenth, abs=0.005)
    holes = [(28 * unit + at) * sixteenth for unit in range_of(units) for at in (4, 14, 24)]
    assert list(cabinet.hole_heights_mm(units)) == pytest.approx(holes)


SURFACES = {"top": 1.4, "covered top": 0.7, "face": 0.9, "covered face": 0.5}


@law
@given(st.floats(0.2, 2.2), st.floats(0.2, 1.2), st.floats(0.2, 1.2))
def test_effective_area_by_the_closed_forms_of_the_literature(high: float, wide: float, deep: float) -> None:
    """IEC TR 60890, Table III, summed up for each way of standing."""
    standing = thermal.Standing
    forms = {
        standing.FREE: 1.8 * high * (wide + deep) + 1.4 * wide * deep,
        standing.WALL: 1.4 * wide * (high + deep) + 1.8 * deep * high,
        standing.ROW_END: 1.4 * deep * (high + wide) + 1.8 * wide * high,
        standing.ROW_END_WALL: 1.4 * high * (wide + deep) + 1.4 * wide * deep,
        standing.ROW_MIDDLE: 1.8 * wide * high + 1.4 * wide * deep + deep * high,
        standing.ROW_MIDDLE_WALL: 1.4 * wide * (high + deep) + deep * high,
        standing.ROW_MIDDLE_WALL_COVERED: 1.4 * wide * high + 0.7 * wide * deep + deep * high,
    }
    assert set(forms) == set(standing)
    for each, expected in forms.items():
        assert thermal.effective_area(high, wide, deep, each) == pytest.approx(expected)


@law
@given(st.floats(1, 1000), st.floats(0.2, 6), st.floats(3, 12))
def test_temperature_rise_by_warming_up(heat: float, area: float, shed: float) -> None:
    """A cabinet of 10 kJ/K is warmed from cold until nothing changes any more."""
    capacity, until = 10_000.0, 40 * 10_000.0 / (area * shed)
    run = solve_ivp(lambda _, rise: [(heat - shed * area * rise[0]) / capacity], (0, until), [0.0], rtol=1e-8)
    assert thermal.temperature_rise(heat, area, shed) == pytest.approx(run.y[0][-1], rel=1e-4)


@settings(law, max_examples=20)
@given(st.floats(0, 5000))
def test_pressure_and_density_by_the_weight_of_the_air(altitude: float) -> None:
    """ISO 2533: dp/dh = -g p / (R T), T = 288.15 K - 6.5 K/km."""

    def weight(height: float, pressure: Any) -> Any:
        return [-scipy.constants.g * pressure[0] / (287.05287 * (288.15 - 0.0065 * height))]

    pressure = solve_ivp(weight, (0, altitude), [1.0], rtol=1e-10).y[0][-1]
    assert thermal.pressure_ratio(altitude) == pytest.approx(pressure, rel=1e-4)
    assert thermal.density_ratio(altitude) == pytest.approx(
        pressure * 288.15 / (288.15 - 0.0065 * altitude), rel=1e-4
    )


@law
@given(st.floats(0, 5000))
def test_other_units_by_their_definitions(figure: float) -> None:
    """The international table BTU and the foot, as scipy has them (CODATA, and by definition)."""
    assert thermal.btu_per_hour(figure) == pytest.approx(figure * 3600 / scipy.constants.Btu)
    assert thermal.cubic_feet_per_minute(figure) == pytest.approx(figure / scipy.constants.foot**3 / 60)


@law
@given(st.floats(0, 200), st.floats(0, 700), st.floats(0.5, 1))
def test_poe_heat_by_a_balance(own: float, given_w: float, efficiency: float) -> None:
    lost = brentq(lambda heat: (given_w + heat) * efficiency - given_w, 0, 800)
    assert thermal.poe_heat(own, given_w, efficiency).heat_w == pytest.approx(own + lost, abs=1e-6)


@law
@given(st.floats(1, 900), st.floats(0.9, 1.3))
def test_fan_exchange_by_the_air_that_passes(flow: float, density: float) -> None:
    joules, _ = quad(lambda _: density * flow / 3600 * 1005, 0, 1)
    assert thermal.fan_exchange(flow, density) == pytest.approx(joules)


tenths = st.integers(-10_000, 10_000)


@law
@given(tenths, tenths)
def test_limits_by_fractions(figure: int, limit: int) -> None:
    """What is written as tenths is equal where the tenths are; floats are only how it is carried."""
    assert range.at_most(figure / 10, limit / 10) == (figure <= limit)
    assert range.at_least(figure / 10, limit / 10) == (figure >= limit)
    assert range.at_most(math.fsum([figure / 30] * 3), figure / 10)


@law
@given(st.lists(tenths, max_size=9))
def test_totals_by_fractions(figures: list[int]) -> None:
    terms = tuple(range.Summand("each", figure / 10, "typed") for figure in figures)
    assert range.total(terms) == pytest.approx(
        float(sum((Fraction(each, 10) for each in figures), Fraction()))
    )


@pytest.mark.parametrize("value", [-1.0, 0.0, 0.5, 1.0, 1.5, math.nan, math.inf])
def test_guards_by_comparing(value: float) -> None:
    guards: tuple[tuple[Callable[[], float], bool], ...] = (
        (lambda: range.within("it", value, 0.0, 1.0), 0 <= value <= 1),
        (lambda: range.positive("it", value), 0 < value < math.inf),
        (lambda: range.not_negative("it", value), 0 <= value < math.inf),
    )
    for guard, inside in guards:
        if inside:
            assert guard() == value
        else:
            with pytest.raises(range.OutOfRange):
                guard()
