"""The solver behind orders: proven optima, what cannot be, and searches that are ended."""

import random

import pytest

from firstfix.purchase import whole_numbers
from firstfix.purchase.whole_numbers import Column, Unproved, WholeNumbers


def market_split(rows: int) -> tuple[WholeNumbers, list[tuple[Column, int]]]:
    """A hard kind of question: customers to be split in half over several products at once.

    G. Cornuéjols and M. Dawande, "A class of hard small 0-1 programs", 1998: ten times one less columns than rows, factors to 99.
    """
    chance = random.Random(1)  # noqa: S311  # for variety, not for secrets
    model = WholeNumbers()
    columns = [model.column(1) for _ in range(10 * (rows - 1))]
    off: list[tuple[Column, int]] = []
    for _ in range(rows):
        factors = [chance.randrange(100) for _ in columns]
        over, under = model.column(10**6), model.column(10**6)
        row = [*zip(columns, factors, strict=True), (over, -1), (under, 1)]
        model.at_least(row, sum(factors) // 2)
        model.at_most(row, sum(factors) // 2)
        off += [(over, 1), (under, 1)]
    return model, off


def test_a_search_that_is_ended_says_what_is_certain(monkeypatch: pytest.MonkeyPatch) -> None:
    model, off = market_split(3)
    best = model.least(off)
    assert best is not None
    assert best.bound == best.objective > 0
    monkeypatch.setattr(whole_numbers, "_MOST_NODES", 5)
    ended = model.least(off)
    assert ended is not None
    assert ended.bound < best.objective <= ended.objective


def test_a_search_that_finds_nothing_in_time_does_not_say_that_there_is_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    model, off = market_split(4)
    monkeypatch.setattr(whole_numbers, "_MOST_NODES", 0)
    with pytest.raises(Unproved):
        model.least(off)


def test_rows_that_contradict_one_another_have_no_answer() -> None:
    model = WholeNumbers()
    column = model.column(5)
    model.at_least([(column, 2)], 7)
    model.at_most([(column, 2)], 7)
    assert model.least([(column, 1)]) is None


def test_nothing_is_printed(capfd: pytest.CaptureFixture[str]) -> None:
    model = WholeNumbers()
    column = model.column(5)
    model.at_least([(column, 2)], 7)
    found = model.least([(column, 3)])
    assert found is not None
    assert (found.values, found.objective) == ((4,), 12)
    assert capfd.readouterr() == ("", "")


def test_a_question_about_nothing_has_an_answer() -> None:
    model = WholeNumbers()
    found = model.least([])
    assert found is not None
    assert (found.values, found.objective) == ((), 0)
    model.at_least([], 1)
    assert model.least([]) is None
