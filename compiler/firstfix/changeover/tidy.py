"""An order of the same cost that is easier to follow: what is done for the same phase, by the same trade, in the same room comes together.

Takes the steps that were found; gives the same ones, each drawn to the front where one would like it and nothing costs more for it.
"""

from collections.abc import Sequence

from firstfix.algorithms.cheapest_order import Cost, plus
from firstfix.changeover.order import FREE, Course
from firstfix.changeover.preference import Preference

# Costs that are reckoned for it before the rest is left as it stands, for a network of so many lanes or fewer.
_MOST_COSTS = 1500
_LANES = 50


class Tidy:
    def __init__(self, course: Course, preference: Preference) -> None:
        self._course, self._preference = course, preference
        self._left = _MOST_COSTS * _LANES // max(_LANES, len(course.network.union.paths))
        self._known: dict[tuple[int, int], Cost] = {}

    def steps(self, found: Sequence[int]) -> tuple[int, ...]:
        keys = {does: self._preference.key(does, at) for at, does in enumerate(found)}
        rest, done = list(found), 0
        tidied: list[int] = []
        while rest:
            ready = [does for does in rest if not self._course.needs(does) & ~done]
            chosen = next(
                does
                for does in sorted(ready, key=lambda each: keys[each])
                if does == rest[0] or self._costs_no_more(done, rest[: rest.index(does)], does)
            )
            rest.remove(chosen)
            tidied.append(chosen)
            done |= chosen
        return tuple(tidied)

    def _costs_no_more(self, done: int, before: Sequence[int], does: int) -> bool:
        """Whether `does` costs the same when it is drawn before all of `before`, and they after it."""
        return self._left > 0 and self._sum(done, [*before, does]) == self._sum(done, [does, *before])

    def _sum(self, done: int, steps: Sequence[int]) -> Cost:
        total = FREE
        for does in steps:
            total = plus(total, self._cost(done, does))
            done |= does
        return total

    def _cost(self, done: int, does: int) -> Cost:
        done |= self._course.network.unseen & ~does
        known = self._known.get((done, does))
        if known is None:
            self._left -= 1
            known = self._known[done, does] = self._course.cost_of(done, does)
        return known
