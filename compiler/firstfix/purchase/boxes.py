"""Whether runs of cable can be cut from given boxes: by the quick method, then a bounded search, then over all ways to cut a box.

Lengths are whole millimetres. A run is never joined.
"""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from firstfix.algorithms.packing import Packer, first_fit
from firstfix.purchase.whole_numbers import Column, Unproved, WholeNumbers, Work

_MOST_STEPS = 50_000
# Ways to cut a box, beyond which the last method is not tried; it is quick where few runs fit into a box, and there the others are poor.
_MOST_WAYS = 5_000
# Of them and of others that leave room for more, looked at in all.
_MOST_LOOKED_AT = 50_000
# A step of the search in the solver's measure of work: 50,000 take about as long as 100,000 of that.
_STEP_IS = 2


class Cut(NamedTuple):
    """`places`: for each run the index of its box, or None where none was found; then `is_proved` says whether there is no way."""

    places: tuple[int, ...] | None
    is_proved: bool


def cut_from(runs: Sequence[int], boxes: Sequence[int], at_hand: int = 0, work: Work | None = None) -> Cut:
    """`runs` and their places longest first. The first `at_hand` boxes are used before the others. No search once `work` is over."""
    work = work if work is not None else Work()
    packer = Packer(0 if work.is_over() else _MOST_STEPS)
    packed = packer.pack(runs, boxes, at_hand)
    work.spend(packer.done * _STEP_IS)
    if packed.bins is not None or packed.is_proved or work.is_over():
        return Cut(packed.bins, packed.is_proved)
    return _over_all_ways(runs, boxes, work)


def fewest_by_quick_method(runs: Sequence[int], size: int) -> int:
    """Enough boxes of one size for all runs that fit into one; `runs` longest first."""
    fitting = [run for run in runs if run <= size]
    places = first_fit(fitting, [size] * len(fitting), range(len(fitting)))
    return max(places) + 1 if places else 0


def _over_all_ways(runs: Sequence[int], boxes: Sequence[int], work: Work) -> Cut:
    """In whole numbers: how many boxes of each size are cut in which way."""
    wanted, sizes = Counter(runs), Counter(boxes)
    lengths = sorted(wanted, reverse=True)
    model = WholeNumbers()
    chosen: list[tuple[int, tuple[int, ...], Column]] = []
    for size in sorted(sizes, reverse=True):
        ways = _ways(size, lengths, [wanted[each] for each in lengths], _MOST_WAYS - len(chosen))
        if ways is None:
            return Cut(None, False)
        columns = [model.column(sizes[size]) for _ in ways]
        model.at_most(((column, 1) for column in columns), sizes[size])
        chosen += ((size, way, column) for way, column in zip(ways, columns, strict=True))
    for place, length in enumerate(lengths):
        model.at_least(((column, way[place]) for _, way, column in chosen if way[place]), wanted[length])
    try:
        solved = model.least((), (), work)
    except Unproved:
        return Cut(None, False)
    if solved is None:
        return Cut(None, True)
    return Cut(
        _placed(runs, boxes, lengths, [(size, way, solved.values[column]) for size, way, column in chosen]),
        True,
    )


def _ways(
    size: int, lengths: Sequence[int], wanted: Sequence[int], most: int
) -> list[tuple[int, ...]] | None:
    """Every way to cut a box into which nothing more would fit: how many of each length. None if there are more than `most`."""
    found: list[tuple[int, ...]] = []
    looked_at = 0

    def further(place: int, left: int, way: tuple[int, ...]) -> bool:
        nonlocal looked_at
        if place == len(lengths):
            looked_at += 1
            more = (
                length <= left and number < wish
                for length, number, wish in zip(lengths, way, wanted, strict=True)
            )
            if not any(more):
                found.append(way)
            return len(found) <= most and looked_at <= _MOST_LOOKED_AT
        fits = min(left // lengths[place], wanted[place])
        return all(
            further(place + 1, left - number * lengths[place], (*way, number))
            for number in range(fits, -1, -1)
        )

    # Distinct lengths bound the depth; far more of them than this have too many ways anyhow.
    return found if len(lengths) <= 40 and further(0, size, ()) else None


def _placed(
    runs: Sequence[int],
    boxes: Sequence[int],
    lengths: Sequence[int],
    cuts: Sequence[tuple[int, tuple[int, ...], int]],
) -> tuple[int, ...]:
    free = {size: [index for index, each in enumerate(boxes) if each == size] for size in set(boxes)}
    room: dict[int, list[int]] = {length: [] for length in lengths}
    for size, way, number in cuts:
        for _ in range(number):
            index = free[size].pop(0)
            for length, count in zip(lengths, way, strict=True):
                room[length] += [index] * count
    return tuple(room[run].pop(0) for run in runs)
