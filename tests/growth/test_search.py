"""The search against trying one after another."""

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.growth.model import Trouble
from firstfix.growth.search import most_that_fit

_WRONG = (Trouble("r", "s", "error", "m"),)


@settings(derandomize=True, deadline=None, max_examples=400)
@given(st.integers(0, 70), st.integers(0, 90), st.integers(0, 12))
def test_finds_the_first_that_is_wrong(last: int, guess: int, fits: int) -> None:
    last = max(last, fits)
    asked: list[int] = []

    def judge(number: int) -> tuple[Trouble, ...]:
        asked.append(number)
        return _WRONG if number > last else ()

    found, wrong = most_that_fit(judge, fits, guess)
    assert found == min(last, 64)
    assert wrong == (_WRONG if last < 64 else ())
    # Twice the steps of halving, there and back, is the most that a bad guess costs.
    assert len(asked) <= 16


@settings(derandomize=True, deadline=None)
@given(st.lists(st.booleans(), min_size=3, max_size=3), st.integers(3, 70), st.integers(0, 70))
def test_looks_at_the_first_few_in_turn(first: list[bool], last: int, guess: int) -> None:
    """Two cables may be too many where three are not."""

    def judge(number: int) -> tuple[Trouble, ...]:
        return () if (first[number - 1] if number <= 3 else number <= last) else _WRONG

    found, _ = most_that_fit(judge, 0, guess, few=True)
    assert found == next((number - 1 for number in range(1, 65) if judge(number)), 64)


def test_a_good_guess_costs_two() -> None:
    asked: list[int] = []

    def judge(number: int) -> tuple[Trouble, ...]:
        asked.append(number)
        return _WRONG if number > 20 else ()

    assert most_that_fit(judge, 0, 20)[0] == 20
    assert set(asked) == {1, 20, 21}
