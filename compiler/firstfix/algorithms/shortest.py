"""Shortest routes in an undirected multigraph (E. W. Dijkstra, "A note on two problems in connexion with graphs", 1959).

Distances are reckoned from one end of the routes asked for, and that search is shared by all routes which begin or end there: a plan in
which a thousand rooms are wired to one needs one search. Which end it was doesn't show in the routes.
"""

import heapq
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple


class Step(NamedTuple):
    """An edge as seen from one of its ends. `weight` is at least 0."""

    edge: str
    to: str
    weight: float


# Node to its distance and the count of edges on the way there.
_Reach = dict[str, tuple[float, int]]


class Shortest:
    """The shortest routes of one graph, each edge of which stands at both of its ends. `looked_at` counts the work: edges looked at."""

    def __init__(self, steps: Mapping[str, Sequence[Step]]) -> None:
        self._steps = steps
        self._reach: dict[str, _Reach] = {}
        self._asked: defaultdict[str, int] = defaultdict(int)
        self.looked_at = 0

    def route(self, start: str, end: str) -> tuple[str, ...] | None:
        """The edges of the shortest route in order, or None where none leads there.

        Among equally short routes the one with fewer edges wins, then the one whose edges' names, from `start` on, sort first.
        """
        if start == end:
            return ()
        origin = self._origin(start, end)
        reach = self._reach[origin]
        if (start if origin == end else end) not in reach:
            return None
        onward = None if origin == end else self._onward(end, reach)
        route: list[str] = []
        here = start
        while here != end:
            edge, here = min(self._back(here, reach) if onward is None else onward[here])
            route.append(edge)
        self.looked_at += len(route)
        return tuple(route)

    def _origin(self, start: str, end: str) -> str:
        """The end that distances are known from; without one, that which was asked for more often so far."""
        for each in (end, start):
            if each in self._reach:
                return each
        self._asked[start] += 1
        self._asked[end] += 1
        origin = start if self._asked[start] > self._asked[end] else end
        self._reach[origin] = self._search(origin)
        return origin

    def _search(self, origin: str) -> _Reach:
        found: _Reach = {}
        best: _Reach = {origin: (0.0, 0)}
        waiting: list[tuple[float, int, str]] = [(0.0, 0, origin)]
        steps = self._steps
        while waiting:
            so_far, count, node = heapq.heappop(waiting)
            if node in found:
                continue
            found[node] = (so_far, count)
            from_here = steps.get(node, ())
            self.looked_at += len(from_here)
            for _, to, weight in from_here:
                # Sums of lengths differ in their last digits by order; equal ones must compare as equal.
                here = (round(so_far + weight, 9), count + 1)
                if to not in found and (to not in best or here < best[to]):
                    best[to] = here
                    heapq.heappush(waiting, (*here, to))
        return found

    def _back(self, node: str, reach: _Reach) -> Iterator[tuple[str, str]]:
        """The last edges of the shortest routes from the origin to `node`, and where they come from."""
        here = reach[node]
        for edge, to, weight in self._steps[node]:
            near = reach[to]
            if near[1] + 1 == here[1] and round(near[0] + weight, 9) == here[0]:
                yield edge, to

    def _onward(self, end: str, reach: _Reach) -> Mapping[str, list[tuple[str, str]]]:
        """For each node on a shortest route from the origin to `end`, the edges by which such a route goes on."""
        onward: defaultdict[str, list[tuple[str, str]]] = defaultdict(list)
        waiting, known = [end], {end}
        while waiting:
            node = waiting.pop()
            self.looked_at += len(self._steps[node])
            for edge, before in self._back(node, reach):
                onward[before].append((edge, node))
                if before not in known:
                    known.add(before)
                    waiting.append(before)
        return onward
