"""Cutting against exhaustive search, published instances, and the bound that is known for the method."""

from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.cutting import Cutting, Run, cut

# The classic paper-roll instance; 73 rolls of 5600 are the optimum (linear bound 72.917).
PAPER_WIDTHS = (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200)
PAPER_DEMANDS = (22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20)


def runs(*lengths: float) -> tuple[Run, ...]:
    return tuple(Run(f"piece:{number}", length) for number, length in enumerate(lengths))


def partitions(things: tuple[int, ...]) -> Iterator[list[list[int]]]:
    if not things:
        yield []
        return
    first, rest = things[0], things[1:]
    for smaller in partitions(rest):
        yield [[first], *smaller]
        for number, block in enumerate(smaller):
            yield [*smaller[:number], [first, *block], *smaller[number + 1 :]]


def optimum(lengths: tuple[int, ...], sold: tuple[int, ...]) -> int:
    """The least to buy, by looking at every way to share the runs out."""

    def cost(blocks: list[list[int]]) -> float:
        return sum(min((size for size in sold if size >= sum(block)), default=10**9) for block in blocks)

    return int(min(cost(blocks) for blocks in partitions(lengths)))


def assert_cuts(cutting: Cutting, lengths: tuple[float, ...], sold: tuple[float, ...]) -> None:
    cut_ids = sorted(run.id for coil in cutting.coils for run in coil.runs)
    assert cut_ids == sorted(run.id for run in runs(*lengths)), "every run once, in one piece"
    assert all(coil.left >= 0 and coil.length in sold for coil in cutting.coils)


small_jobs = st.tuples(
    st.lists(st.integers(1, 100), min_size=1, max_size=6).map(tuple),
    st.lists(st.integers(30, 120), min_size=1, max_size=3, unique=True).map(lambda sizes: (*sizes, 130)),
)


@given(small_jobs)
@settings(derandomize=True, deadline=None, max_examples=150)
def test_small_jobs_lie_between_the_bound_and_what_is_bought(
    job: tuple[tuple[int, ...], tuple[int, ...]],
) -> None:
    lengths, sold = job
    cutting = cut(runs(*lengths), sold)
    assert_cuts(cutting, lengths, sold)
    best = optimum(lengths, sold)
    assert cutting.least <= best <= cutting.bought
    assert cutting.is_least
    assert cutting.bought == best


@given(st.lists(st.integers(1, 100), min_size=1, max_size=7).map(tuple))
@settings(derandomize=True, deadline=None, max_examples=100)
def test_one_sold_length_keeps_the_published_bound(lengths: tuple[int, ...]) -> None:
    """Dósa 2007: first-fit-decreasing needs at most 11/9 of the optimum, plus 6/9."""
    best = optimum(lengths, (100,)) // 100
    assert len(cut(runs(*lengths), (100,)).coils) <= 11 / 9 * best + 6 / 9


at_hand_jobs = st.tuples(
    st.lists(st.integers(1, 100), min_size=1, max_size=5).map(tuple),
    st.lists(st.integers(10, 140), min_size=1, max_size=3).map(tuple),
)


def optimum_beside(lengths: tuple[int, ...], sold: tuple[int, ...], here: tuple[int, ...]) -> int:
    """The least to buy where some coils are there, by looking at every way to share the runs out among them."""
    if not here:
        return optimum(lengths, sold) if lengths else 0
    best = 10**9
    for chosen in range(2 ** len(lengths)):
        inside = [length for bit, length in enumerate(lengths) if chosen >> bit & 1]
        if sum(inside) <= here[0]:
            rest = tuple(length for bit, length in enumerate(lengths) if not chosen >> bit & 1)
            best = min(best, optimum_beside(rest, sold, here[1:]))
    return best


@given(at_hand_jobs)
@settings(derandomize=True, deadline=None, max_examples=80)
def test_coils_at_hand_are_used_before_any_are_bought(job: tuple[tuple[int, ...], tuple[int, ...]]) -> None:
    lengths, here = job
    sold = (50, 130)
    cutting = cut(runs(*lengths), sold, here)
    cut_ids = [run.id for coil in (*cutting.coils, *cutting.at_hand) for run in coil.runs]
    assert sorted(cut_ids) == sorted(run.id for run in runs(*lengths)), "every run once, in one piece"
    assert [coil.length for coil in cutting.at_hand] == list(here)
    assert all(coil.left >= 0 for coil in (*cutting.coils, *cutting.at_hand))
    best = optimum_beside(lengths, sold, here)
    assert (cutting.least, cutting.bought) == (best, best)


