"""Orders moved about: allowed ones, never dearer than before, against all orders of small cases."""

from itertools import permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.cheapest_order import Option
from firstfix.algorithms.moved_about import moved_about

COUNT = 5


@st.composite
def cases(draw: st.DrawFn) -> tuple[list[Option], dict[tuple[int, int], int]]:
    """Things of which some need earlier ones, and what each costs after each set."""
    options = [
        Option(1 << at, sum(1 << before for before in range(at) if draw(st.integers(0, 3)) == 0))
        for at in range(COUNT)
    ]
    seed = draw(st.integers(1, 10_000))
    costs = {
        (done, at): (done * 31 + at * 17 + 7) * seed % 23 for done in range(1 << COUNT) for at in range(COUNT)
    }
    return options, costs


def spent(options: list[Option], costs: dict[tuple[int, int], int], order: tuple[int, ...]) -> int | None:
    done = total = 0
    for number in order:
        if options[number].needs & ~done:
            return None
        total += costs[done, number]
        done |= options[number].does
    return total


@settings(derandomize=True, deadline=None)
@given(case=cases())
def test_it_costs_no_more_and_no_less_than_the_cheapest(
    case: tuple[list[Option], dict[tuple[int, int], int]],
) -> None:
    options, costs = case
    found = moved_about(options, range(COUNT), 0, lambda done, at: (costs[done, at],), (0,), 10_000)
    totals = [
        total for each in permutations(range(COUNT)) if (total := spent(options, costs, each)) is not None
    ]
    first, last = spent(options, costs, tuple(range(COUNT))), spent(options, costs, found)
    assert first is not None
    assert last is not None
    assert min(totals) <= last <= first
    assert sorted(found) == list(range(COUNT))


def test_two_that_only_pay_together_are_moved_together() -> None:
    """The two last ones cost nothing at the front, one after the other, and much anywhere else."""
    options = [Option(1 << at, 0) for at in range(4)]

    def cost(done: int, at: int) -> tuple[int]:
        cheap = (at == 2 and done == 0) or (at == 3 and done == 0b100) or (at < 2 and done & 0b1100 == 0b1100)
        return (0,) if cheap else (5,)

    assert moved_about(options, (0, 1, 2, 3), 0, cost, (0,), 1000)[:2] == (2, 3)


def test_it_stops_when_it_may_ask_no_more() -> None:
    asked = 0

    def cost(done: int, at: int) -> tuple[int]:
        nonlocal asked
        asked += 1
        return (done % 7 + at,)

    options = [Option(1 << at, 0) for at in range(8)]
    moved_about(options, range(8), 0, cost, (0,), 20)
    assert asked <= 20
