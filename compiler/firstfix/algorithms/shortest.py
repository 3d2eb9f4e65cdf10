"""Shortest routes in an undirected multigraph (E. W. Dijkstra, "A note on two problems in connexion with graphs", 1959)."""

import heapq
from collections.abc import Mapping, Sequence
from typing import NamedTuple


class Step(NamedTuple):
    """An edge as seen from one of its ends. `weight` is at least 0."""

    edge: str
    to: str
    weight: float


def shortest_routes(steps: Mapping[str, Sequence[Step]], start: str) -> dict[str, tuple[str, ...]]:
    """Edges of the shortest route from `start` to each node it reaches, itself included.

    Among equally short routes the one with fewer edges wins, then the one whose edges' names sort first.
    """
    found: dict[str, tuple[str, ...]] = {}
    waiting: list[tuple[float, int, tuple[str, ...], str]] = [(0.0, 0, (), start)]
    while waiting:
        so_far, count, route, node = heapq.heappop(waiting)
        if node in found:
            continue
        found[node] = route
        for step in steps.get(node, ()):
            if step.to not in found:
                # Sums of lengths differ in their last digits by order; equal ones must compare as equal.
                heapq.heappush(
                    waiting, (round(so_far + step.weight, 9), count + 1, (*route, step.edge), step.to)
                )
    return found