def test_what_is_at_hand_may_do_alone() -> None:
    cutting = cut(runs(30, 30, 20), (50, 100), (22, 60))
    assert (cutting.bought, cutting.is_least) == (0, True)
    assert [[run.length for run in coil.runs] for coil in cutting.at_hand] == [[20], [30, 30]]


def test_only_the_coil_at_hand_holds_a_run_longer_than_any_sold() -> None:
    cutting = cut(runs(120, 110, 40), (50, 100), (125,))
    assert [run.length for run in cutting.at_hand[0].runs] == [120]
    assert [run.length for run in cutting.uncut] == [110]
    assert cutting.bought == 50


def test_twelve_runs_fit_three_boxes_of_305_m() -> None:
    cutting = cut(runs(92, 88, 75, 71, 66, 58, 54, 47, 41, 37, 33, 28), (305,))
    assert (len(cutting.coils), cutting.is_least) == (3, True)


def test_the_trap_of_the_quick_method_is_searched() -> None:
    """Two coils do (45+35+20 and 40+30+25 m), where first-fit-decreasing needs three."""
    cutting = cut(runs(45, 40, 35, 30, 25, 20), (100,))
    assert (cutting.bought, cutting.is_least) == (200, True)


def test_a_search_that_is_given_up_is_owned_up_to() -> None:
    """Too many runs for a search: the bound then stands beside what the quick method found."""
    cutting = cut(runs(*[45, 40, 35, 30, 25, 20] * 11), (100,))
    assert cutting.least == 11 * 195 // 100 * 100 + 100
    assert cutting.bought >= cutting.least
    assert cutting.is_least == (cutting.bought == cutting.least)


def test_the_classic_paper_rolls_are_bounded_by_73() -> None:
    widths = tuple(
        width for width, count in zip(PAPER_WIDTHS, PAPER_DEMANDS, strict=True) for _ in range(count)
    )
    cutting = cut(runs(*widths), (5600,))
    assert cutting.least == 73 * 5600
    assert 73 <= len(cutting.coils) <= 11 / 9 * 73 + 6 / 9


@pytest.mark.parametrize(
    ("lengths", "sold", "bought"),
    [
        ((300, 130), (50, 100, 305), 610),  # 130 m is one piece: of what is sold only 305 m holds it
        ((50, 50), (50, 100), 100),
        ((40,), (50, 100, 305), 50),
        ((50.0004,), (50, 100), 100),  # a hair too long is too long
    ],
)
def test_the_smallest_total_is_bought(
    lengths: tuple[float, ...], sold: tuple[float, ...], bought: float
) -> None:
    assert cut(runs(*lengths), sold).bought == bought


def test_sold_lengths_are_mixed_where_that_is_less() -> None:
    cutting = cut(runs(250, 50, 90, 45), (50, 100, 305))
    assert [coil.length for coil in cutting.coils] == [305, 100, 50]


def test_a_run_longer_than_anything_sold_is_set_apart() -> None:
    cutting = cut(runs(120, 40), (50, 100))
    assert [run.length for run in cutting.uncut] == [120]
    assert cutting.bought == 50


def test_nothing_sold_cuts_nothing() -> None:
    assert cut(runs(20), ()) == Cutting((), 0.0, runs(20))


def test_equal_runs_are_cut_in_the_order_of_their_ids_whatever_order_they_come_in() -> None:
    given_runs = runs(20, 20, 20, 20, 35)
    assert cut(given_runs, (50, 100)) == cut(given_runs[::-1], (100, 50))


def test_a_large_job_is_quick_and_near_its_bound() -> None:
    """300 runs of 10 to 92 m; the bound is reached within a coil or two, without searching for minutes."""
    lengths = [10 + (number * 37) % 83 for number in range(300)]
    cutting = cut(runs(*lengths), (50, 100, 305))
    assert cutting.bought <= cutting.least * 1.03
