"""Where plugs go in one row of outlets, so that no adaptor covers an outlet that is used or covered already.

Takes how many outlets beside its own each plug covers; gives an outlet for each. One that covers b reaches over ceil(b / 2) of them on
one side and over the others on the other (as `physics.mains.outlets_needed` counts); what stands over the ends of the row covers nothing.
"""

from collections.abc import Sequence
from typing import NamedTuple

# Far more than the row of any strip needs; a made-up row of hundreds with adaptors of all sizes would take for ever.
_MOST_LOOKED_AT = 20_000


class Plug(NamedTuple):
    """`blocks`: outlets that it covers beside its own. `fixed`: the outlet where it stays, from 1, or 0."""

    blocks: int
    fixed: int = 0


def outlet_row(plugs: Sequence[Plug], outlets: int, can_turn: bool) -> tuple[int, ...] | None:
    """The outlet of each plug, as far to the front and as much in the given order as can be; None where they find no room.

    `can_turn`: whether each adaptor may be plugged in either way round; else all reach the same way, whichever serves.
    """
    if len(plugs) > outlets:
        return None
    for ways in ((True, False),) if can_turn else ((True,), (False,)):
        found = _Row(plugs, outlets, ways).fill()
        if found is not None:
            return found
    return None


class _Row:
    """A search from the first outlet on. What has been placed matters to the rest only by where it ends and what is left over."""

    def __init__(self, plugs: Sequence[Plug], outlets: int, ways: tuple[bool, ...]) -> None:
        self._outlets = outlets
        self._ways = ways
        self._fixed = sorted(
            (each.fixed, each.blocks, index) for index, each in enumerate(plugs) if each.fixed
        )
        self._free: dict[int, list[int]] = {}
        for index, each in enumerate(plugs):
            if not each.fixed:
                self._free.setdefault(each.blocks, []).append(index)
        self._count = len(plugs)

    def fill(self) -> tuple[int, ...] | None:
        """Depth first without recursion: a stack of (end of what is placed, how many of each kind, how many fixed, the way there)."""
        kinds = tuple(self._free)
        stack: list[tuple[int, tuple[int, ...], int, tuple[tuple[int, int], ...]]] = [
            (0, (0,) * len(kinds), 0, ())
        ]
        seen: set[tuple[int, tuple[int, ...], int]] = set()
        while stack and len(seen) < _MOST_LOOKED_AT:
            end, used, fixed, placed = stack.pop()
            if len(placed) == self._count:
                by_plug = dict(placed)
                return tuple([by_plug[index] for index in range(self._count)])
            if (end, used, fixed) in seen:
                continue
            seen.add((end, used, fixed))
            stack += reversed(self._next(kinds, end, used, fixed, placed))
        return None

    def _next(
        self,
        kinds: tuple[int, ...],
        end: int,
        used: tuple[int, ...],
        fixed: int,
        placed: tuple[tuple[int, int], ...],
    ) -> list[tuple[int, tuple[int, ...], int, tuple[tuple[int, int], ...]]]:
        found = []
        limit = self._fixed[fixed][0] if fixed < len(self._fixed) else self._outlets + 1
        # In the order of the plugs: the kind whose next one comes first.
        for kind in sorted(
            (kind for kind in range(len(kinds)) if used[kind] < len(self._free[kinds[kind]])),
            key=lambda kind: self._free[kinds[kind]][used[kind]],
        ):
            index = self._free[kinds[kind]][used[kind]]
            for before, after in self._reaches(kinds[kind]):
                at = end + before + 1 if placed else 1
                if at < limit:
                    more = (*used[:kind], used[kind] + 1, *used[kind + 1 :])
                    found.append((at + after, more, fixed, (*placed, (index, at))))
        if fixed < len(self._fixed):
            at, blocks, index = self._fixed[fixed]
            for before, after in self._reaches(blocks):
                if at <= self._outlets and (not placed or at - before > end):
                    found.append((at + after, used, fixed + 1, (*placed, (index, at))))
        return found

    def _reaches(self, blocks: int) -> tuple[tuple[int, int], ...]:
        """How many outlets it covers before and after its own, the way first that leaves more room behind it."""
        wide, narrow = (blocks + 1) // 2, blocks // 2
        ways = [(wide, narrow) if each else (narrow, wide) for each in self._ways]
        return tuple(dict.fromkeys(ways))
