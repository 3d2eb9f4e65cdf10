"""Laws that hold for any figures: more cable never costs less, and units of length do not matter."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.physics.cabinet import fits, hole_heights_mm, occupied_units, opening_height_mm, shared_units
from firstfix.physics.channel import (
    Cord,
    FixedCable,
    channel_length,
    longest_cords,
    longest_link,
    temperature_factor,
)
from firstfix.physics.copper import PoweredPairs, Stretch, conductor_resistance, pair_loop, powered_loop
from firstfix.physics.fibre import link_loss
from firstfix.physics.poe import (
    Delivery,
    Infeasible,
    assigned_class,
    delivery_from_source,
    delivery_to_device,
    lldp_power,
    lldp_steps,
)
from firstfix.physics.range import at_least, at_most, total
from firstfix.physics.thermal import airflow_m3h, density_ratio, poe_heat, pressure_ratio
from firstfix.standards.poe import classes
from firstfix.units import LENGTH, parse_quantity

law = settings(derandomize=True, deadline=None, max_examples=100)

lengths = st.floats(0, 120)
more = st.floats(0, 50)
gauges = st.integers(22, 28)
cord_gauges = st.sampled_from([22, 24, 26, 28])
warmth = st.floats(-20, 60)
stretches = st.lists(
    st.builds(Stretch, st.just("cable"), lengths, gauges, warmth, st.just(1.0)), min_size=1, max_size=4
)
fixed_cables = st.lists(st.builds(FixedCable, st.just("cable"), lengths, warmth, st.booleans()), max_size=4)
cords = st.lists(st.builds(Cord, st.just("cord"), lengths, cord_gauges, warmth, st.booleans()), max_size=4)
powers = st.floats(0.1, 90)
volts = st.floats(44, 57)
ohms = st.floats(0, 20)


def source_power_by_bisection(device_w: float, source_v: float, loop_ohm: float) -> float | None:
    """The same answer by halving an interval: the smallest I with (V - R I) I >= P; None where there is none.

    Delivered power rises with current up to V / 2R, so the wanted current lies below that, if anywhere.
    """
    low, high = 0.0, source_v / (2 * loop_ohm)
    if (source_v - loop_ohm * high) * high < device_w:
        return None
    for _ in range(200):
        middle = (low + high) / 2
        if (source_v - loop_ohm * middle) * middle < device_w:
            low = middle
        else:
            high = middle
    return source_v * high


@law
@given(powers, volts, st.floats(0.01, 40))
def test_source_power_as_bisection_finds_it(device_w: float, source_v: float, loop_ohm: float) -> None:
    found = delivery_to_device(device_w, source_v, loop_ohm)
    expected = source_power_by_bisection(device_w, source_v, loop_ohm)
    if isinstance(found, Infeasible):
        assert expected is None
        assert found.most_w < device_w
    elif expected is not None:
        # Near the double root half of the digits go, in either method.
        assert found.source_w == pytest.approx(expected, rel=1e-6)


@law
@given(powers, volts, ohms)
def test_what_is_sent_arrives_or_is_lost(device_w: float, source_v: float, loop_ohm: float) -> None:
    found = delivery_to_device(device_w, source_v, loop_ohm)
    if isinstance(found, Delivery):
        assert found.source_w == pytest.approx(found.device_w + found.loss_w)
        assert found.source_w == pytest.approx(found.current_a * source_v)
        assert found.device_w == pytest.approx(found.current_a * found.device_v)
        back = delivery_from_source(found.source_w, source_v, loop_ohm)
        assert back.device_w == pytest.approx(device_w)


@law
@given(stretches, st.integers(0, 3), more, powers)
def test_a_longer_run_never_loses_less(pieces: list[Stretch], at: int, extra: float, device_w: float) -> None:
    piece = pieces[at % len(pieces)]
    longer = [*pieces, piece._replace(length_m=extra)]
    for pairs in (2, 4):
        short, long = powered_loop(pieces, 2, pairs), powered_loop(longer, 2, pairs)
        assert long.ohms >= short.ohms
        before, after = (delivery_to_device(device_w, 50, loop.ohms) for loop in (short, long))
        if isinstance(after, Delivery):
            assert isinstance(before, Delivery)
            assert after.loss_w >= before.loss_w
            assert after.device_v <= before.device_v


@law
@given(stretches, st.integers(0, 8), st.sampled_from([2, 4]))
def test_more_connections_never_lower_resistance(
    pieces: list[Stretch], connections: int, pairs: PoweredPairs
) -> None:
    fewer, one_more = powered_loop(pieces, connections, pairs), powered_loop(pieces, connections + 1, pairs)
    assert one_more.ohms - fewer.ohms == pytest.approx(0.2 if pairs == 2 else 0.1)


@law
@given(stretches, st.integers(0, 4))
def test_terms_add_up_and_pairs_share(pieces: list[Stretch], connections: int) -> None:
    pairset, four = powered_loop(pieces, connections, 2), powered_loop(pieces, connections, 4)
    pair = pair_loop(pieces, connections)
    for loop in (pairset, four, pair):
        assert loop.ohms == total(loop.terms)
    assert pair.ohms == pytest.approx(2 * pairset.ohms)
    assert four.ohms == pytest.approx(pairset.ohms / 2)
    assert powered_loop(pieces[::-1], connections, 2).ohms == pytest.approx(pairset.ohms, abs=1e-12)


@law
@given(gauges, lengths, warmth, st.floats(0, 30))
def test_warmer_and_thinner_resist_more(awg: int, length: float, celsius: float, kelvin: float) -> None:
    here = conductor_resistance(awg, length, celsius)
    assert conductor_resistance(awg, length, celsius + kelvin) >= here
    assert conductor_resistance(awg + 1, length, celsius) >= here
    assert conductor_resistance(awg, length, celsius, 0.629) >= here


@law
@given(fixed_cables, cords, st.integers(0, 7), more)
def test_equivalent_length_rises_with_each_term(
    fixed: list[FixedCable], loose: list[Cord], at: int, extra: float
) -> None:
    before = channel_length(fixed, loose)
    if at < len(fixed):
        piece = fixed[at]
        grown = channel_length(
            [*fixed[:at], piece._replace(length_m=piece.length_m + extra), *fixed[at + 1 :]], loose
        )
    else:
        grown = channel_length(fixed, [*loose, Cord("one more", extra, 24)])
    assert grown.equivalent_m >= before.equivalent_m
    assert grown.channel_m >= before.channel_m
    assert before.equivalent_m >= before.channel_m >= before.permanent_link_m
    assert len(before.terms) == len(fixed) + len(loose)


@law
@given(st.integers(0, 9000), cord_gauges)
def test_metres_and_feet_give_the_same(centimetres: int, awg: int) -> None:
    in_metres = parse_quantity(f"{centimetres / 100:.2f} m", LENGTH)
    in_feet = parse_quantity(f"{centimetres / 30.48:.12f} ft", LENGTH)
    assert isinstance(in_metres, float)
    assert isinstance(in_feet, float)
    one, other = (channel_length([FixedCable("cable", at)], []).equivalent_m for at in (in_metres, in_feet))
    assert one == pytest.approx(other, abs=1e-8)
    assert at_most(one, in_metres) == at_most(other, in_metres)
    assert longest_cords(in_metres, awg) == pytest.approx(longest_cords(in_feet, awg), abs=1e-8)
    assert conductor_resistance(awg, in_metres) == pytest.approx(conductor_resistance(awg, in_feet), abs=1e-8)


@law
@given(st.floats(0, 90), cord_gauges)
def test_the_longest_cords_just_fit(link: float, awg: int) -> None:
    length = longest_cords(link, awg)
    channel = channel_length([FixedCable("link", link)], [Cord("cords", length, awg)])
    assert at_most(channel.equivalent_m, 102)
    assert awg == 28 or channel.equivalent_m == pytest.approx(102)
    if awg < 28:
        assert not at_most(
            channel_length([FixedCable("link", link)], [Cord("cords", length + 0.01, awg)])[2], 102
        )


@law
@given(warmth, st.floats(0, 20), st.booleans())
def test_a_warmer_link_is_never_longer(celsius: float, kelvin: float, screened: bool) -> None:
    warmer = min(60.0, celsius + kelvin)
    assert temperature_factor(warmer, screened) >= temperature_factor(celsius, screened) >= 1
    assert temperature_factor(celsius, False) >= temperature_factor(celsius, True)
    some = [Cord("cords", 8, 26)]
    assert longest_link(warmer, screened, some) <= longest_link(celsius, screened, some)
    limit = longest_link(celsius, screened, some)
    assert at_most(channel_length([FixedCable("link", limit, celsius, screened)], some).equivalent_m, 102)


@law
@given(st.integers(0, 8), st.floats(0, 100))
def test_demotion_never_exceeds_the_request_or_the_port(requested: int, source_w: float) -> None:
    given_class = assigned_class(requested, source_w)
    assert given_class.device_w <= given_class.requested.pd_power_w
    assert at_most(given_class.reserved_w, source_w)
    assert given_class.demoted == (
        given_class.granted is not None and given_class.granted.number != requested
    )
    if given_class.granted is None:
        assert source_w < min(15.4, classes()[requested].pse_power_w)
        assert given_class.device_w == given_class.reserved_w == 0.0


@law
@given(st.integers(0, 8), st.floats(0, 100), st.floats(0, 50))
def test_a_stronger_port_never_grants_less(requested: int, source_w: float, extra: float) -> None:
    assert (
        assigned_class(requested, source_w + extra).device_w >= assigned_class(requested, source_w).device_w
    )


@law
@given(st.integers(1, 999))
def test_lldp_steps_come_back(steps: int) -> None:
    assert lldp_steps(lldp_power(steps)) == steps


@law
@given(lengths, st.floats(0, 4), st.integers(0, 6), st.integers(0, 6), more)
def test_a_longer_fibre_never_loses_less(
    length: float, each: float, pairs: int, splices: int, extra: float
) -> None:
    here = link_loss(length, each, pairs, splices)
    assert link_loss(length + extra, each, pairs, splices).loss_db >= here.loss_db
    assert link_loss(length, each, pairs + 1, splices).loss_db - here.loss_db == pytest.approx(0.75)
    assert link_loss(length, each, pairs, splices + 1).loss_db - here.loss_db == pytest.approx(0.3)
    assert here.loss_db == total(here.terms)


@law
@given(st.integers(1, 60), st.integers(1, 10), st.integers(1, 60), st.integers(1, 10))
def test_shared_units_as_sets_find_them(
    first: int, first_height: int, second: int, second_height: int
) -> None:
    one, other = occupied_units(first, first_height), occupied_units(second, second_height)
    assert list(shared_units(one, other)) == sorted(set(one) & set(other))
    assert fits(first, first_height, 42) == (set(one) <= set(range(1, 43)))


@law
@given(st.integers(1, 60))
def test_holes_lie_inside_and_mirror(units: int) -> None:
    height, holes = opening_height_mm(units), hole_heights_mm(units)
    assert len(holes) == 3 * units
    assert list(holes) == sorted(holes)
    assert [height - hole for hole in reversed(holes)] == pytest.approx(list(holes))


@law
@given(st.floats(0, 3000), st.floats(1, 60), st.floats(0, 5000))
def test_thin_air_needs_more_flow(heat: float, rise: float, altitude: float) -> None:
    at_sea = airflow_m3h(heat, rise)
    assert airflow_m3h(heat, rise, density_ratio(altitude)) >= at_sea * (1 - 1e-12)
    assert pressure_ratio(altitude) <= density_ratio(altitude)


@law
@given(st.floats(0, 500), st.floats(0, 1000), st.floats(0.5, 1))
def test_energy_of_a_powering_switch_is_kept(own: float, given_w: float, efficiency: float) -> None:
    found = poe_heat(own, given_w, efficiency)
    assert found.input_w == pytest.approx(found.heat_w + given_w)
    assert at_least(found.heat_w, own)


@law
@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_limits_kept_from_both_sides(figure: float, limit: float) -> None:
    assert at_most(figure, limit) == at_least(limit, figure) or math.isclose(figure, limit, rel_tol=1e-8)
    assert at_most(figure, figure)
    assert at_least(figure, figure)
