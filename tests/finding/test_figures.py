"""Measurements in words: the printed sum must be the printed figure, and no margin is rounded into a lie."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.finding.figures import formula, margin_words, measured, summands
from firstfix.finding.model import Measurement, Term


@pytest.mark.parametrize(
    ("figure", "relation", "limit", "words"),
    [
        (104.5, "at most", 100.0, "4.5 m too much"),
        (95.5, "at most", 100.0, "4.5 m to spare"),
        (100.0, "at most", 100.0, "exactly the limit"),
        (100.001, "at most", 100.0, "0.001 m too much"),
        (12.0, "at least", 20.0, "8 m too little"),
        (20.0, "at least", 12.0, "8 m to spare"),
    ],
)
def test_margin_says_how_far_and_on_which_side(
    figure: float, relation: str, limit: float, words: str
) -> None:
    assert margin_words(Measurement("x", figure, relation, limit, "m")) == words


def test_a_figure_just_past_its_limit_does_not_print_as_the_limit() -> None:
    assert measured(Measurement("run", 100.004, "at most", 100.0, "m")) == (
        "run: 100.004 m, at most 100 m (0.004 m too much)"
    )


def test_units_and_counts_read_as_people_write_them() -> None:
    assert measured(Measurement("height", 3.0, "at most", 2.0, "U")).startswith("height: 3U, at most 2U")
    assert measured(Measurement("jacks", 9.0, "at most", 8.0, "")) == "jacks: 9, at most 8 (1 too much)"


def test_terms_past_the_most_are_one_line_that_keeps_the_sum() -> None:
    terms = tuple(Term(f"t{number}", float(number)) for number in range(1, 6))
    shown = summands(Measurement("x", 15.0, "at most", 9.0, "W", terms), 3)
    assert shown == [("1 W", "t1"), ("2 W", "t2"), ("12 W", "3 more")]


hundredths = st.integers(1, 99_999).map(lambda value: value / 1000)


@settings(derandomize=True, deadline=None)
@given(st.lists(hundredths, min_size=1, max_size=12), st.integers(2, 6))
def test_printed_terms_add_up_to_the_printed_figure(values: list[float], most: int) -> None:
    terms = tuple(Term("t", value) for value in values)
    measurement = Measurement("x", sum(values), "at most", 10.0, "m", terms)
    figure = measured(measurement).split(": ")[1].split(" m")[0]
    printed = [Decimal(amount.removesuffix(" m")) for amount, _ in summands(measurement, most)]
    assert sum(printed) == Decimal(figure)


@pytest.mark.parametrize(
    ("measurement", "line"),
    [
        (Measurement("x", 61.6, "at most", 40, "W", (Term("a", 30.8), Term("b", 30.8))), "30.8 + 30.8 = 61.6 W, at most 40 W: 61.6 - 40 = 21.6 W too much"),
        (Measurement("x", 35.5, "at least", 37, "V", (Term("a", 44), Term("b", -8.5))), "44 - 8.5 = 35.5 V, at least 37 V: 37 - 35.5 = 1.5 V too little"),
        (Measurement("x", 7, "at most", 6, "U", (Term("a", 7),)), "7U, at most 6U: 7 - 6 = 1U too much"),
        (Measurement("x", -20, "at least", -10, "°C"), "-20 °C, at least -10 °C: -10 + 20 = 10 °C too little"),
        (Measurement("x", 1, "at least", 2, ""), "1, at least 2: 2 - 1 = 1 too little"),
        (Measurement("x", 90, "at most", 100, "m"), "90 m, at most 100 m: 100 - 90 = 10 m to spare"),
        (Measurement("x", 100, "at most", 100, "m"), "100 m, at most 100 m: exactly the limit"),
    ],
)  # fmt: skip
def test_the_reckoning_in_one_line(measurement: Measurement, line: str) -> None:
    assert formula(measurement) == line
