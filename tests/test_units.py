"""Quantities: factors against NIST SP 811 (2008), appendix B.8; a number without a unit is never guessed at."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix import units
from firstfix.units import DIMENSIONS, Dimension, QuantityFault, parse_quantity

# NIST SP 811, B.8; those in bold there are exact: inch, foot, yard, pound. Ounce, BTU: to the seven digits printed.
FACTORS = (
    (units.LENGTH, "in", 2.54e-02), (units.LENGTH, "ft", 3.048e-01), (units.LENGTH, "yd", 9.144e-01),
    (units.MASS, "lb", 4.535924e-01), (units.MASS, "oz", 2.834952e-02), (units.POWER, "BTU/h", 2.930711e-01),
    (units.DURATION, "h", 3.6e03), (units.DURATION, "day", 8.64e04), (units.DURATION, "min", 6.0e01),
)  # fmt: skip


@pytest.mark.parametrize(("dimension", "unit", "factor"), FACTORS)
def test_factor_is_the_published_one(dimension: Dimension, unit: str, factor: float) -> None:
    assert dimension.units[unit].factor == pytest.approx(factor, rel=2e-7)
    assert parse_quantity(f"1 {unit}", dimension) == pytest.approx(factor, rel=2e-7)


# NIST SP 811, B.8: t/degC = (t/degF - 32)/1.8; the fixed points of water, and where both scales meet.
@pytest.mark.parametrize(
    ("text", "celsius"), [("32 °F", 0.0), ("212 F", 100.0), ("-40 F", -40.0), ("273.15 K", 0.0)]
)
def test_temperature(text: str, celsius: float) -> None:
    assert parse_quantity(text, units.TEMPERATURE) == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda each: each.name)
def test_no_unit_offers_units(dimension: Dimension) -> None:
    fault = parse_quantity("12", dimension)
    assert isinstance(fault, QuantityFault)
    assert fault.problem == "'12' has no unit"
    assert fault.suggestions
    assert all(isinstance(parse_quantity(each, dimension), float) for each in fault.suggestions)


@pytest.mark.parametrize(
    ("text", "dimension", "problem"),
    [
        ("41 W", units.LENGTH, "'W' is a unit of power, not of length"),
        ("41 M", units.LENGTH, "'M' is not a unit; its letters' case matters"),
        ("41 parsec", units.LENGTH, "'parsec' is not a unit of length"),
        ("long", units.LENGTH, "'long' is not a length"),
        ("1e3 m", units.LENGTH, "'e3 m' is not a unit of length"),
        ("\u0664 m", units.LENGTH, "'\u0664 m' is not a length"),
        ("1,5 m", units.LENGTH, "'1,5 m' has a comma, and decimals are written with a point"),
        ("8-9 m", units.LENGTH, "'8-9 m' is a range, and one figure is asked for"),
    ],
)  # fmt: skip
def test_fault(text: str, dimension: Dimension, problem: str) -> None:
    fault = parse_quantity(text, dimension)
    assert isinstance(fault, QuantityFault)
    assert fault.problem == problem


@pytest.mark.parametrize(
    ("text", "dimension", "written"),
    [
        ("1,5 m", units.LENGTH, ("1.5 m",)),
        ("1,500 m", units.LENGTH, ("1.500 m", "1500 m")),
        ('2"', units.LENGTH, ("2 in",)),
        ("65'", units.LENGTH, ("65 ft",)),
        ("8 metres", units.LENGTH, ("8 m",)),
        ("~8 m", units.LENGTH, ("8 m",)),
        ("10gb", units.RATE, ("10 Gb/s",)),
        ("27 degrees", units.TEMPERATURE, ("27 °C", "27 °F")),
        ("6 mm", units.AREA, ("6 mm2",)),
        # Whoever writes amperes for watts gets no figure in watts put into his mouth, nor is a power of ten cut off.
        ("0.5 A", units.POWER, ()),
        ("1e3 m", units.LENGTH, ()),
        ("long", units.LENGTH, ()),
    ],
)  # fmt: skip
def test_what_was_meant(text: str, dimension: Dimension, written: tuple[str, ...]) -> None:
    fault = parse_quantity(text, dimension)
    assert isinstance(fault, QuantityFault)
    assert fault.suggestions == written


@settings(derandomize=True, deadline=None)
@given(st.text(max_size=12), st.sampled_from(DIMENSIONS))
def test_what_is_offered_is_a_quantity(text: str, dimension: Dimension) -> None:
    fault = parse_quantity(text, dimension)
    if isinstance(fault, QuantityFault):
        assert all(isinstance(parse_quantity(each, dimension), float) for each in fault.suggestions)


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda each: each.name)
def test_the_base_unit_is_what_values_are_held_in(dimension: Dimension) -> None:
    assert parse_quantity(f"7 {units.base_unit(dimension)}", dimension) == 7.0


@settings(derandomize=True, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from(sorted(units.LENGTH.units)))
def test_reading_scales(count: int, unit: str) -> None:
    one = parse_quantity(f"1 {unit}", units.LENGTH)
    many = parse_quantity(f"{count}{unit}", units.LENGTH)
    assert isinstance(one, float)
    assert many == pytest.approx(one * count, rel=1e-9)
