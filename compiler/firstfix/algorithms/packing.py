"""Whether things of given sizes go into bins of given sizes: by the quick method first, then by a bounded search.

Sizes are whole numbers, things come largest first. Gives for each thing the bin it is in, or None; and whether a None is
proved, or only that the search was given up.
"""

from collections.abc import Sequence
from typing import NamedTuple

# Larger jobs are left to the quick method: there, waste is small and a search would not end.
_MOST_THINGS = 60


class Packed(NamedTuple):
    """`bins`: for each thing the index of its bin, or None where no packing was found; then `is_proved` says whether there is none."""

    bins: tuple[int, ...] | None
    is_proved: bool


class Packer:
    """Looks at no more than `steps` placements in all, over however many packings are asked for."""

    def __init__(self, steps: int) -> None:
        self._given = self._steps = steps

    @property
    def done(self) -> int:
        """Placements looked at so far."""
        return self._given - self._steps

    def pack(self, things: Sequence[int], sizes: Sequence[int], first: int = 0) -> Packed:
        """The `first` bins are filled before the others, whichever way round those are tried."""
        if sum(things) > sum(sizes):
            return Packed(None, True)
        others = range(first, len(sizes))
        # Short bins first keeps long ones for long things; the other way round sometimes does better.
        for order in ((*range(first), *others), (*range(first), *others[::-1])):
            found = first_fit(things, sizes, order)
            if found is not None:
                return Packed(found, True)
        if len(things) > _MOST_THINGS or self._steps <= 0:
            return Packed(None, False)
        placed: list[int] = []
        found_by_search = self._place(things, list(sizes), sum(sizes) - sum(things), placed)
        return Packed(tuple(placed) if found_by_search else None, found_by_search or self._steps > 0)

    def _place(self, things: Sequence[int], room: list[int], spare: int, placed: list[int]) -> bool:
        """Places the things from `len(placed)` on. `spare`: how much room may still go unused."""
        if len(placed) == len(things):
            return True
        thing, smallest = things[len(placed)], things[-1]
        tried: set[int] = set()
        for index, left in enumerate(room):
            # Bins with equal room are equally good; what no thing fits into any more is lost.
            if left < thing or left in tried:
                continue
            tried.add(left)
            self._steps -= 1
            if self._steps <= 0:
                return False
            rest = left - thing
            lost = rest if rest < smallest else 0
            if lost > spare:
                continue
            # What is lost leaves the bin, so that it is not counted twice.
            room[index] = rest - lost
            placed.append(index)
            if self._place(things, room, spare - lost, placed):
                return True
            placed.pop()
            room[index] = left
        return False


def first_fit(things: Sequence[int], sizes: Sequence[int], order: Sequence[int]) -> tuple[int, ...] | None:
    """The quick method: each thing into the first bin of `order` with room, or None where one finds no room."""
    room = list(sizes)
    smallest = things[-1] if things else 0
    # Only bins that could still take something are looked at, which keeps thousands of things quick.
    usable = list(order)
    placed: list[int] = []
    for thing in things:
        index = next((each for each in usable if room[each] >= thing), None)
        if index is None:
            return None
        placed.append(index)
        room[index] -= thing
        if room[index] < smallest:
            usable.remove(index)
    return tuple(placed)
