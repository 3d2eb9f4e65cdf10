"""Which boxes, reels or coils of cable to buy, and which run is cut from which. A run is never joined.

Takes runs with their lengths and the lengths that are sold; gives the coils, and the least that could
conceivably do. Method: first-fit-decreasing (longest run first, each into the first coil with room), tried
on what could be bought from the smallest total upwards; the first purchase that holds every run is taken.
That is no proof, hence the bound beside it. For one sold length the method needs at most 11/9 of the best
number of coils, plus 6/9 (Dósa 2007, "The tight bound of first fit decreasing bin-packing algorithm",
theorem 1; from memory).
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
    """`least`: metres below which no purchase can hold the runs. `uncut`: runs longer than anything sold."""

    coils: tuple[Coil, ...]
    least: float
    uncut: tuple[Run, ...]

    @property
    def bought(self) -> float:
        return round(sum(coil.length for coil in self.coils), 6)

    @property
    def is_least(self) -> bool:
        """Whether the purchase meets the bound, which proves that nothing shorter can do."""
        return self.bought <= self.least


def cut(runs: Iterable[Run], sold: Iterable[float]) -> Cutting:
    """The coils to buy for `runs`, out of coils of the lengths `sold`, as many of each as wanted."""
    sizes = tuple(sorted({_millimetres_down(length) for length in sold}))
    ordered = sorted(runs, key=lambda run: (-run.length, run.id))
    fitting = [run for run in ordered if sizes and _millimetres(run) <= sizes[-1]]
    uncut = tuple(run for run in ordered if not sizes or _millimetres(run) > sizes[-1])
    if not fitting:
        return Cutting((), 0.0, uncut)
    least = _least(fitting, sizes)
    bins = _cheapest(fitting, sizes, least)
    coils = (
        Coil(size / 1000, tuple(held)) for size, held in sorted(bins, key=lambda each: (-each[0], each[1]))
    )
    return Cutting(tuple(coils), least / 1000, uncut)


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


def _cheapest(runs: Sequence[Run], sizes: Sequence[int], least: int) -> list[_Bin]:
    best = min((_one_size(runs, size, sizes) for size in sizes if size >= _millimetres(runs[0])), key=_total)
    for tries, (bought, chosen) in enumerate(_purchases(sizes)):
        if bought >= _total(best) or tries > _MOST_PURCHASES:
            break
        if bought >= least:
            # Short coils first keeps long ones for long runs; the other way round sometimes does better.
            packed = _first_fit(runs, chosen) or _first_fit(runs, chosen[::-1])
            if packed is not None:
                return packed
    return best


def _one_size(runs: Sequence[Run], size: int, sizes: Sequence[int]) -> list[_Bin]:
    """First-fit-decreasing into coils of one size, each then replaced by the shortest that holds its runs."""
    packed = _first_fit(runs, [size] * len(runs)) or []
    return [(_shortest_holding(sum(map(_millimetres, held)), sizes), held) for _, held in packed]


def _first_fit(runs: Sequence[Run], sizes: Sequence[int]) -> list[_Bin] | None:
    """Each run into the first coil with room, or None where one finds no room. `runs` come longest first."""
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
    return [(size, held) for size, held in bins if held]


def _total(bins: Iterable[_Bin]) -> int:
    return sum(size for size, _ in bins)
