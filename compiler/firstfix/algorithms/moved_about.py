"""A better order of things to do, from one that was found in haste: some of them are drawn forward or put back while that costs less.

No order that is found so costs more than the one it began with; none of it is proved.
"""

from collections.abc import Callable, Sequence

from firstfix.algorithms.cheapest_order import Cost, Option, plus

# So many that follow each other are moved together at the most.
_MOST_TOGETHER = 3
# No farther than so many places.
_FARTHEST = 20
# How often a cost is looked up for each that may be asked for.
_LOOKS = 400


def moved_about(
    options: Sequence[Option],
    order: Sequence[int],
    start: int,
    cost: Callable[[int, int], Cost],
    nothing: Cost,
    most: int,
) -> tuple[int, ...]:
    """`order`: options by number, done from the set `start`; `cost(done, option)`. Asks for no more than `most` costs."""
    return _Moving(options, start, cost, nothing, most).run(tuple(order))


class _Moving:
    def __init__(
        self,
        options: Sequence[Option],
        start: int,
        cost: Callable[[int, int], Cost],
        nothing: Cost,
        most: int,
    ) -> None:
        self._options, self._start, self._cost, self._nothing = options, start, cost, nothing
        self._left, self._looks = most, most * _LOOKS
        self._known: dict[tuple[int, int], Cost] = {}

    def run(self, order: tuple[int, ...]) -> tuple[int, ...]:
        """Round after round, until one changes nothing."""
        while True:
            moved = self._round(order)
            if moved == order:
                return order
            order = moved

    def _round(self, order: tuple[int, ...]) -> tuple[int, ...]:
        for count in range(1, _MOST_TOGETHER + 1):
            for at in range(len(order) - count + 1):
                order = self._better(order, at, count)
        return order

    def _better(self, order: tuple[int, ...], at: int, count: int) -> tuple[int, ...]:
        """With the ones from `at` moved to the first place where that costs less."""
        moved, others = order[at : at + count], order[:at] + order[at + count :]
        for to in range(max(0, at - _FARTHEST), min(len(others), at + _FARTHEST) + 1):
            low, high = min(at, to), max(at, to) + count
            tried = others[:to] + moved + others[to:]
            done = self._start
            for number in order[:low]:
                done |= self._options[number].does
            was, would = self._sum(done, order[low:high]), self._sum(done, tried[low:high])
            if was is not None and would is not None and would < was:
                return tried
        return order

    def _sum(self, done: int, part: tuple[int, ...]) -> Cost | None:
        """None where something would be done before what it needs, or no more may be asked."""
        total = self._nothing
        for number in part:
            cost = self._of(done, number) if not self._options[number].needs & ~done else None
            if cost is None:
                return None
            total = plus(total, cost)
            done |= self._options[number].does
        return total

    def _of(self, done: int, number: int) -> Cost | None:
        self._looks -= 1
        known = self._known.get((done, number))
        if known is None and self._left > 0:
            self._left -= 1
            known = self._known[done, number] = self._cost(done, number)
        return known if self._looks > 0 else None
