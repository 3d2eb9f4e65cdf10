"""Power over a cable: the published classes against literals of their own, the root against other methods, and its laws.

Literals: IEEE Std 802.3 (2018), Clauses 33 and 145, as two public overviews of the amendments print them.
"""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from firstfix.physics.poe import (
    Delivery,
    Infeasible,
    assigned_class,
    cascade_budget,
    converted_draw,
    delivery_to_device,
    negotiated_power,
)
from firstfix.standards.poe import classes, poe_limits, types

law = settings(derandomize=True, deadline=None, max_examples=200)

# class: watts at the source, at the device, lowest volts of the source, type, pairs
PUBLISHED = {
    0: (15.4, 12.95, 44, 1, 2),
    1: (4.0, 3.84, 44, 1, 2),
    2: (7.0, 6.49, 44, 1, 2),
    3: (15.4, 12.95, 44, 1, 2),
    4: (30.0, 25.5, 50, 2, 2),
    5: (45.0, 40.0, 50, 3, 4),
    6: (60.0, 51.0, 50, 3, 4),
    7: (75.0, 62.0, 52, 4, 4),
    8: (90.0, 71.3, 52, 4, 4),
}
# type: pairs at the most, watts at the source, lowest volts of source and device
PUBLISHED_TYPES = {1: (2, 15.4, 44, 37), 2: (2, 30, 50, 42.5), 3: (4, 60, 50, 42.5), 4: (4, 90, 52, 41.1)}

powers = st.floats(0.1, 90)
volts = st.floats(37, 57)
ohms = st.floats(1e-6, 40)


@pytest.mark.parametrize("number", PUBLISHED)
def test_each_class_as_published(number: int) -> None:
    row = classes()[number]
    assert (row.pse_power_w, row.pd_power_w, row.pse_min_v, row.type, row.pairs) == PUBLISHED[number]


@pytest.mark.parametrize("number", PUBLISHED_TYPES)
def test_each_type_as_published(number: int) -> None:
    row = types()[number]
    assert (row.pairs_max, row.pse_power_w, row.pse_min_v, row.pd_min_v) == PUBLISHED_TYPES[number]


def test_there_are_no_other_classes_and_types() -> None:
    assert set(classes()) == set(PUBLISHED)
    assert set(types()) == set(PUBLISHED_TYPES)


@pytest.mark.parametrize("number", PUBLISHED)
def test_the_worst_channel_of_a_class_gives_its_source_power_back(number: int) -> None:
    """What the device of the class may draw, sent over 20, 12.5 or 6.25 ohm, takes what the class reserves.

    Device powers are published rounded: 40 W for 39.94 W costs 0.09 W at the source, the greatest difference.
    """
    source_w, device_w, least, _, pairs = PUBLISHED[number]
    loop = {44: 20.0, 50: 12.5, 52: 12.5}[least] * (0.5 if pairs == 4 else 1)
    found = delivery_to_device(device_w, least, loop)
    assert isinstance(found, Delivery)
    assert found.source_w == pytest.approx(source_w, abs=0.1)
    assert found.device_v >= types()[classes()[number].type].pd_min_v - 0.01


@law
@given(powers, volts, ohms)
def test_the_root_against_the_schoolbook_form(device_w: float, source_v: float, loop: float) -> None:
    """I = (V - sqrt(V^2 - 4 R P)) / 2 R, which loses digits as R goes to 0: hence the tolerance."""
    discriminant = source_v**2 - 4 * loop * device_w
    assume(abs(discriminant) > 1e-6)
    found = delivery_to_device(device_w, source_v, loop)
    if discriminant < 0:
        assert isinstance(found, Infeasible)
        return
    assert isinstance(found, Delivery)
    assert found.current_a == pytest.approx(
        (source_v - math.sqrt(discriminant)) / (2 * loop), rel=1e-6, abs=1e-7
    )


@law
@given(powers, volts, ohms)
def test_the_root_against_a_root_finder(device_w: float, source_v: float, loop: float) -> None:
    """Brent's method on the device's power knows no closed form. The lower branch lies below V / 2 R."""
    optimize = pytest.importorskip("scipy.optimize")
    highest = source_v / (2 * loop)

    def missing(current: float) -> float:
        return (source_v - loop * current) * current - device_w

    found = delivery_to_device(device_w, source_v, loop)
    if missing(highest) < -1e-9:
        assert isinstance(found, Infeasible)
    elif missing(highest) > 1e-3:
        assert isinstance(found, Delivery)
        root = optimize.brentq(missing, 0.0, highest, xtol=1e-14, rtol=1e-12)
        assert found.current_a == pytest.approx(root, rel=1e-7)


