"""Which boxes, reels or coils of cable to buy, and which run is cut from which. A run is never joined.

Takes runs with their lengths, the lengths that are sold and the coils at hand; gives the coils to buy, what is cut
from those at hand, and the least purchase that could conceivably do. Method: first-fit-decreasing (longest run
first, each into the first coil with room), tried on what could be bought from the smallest total upwards; the first
purchase that holds every run is taken. That is no proof, hence the bound beside it. For one sold length, and with
nothing at hand, the method needs at most 11/9 of the best number of coils, plus 6/9 (Dósa 2007, "The tight bound of
first fit decreasing bin-packing algorithm", theorem 1; from memory).
"""

import heapq
import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

# Purchases looked at before packing into coils of one length is taken instead: bounds the time for large
# jobs.
_MOST_PURCHASES = 20_000


class Run(NamedTuple):
    """One piece to cut: its id, and its length in metres."""

    id: str
    length: float


class Coil(NamedTuple):
    """One box, reel or coil: its length as sold, and what is cut from it, longest first. Metres."""

    length: float
    runs: tuple[Run, ...]

    @property
    def left(self) -> float:
        return round(self.length - sum(run.length for run in self.runs), 6)


class Cutting(NamedTuple):
    """`least`: metres below which no purchase can hold the runs. `uncut`: runs longer than anything sold or at hand.

    `at_hand`: the coils that were there, in the order given, each with what is cut from it, be it nothing.
    """

    coils: tuple[Coil, ...]
    least: float
    uncut: tuple[Run, ...]
    at_hand: tuple[Coil, ...] = ()

    @property
    def bought(self) -> float:
        return round(sum(coil.length for coil in self.coils), 6)

    @property
    def is_least(self) -> bool:
        """Whether the purchase meets the bound, which proves that nothing shorter can do."""
        return self.bought <= self.least


def cut(runs: Iterable[Run], sold: Iterable[float], at_hand: Sequence[float] = ()) -> Cutting:
    """The coils to buy for `runs`, out of coils of the lengths `sold`, as many of each as wanted.

    What is `at_hand` is used first, short coils before long ones; a purchase is the smallest found beside it.
    """
    sizes = tuple(sorted({_millimetres_down(length) for length in sold}))
    ordered = sorted(runs, key=lambda run: (-run.length, run.id))
    shelf = _Shelf(at_hand)
    longest = sizes[-1] if sizes else 0
    uncut = tuple(run for run in ordered if _millimetres(run) > longest and not shelf.takes(run))
    fitting = [run for run in ordered if _millimetres(run) <= longest]
    least, bins = 0, list[_Bin]()
    if fitting:
        here = shelf.room()
        packed = _first_fit(fitting, here) if here else None
        if packed is None:
            least = _least_beside(fitting, sizes, here) if here else _least(fitting, sizes)
            packed = _cheapest(fitting, sizes, least, here)
        shelf.put([held for _, held in packed[: len(here)]])
        bins = [each for each in packed[len(here) :] if each[1]]
    coils = (
        Coil(size / 1000, tuple(held)) for size, held in sorted(bins, key=lambda each: (-each[0], each[1]))
    )
    return Cutting(tuple(coils), least / 1000, uncut, shelf.coils())


class _Shelf:
    """The coils at hand, shortest first, and what has been cut from each."""

    def __init__(self, at_hand: Sequence[float]) -> None:
        self._given = [_millimetres_down(length) for length in at_hand]
        self._order = sorted(range(len(self._given)), key=lambda index: self._given[index])
        self._held: list[list[Run]] = [[] for _ in self._given]

    def _left(self, index: int) -> int:
        return self._given[index] - sum(map(_millimetres, self._held[index]))

    def takes(self, run: Run) -> bool:
        """Cuts a run that no coil that is sold can hold from the shortest one here that can."""
        fits = [index for index in self._order if self._left(index) >= _millimetres(run)]
        if fits:
            self._held[min(fits, key=self._left)].append(run)
        return bool(fits)

    def room(self) -> list[int]:
        return [self._left(index) for index in self._order]

    def put(self, cuts: Sequence[list[Run]]) -> None:
        """`cuts` go with `room()`, one by one."""
        for index, held in zip(self._order, cuts, strict=True):
            self._held[index] += held

    def coils(self) -> tuple[Coil, ...]:
        return tuple(
            Coil(given / 1000, tuple(held)) for given, held in zip(self._given, self._held, strict=True)
        )


