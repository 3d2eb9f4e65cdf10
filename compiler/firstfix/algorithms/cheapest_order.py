"""The cheapest order of things to do, where what one costs depends on what is done already: best first over the sets of what is done.

P. E. Hart, N. J. Nilsson, B. Raphael, "A formal basis for the heuristic determination of minimum cost paths", 1968: with a bound that
is never too high and never falls by more than a step costs, the first order that is complete is a cheapest one.
"""

import heapq
from collections.abc import Callable, Sequence
from typing import NamedTuple

# Compared from the left: no number of later ones makes up for one of an earlier.
Cost = tuple[int, ...]


# Of what could come next, so much is compared when no more sets are looked at.
_MOST_COMPARED = 6


class Option(NamedTuple):
    """Things that are done in one go, as bits, once all of `needs` are done."""

    does: int
    needs: int


class Order(NamedTuple):
    """What it costs; options by their number, in order; what no order can cost less than. Equal where it was proved."""

    cost: Cost
    options: tuple[int, ...]
    bound: Cost

    @property
    def is_proven(self) -> bool:
        return self.cost == self.bound


def cheapest_order(
    options: Sequence[Option],
    start: int,
    goal: int,
    cost: Callable[[int, int], Cost],
    still: Callable[[int], Cost],
    nothing: Cost,
    most: int,
) -> Order:
    """From the set `start` to the set `goal`. `cost(done, option)`; `still(done)`: what the rest costs at the least;
    `nothing`: a cost of none.

    Asks for no more than `most` costs, then takes the best way on from the best set so far. Of equally cheap orders the one with
    the earlier options is taken. Raises ValueError where the options don't lead to the goal.
    """
    return _Search(options, goal, cost, still, nothing).run(start, most)


def plus(a: Cost, b: Cost) -> Cost:
    return tuple([one + other for one, other in zip(a, b, strict=True)])


class _Waiting(NamedTuple):
    """A set to look at, the one with the lowest bound and then the most steps first. `spent` is None while nobody has asked yet."""

    bound: Cost
    steps: int
    option: int
    done: int
    then: int
    spent: Cost | None


class _Search:
    def __init__(
        self,
        options: Sequence[Option],
        goal: int,
        cost: Callable[[int, int], Cost],
        still: Callable[[int], Cost],
        nothing: Cost,
    ) -> None:
        self._options, self._goal, self._cost, self._still = options, goal, cost, still
        self._nothing = nothing
        self._came: dict[int, tuple[int, int]] = {}
        self._spent: dict[int, Cost] = {}

    def run(self, start: int, most: int) -> Order:
        """What a step costs is asked only when no other could be better by what it costs at the least."""
        self._spent[start] = self._nothing
        closed: set[int] = set()
        asked = 0
        waiting = [_Waiting(self._still(start), 0, -1, start, start, self._nothing)]
        while waiting:
            at = heapq.heappop(waiting)
            done = at.then
            if done in closed:
                continue
            if at.spent is None:
                asked += 1
                heapq.heappush(waiting, self._asked(at))
                continue
            self._spent[done] = at.spent
            if done != start:
                self._came[done] = (at.done, at.option)
            if done == self._goal:
                return Order(at.spent, self._back(start, done), at.bound)
            if asked >= most:
                return self._dive(start, done, at.bound)
            closed.add(done)
            for option in self._open(done):
                then = done | self._options[option].does
                if then not in closed:
                    heapq.heappush(waiting, _Waiting(at.bound, at.steps - 1, option, done, then, None))
        raise ValueError("the options do not lead to the goal")

    def _asked(self, at: "_Waiting") -> "_Waiting":
        spent = plus(self._spent[at.done], self._cost(at.done, at.option))
        return at._replace(bound=plus(spent, self._still(at.then)), spent=spent)

    def _open(self, done: int) -> list[int]:
        return [
            number
            for number, option in enumerate(self._options)
            if not option.does & done and not option.needs & ~done and not option.does & ~self._goal
        ]

    def _back(self, start: int, done: int) -> tuple[int, ...]:
        found = []
        while done != start:
            done, number = self._came[done]
            found.append(number)
        return tuple(reversed(found))

    def _dive(self, start: int, done: int, bound: Cost) -> Order:
        """On from `done` without looking back, each time by what costs least with its bound."""
        way, spent = [*self._back(start, done)], self._spent[done]
        while done != self._goal:
            cost, number = self._next(done, spent)
            way.append(number)
            done, spent = done | self._options[number].does, plus(spent, cost)
        return Order(spent, tuple(way), bound)

    def _next(self, done: int, spent: Cost) -> tuple[Cost, int]:
        """The option that costs least with its bound; the first that costs no more than it must is as good as any."""
        best: tuple[Cost, int, Cost] | None = None
        for number in self._open(done)[:_MOST_COMPARED]:
            cost = self._cost(done, number)
            bound = plus(plus(spent, cost), self._still(done | self._options[number].does))
            if best is None or (bound, number) < best[:2]:
                best = (bound, number, cost)
            if bound == plus(spent, self._still(done)):
                break
        if best is None:
            raise ValueError("the options do not lead to the goal")
        return best[2], best[1]