@law
@given(powers, volts, ohms, st.floats(1.001, 1.5))
def test_more_resistance_more_power_or_less_voltage_never_lose_less(
    device_w: float, source_v: float, loop: float, factor: float
) -> None:
    base = delivery_to_device(device_w, source_v, loop)
    harder = (
        delivery_to_device(device_w, source_v, loop * factor),
        delivery_to_device(device_w * factor, source_v, loop),
        delivery_to_device(device_w, source_v / factor, loop),
    )
    for each in harder:
        if isinstance(base, Infeasible):
            assert isinstance(each, Infeasible)
        elif isinstance(each, Delivery):
            assert each.loss_w >= base.loss_w
            assert each.source_w >= base.source_w


@law
@given(powers, volts, ohms, st.floats(0.1, 10))
def test_units_scale_as_they_must(device_w: float, source_v: float, loop: float, factor: float) -> None:
    """With volts times k and watts times k², amperes grow by k; with ohms times k and volts times k, amperes stay."""
    base = delivery_to_device(device_w, source_v, loop)
    assume(isinstance(base, Delivery) and base.device_v > 0.51 * source_v)
    assert isinstance(base, Delivery)
    larger = delivery_to_device(device_w * factor**2, source_v * factor, loop)
    stiffer = delivery_to_device(device_w * factor, source_v * factor, loop * factor)
    assert isinstance(larger, Delivery)
    assert isinstance(stiffer, Delivery)
    assert larger.current_a == pytest.approx(base.current_a * factor)
    assert stiffer.current_a == pytest.approx(base.current_a)


def test_more_than_a_quarter_of_v_squared_by_r_has_no_solution() -> None:
    assert delivery_to_device(50.01, 50, 12.5) == Infeasible(50.01, 50.0)  # type: ignore[arg-type]
    at_the_most = delivery_to_device(50.0, 50, 12.5)
    assert isinstance(at_the_most, Delivery)
    assert at_the_most.device_v == pytest.approx(25)


@pytest.mark.parametrize(
    ("device_w", "granted", "source_w"),
    [
        (9.0, 3, 10.0419),  # 44 V, 20 ohm: I = (44 - sqrt(1936 - 720)) / 40 = 0.22823 A
        (8.91, 3, 10.0419),  # asked for in whole steps: 9.0 W
        (12.95, 3, 15.4),
        (25.5, 4, 30.0),
        (20.0, 4, 22.5404),  # 50 V, 12.5 ohm: I = (50 - sqrt(2500 - 1000)) / 25 = 0.45081 A
        (99.0, 4, 30.0),  # no more than the class is granted
    ],
)
def test_what_is_kept_for_a_device_that_negotiates(device_w: float, granted: int, source_w: float) -> None:
    assert negotiated_power(device_w, granted) == pytest.approx(source_w, abs=0.001)


@law
@given(st.floats(0, 71.3), st.integers(0, 8))
def test_negotiating_never_keeps_more_than_the_class_nor_less_than_the_draw(
    draw: float, granted: int
) -> None:
    row = classes()[granted]
    kept = negotiated_power(draw, granted)
    assert kept <= row.pse_power_w
    assert kept >= min(draw, row.pd_power_w) - 1e-6
    step = poe_limits().lldp_step.value
    assert negotiated_power(min(draw + step, 71.3), granted) >= kept


@law
@given(st.integers(0, 8), st.floats(0, 3), st.floats(0.1, 1))
def test_what_is_handed_on_costs_what_was_granted(granted: int, own: float, efficiency: float) -> None:
    given_on = cascade_budget(granted, own, efficiency)
    assert converted_draw(own, given_on, efficiency) == pytest.approx(classes()[granted].pd_power_w)


@law
@given(st.integers(0, 8), st.floats(0, 100), st.floats(0, 50))
def test_a_stronger_port_never_grants_less(asked: int, port_w: float, more: float) -> None:
    weak, strong = assigned_class(asked, port_w), assigned_class(asked, port_w + more)
    assert strong.device_w >= weak.device_w
    assert strong.device_w <= classes()[asked].pd_power_w
