"""Which boxes, reels or coils of cable to buy, and which run is cut from which. A run is never joined.

Takes runs with their lengths, the lengths that are sold and the coils at hand; gives the coils to buy, what is cut
from those at hand, and the least purchase that could conceivably do. Purchases are tried from the smallest total
upwards, until one holds every run: by first-fit-decreasing (longest run first, each into the first coil with room)
and, on a job of a home's size, by a search with a limit where that fails. Where each smaller purchase was refuted,
nothing shorter can do; else a bound stands beside it. For one sold length, and with nothing at hand, the quick method
alone needs at most 11/9 of the best number of coils, plus 6/9 (Dósa 2007, "The tight bound of first fit decreasing
bin-packing algorithm", theorem 1; from memory).
"""

import heapq
import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import NamedTuple

from firstfix.algorithms.packing import Packer, first_fit

# Purchases looked at before packing into coils of one length is taken instead: bounds the time for large
# jobs.
_MOST_PURCHASES = 20_000
# Placements looked at in all where the quick method fails: some tenths of a second.
_MOST_STEPS = 200_000


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
        least = _least_beside(fitting, sizes, here) if here else _least(fitting, sizes)
        packed, is_proved = _cheapest(fitting, sizes, least, here)
        shelf.put([held for _, held in packed[: len(here)]])
        bins = [each for each in packed[len(here) :] if each[1]]
        least = _total(bins) if is_proved else least
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
    more = sum(map(_millimetres, runs)) - sum(here)
    return _least_total(more, sizes) if more > 0 else 0


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


def _cheapest(
    runs: Sequence[Run], sizes: Sequence[int], least: int, here: Sequence[int]
) -> tuple[list[_Bin], bool]:
    """The bins that are `here`, in that order, and then those to buy; and whether nothing smaller would do, which is proved."""
    lengths = [_millimetres(run) for run in runs]
    packer, is_proved = Packer(_MOST_STEPS), True
    best = min(
        (_one_size(runs, size, sizes, here) for size in sizes if size >= lengths[0]),
        key=lambda bins: _total(bins[len(here) :]),
    )
    nothing: tuple[tuple[int, tuple[int, ...]], ...] = ((0, ()),) if here else ()
    for tries, (bought, chosen) in enumerate(chain(nothing, _purchases(sizes))):
        if bought >= _total(best[len(here) :]):
            break
        if tries > _MOST_PURCHASES:
            return best, False
        if bought >= least:
            packed = packer.pack(lengths, (*here, *chosen), len(here))
            if packed.bins is not None:
                return _filled(runs, (*here, *chosen), packed.bins), is_proved
            is_proved = is_proved and packed.is_proved
    return best, is_proved


def _filled(runs: Sequence[Run], sizes: Sequence[int], places: Sequence[int]) -> list[_Bin]:
    bins: list[_Bin] = [(size, []) for size in sizes]
    for run, place in zip(runs, places, strict=True):
        bins[place][1].append(run)
    return bins


def _one_size(runs: Sequence[Run], size: int, sizes: Sequence[int], here: Sequence[int]) -> list[_Bin]:
    """First-fit-decreasing into coils of one size, each then replaced by the shortest that holds its runs."""
    room = (*here, *[size] * len(runs))
    packed = _filled(runs, room, first_fit([_millimetres(run) for run in runs], room, range(len(room))) or ())
    bought = (
        (_shortest_holding(sum(map(_millimetres, held)), sizes), held)
        for _, held in packed[len(here) :]
        if held
    )
    return [*packed[: len(here)], *bought]


def _total(bins: Iterable[_Bin]) -> int:
    return sum(size for size, _ in bins)
