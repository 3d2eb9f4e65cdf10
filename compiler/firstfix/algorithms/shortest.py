"""Shortest routes in an undirected multigraph (E. W. Dijkstra, "A note on two problems in connexion with graphs", 1959).

Distances are reckoned from one end of the routes asked for, and that search is shared by all routes which begin or end there: a plan in
which a thousand rooms are wired to one needs one search. It goes as far as was asked, and on from there when more is asked. Which end it was
doesn't show in the routes.
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


class _Search(NamedTuple):
    """A search from one origin as far as it went: what it found, the best known of the next, and these in order of distance."""

    found: _Reach
    best: _Reach
    waiting: list[tuple[float, int, str]]


class Shortest:
    """The shortest routes of one graph, each edge of which stands at both of its ends. `looked_at` counts the work: edges looked at."""

    def __init__(self, steps: Mapping[str, Sequence[Step]]) -> None:
        self._steps = steps
        self._searches: dict[str, _Search] = {}
        self._asked: defaultdict[str, int] = defaultdict(int)
        self.looked_at = 0

    def route(self, start: str, end: str) -> tuple[str, ...] | None:
        """The edges of the shortest route in order, or None where none leads there.

        Among equally short routes the one with fewer edges wins, then the one whose edges' names, from `start` on, sort first.
        """
        if start == end:
            return ()
        origin = self._origin(start, end)
        if not self._reaches(self._searches[origin], start if origin == end else end):
            return None
        reach = self._searches[origin].found
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
            if each in self._searches:
                return each
        self._asked[start] += 1
        self._asked[end] += 1
        origin = start if self._asked[start] > self._asked[end] else end
        self._searches[origin] = _Search({}, {origin: (0.0, 0)}, [(0.0, 0, origin)])
        return origin

    def _reaches(self, search: "_Search", goal: str) -> bool:
        """Go on with the search until `goal` is found: all that is nearer, or as near with fewer edges, is then found as well."""
        found, best, waiting = search
        steps = self._steps
        while goal not in found and waiting:
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
        return goal in found

    def _back(self, node: str, reach: _Reach) -> Iterator[tuple[str, str]]:
        """The last edges of the shortest routes from the origin to `node`, and where they come from."""
        here = reach[node]
        for edge, to, weight in self._steps[node]:
            near = reach.get(to)
            if near is not None and near[1] + 1 == here[1] and round(near[0] + weight, 9) == here[0]:
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