_Bin = tuple[int, list[Run]]


def _millimetres(run: Run) -> int:
    """Whole millimetres, rounded up: no run may come out short. The inner rounding removes binary dust."""
    return math.ceil(round(run.length * 1000, 6))


def _millimetres_down(length: float) -> int:
    return math.floor(round(length * 1000, 6))


def _least(runs: Sequence[Run], sizes: Sequence[int]) -> int:
    """The larger of two bounds: as if runs could be joined; long runs alone, no two of which share a coil."""
    total = sum(_millimetres(run) for run in runs)
    long = (_millimetres(run) for run in runs if 2 * _millimetres(run) > sizes[-1])
    return max(_least_total(total, sizes), sum(_shortest_holding(each, sizes) for each in long))


def _least_beside(runs: Sequence[Run], sizes: Sequence[int], here: Sequence[int]) -> int:
    """As if runs could be joined and whatever is here were used up to the last metre."""
    return _least_total(max(1, sum(map(_millimetres, runs)) - sum(here)), sizes)


def _least_total(total: int, sizes: Sequence[int]) -> int:
    """The smallest sum of coils that reaches `total`."""
    if len(sizes) == 1:
        return -(-total // sizes[0]) * sizes[0]
    for tries, (bought, _) in enumerate(_purchases(sizes)):
        if bought >= total:
            return bought
        if tries > _MOST_PURCHASES:
            break
    return total


def _shortest_holding(length: int, sizes: Sequence[int]) -> int:
    return next(size for size in sizes if size >= length)


def _purchases(sizes: Sequence[int]) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Every purchase with its sum, smallest sum first, then fewest coils; each once, sizes rising."""
    heap: list[tuple[int, int, tuple[int, ...]]] = [(size, 1, (size,)) for size in sizes]
    heapq.heapify(heap)
    while heap:
        total, count, chosen = heapq.heappop(heap)
        yield total, chosen
        for size in sizes:
            if size >= chosen[-1]:
                heapq.heappush(heap, (total + size, count + 1, (*chosen, size)))


def _cheapest(runs: Sequence[Run], sizes: Sequence[int], least: int, here: Sequence[int] = ()) -> list[_Bin]:
    """The bins that are `here`, in that order, and then those to buy."""
    best = min(
        (_one_size(runs, size, sizes, here) for size in sizes if size >= _millimetres(runs[0])),
        key=lambda bins: _total(bins[len(here) :]),
    )
    for tries, (bought, chosen) in enumerate(_purchases(sizes)):
        if bought >= _total(best[len(here) :]) or tries > _MOST_PURCHASES:
            break
        if bought >= least:
            # Short coils first keeps long ones for long runs; the other way round sometimes does better.
            packed = _first_fit(runs, (*here, *chosen)) or _first_fit(runs, (*here, *chosen[::-1]))
            if packed is not None:
                return packed
    return best


def _one_size(runs: Sequence[Run], size: int, sizes: Sequence[int], here: Sequence[int]) -> list[_Bin]:
    """First-fit-decreasing into coils of one size, each then replaced by the shortest that holds its runs."""
    packed = _first_fit(runs, [*here, *[size] * len(runs)]) or []
    bought = (
        (_shortest_holding(sum(map(_millimetres, held)), sizes), held)
        for _, held in packed[len(here) :]
        if held
    )
    return [*packed[: len(here)], *bought]


def _first_fit(runs: Sequence[Run], sizes: Sequence[int]) -> list[_Bin] | None:
    """Each run into the first coil with room, or None where one finds no room. `runs` come longest first.

    Gives every coil, also those that stay whole.
    """
    bins: list[_Bin] = [(size, []) for size in sizes]
    room = list(sizes)
    shortest = _millimetres(runs[-1])
    # Only coils that could still take something are looked at, which keeps thousands of runs quick.
    usable = list(range(len(sizes)))
    for run in runs:
        length = _millimetres(run)
        index = next((each for each in usable if room[each] >= length), None)
        if index is None:
            return None
        bins[index][1].append(run)
        room[index] -= length
        if room[index] < shortest:
            usable.remove(index)
    return bins


def _total(bins: Iterable[_Bin]) -> int:
    return sum(size for size, _ in bins)
