"""The order in which people count: whatever a plan's author typed has a place in it."""

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.build.ids import natural


def test_numbers_are_counted() -> None:
    assert sorted(["cam-10", "cam-2", "cam"], key=natural) == ["cam", "cam-2", "cam-10"]


def test_odd_digits_and_very_long_numbers_have_a_place() -> None:
    """Digits of another kind are no numbers to reckon with, and Python itself reads none of more than 4,300 digits."""
    odd = ["\N{SUPERSCRIPT TWO}", "\N{ARABIC-INDIC DIGIT THREE}", "9" * 5000, "1", ""]
    assert len(sorted(odd, key=natural)) == len(odd)


@settings(derandomize=True, deadline=None)
@given(st.text(), st.text())
def test_two_texts_are_equal_in_it_only_if_they_are(one: str, other: str) -> None:
    assert (natural(one) == natural(other)) == (one == other)
