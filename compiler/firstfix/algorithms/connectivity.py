"""Connected parts, bridges and rings of an undirected multigraph, without recursion.

A bridge is an edge that alone holds two parts together; a ring here is a part that stays in one piece when any one of its edges
fails (a two-edge-connected component). R. E. Tarjan, "A note on finding the bridges of a graph", 1974.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple


class Edge(NamedTuple):
    id: str
    a: str
    b: str


class Rings(NamedTuple):
    """`ring_of`: node to the number of its ring (a node on no cycle is a ring by itself); `bridges`: ids of edges."""

    ring_of: dict[str, int]
    bridges: frozenset[str]


def incidence(nodes: Iterable[str], edges: Iterable[Edge]) -> dict[str, list[tuple[str, str]]]:
    """Node to (edge id, other end), in the order of edges. An edge from a node to itself stands there once."""
    found: dict[str, list[tuple[str, str]]] = {node: [] for node in nodes}
    for edge in edges:
        found[edge.a].append((edge.id, edge.b))
        if edge.a != edge.b:
            found[edge.b].append((edge.id, edge.a))
    return found


def components(nodes: Iterable[str], edges: Iterable[Edge]) -> list[list[str]]:
    """Connected parts, each sorted, in order of their first nodes."""
    leader = {node: node for node in sorted(nodes)}

    def find(node: str) -> str:
        while leader[node] != node:
            leader[node] = leader[leader[node]]
            node = leader[node]
        return node

    for edge in edges:
        low, high = sorted((find(edge.a), find(edge.b)))
        leader[high] = low
    parts: dict[str, list[str]] = {}
    for node in leader:
        parts.setdefault(find(node), []).append(node)
    return list(parts.values())


def rings(nodes: Sequence[str], edges: Sequence[Edge]) -> Rings:
    """Bridges by depth-first search with low points; rings are what is left together when bridges are taken away."""
    neighbours = incidence(nodes, edges)
    entered: dict[str, int] = {}
    low: dict[str, int] = {}
    bridges: set[str] = set()
    for root in nodes:
        if root in entered:
            continue
        entered[root] = low[root] = len(entered)
        stack = [(root, "", iter(neighbours[root]))]
        while stack:
            node, came_by, rest = stack[-1]
            step = next(rest, None)
            if step is None:
                stack.pop()
                if stack:
                    above = stack[-1][0]
                    low[above] = min(low[above], low[node])
                    if low[node] > entered[above]:
                        bridges.add(came_by)
            elif step[0] != came_by:
                edge_id, other = step
                if other in entered:
                    low[node] = min(low[node], entered[other])
                else:
                    entered[other] = low[other] = len(entered)
                    stack.append((other, edge_id, iter(neighbours[other])))
    parts = components(nodes, [edge for edge in edges if edge.id not in bridges])
    return Rings({node: number for number, part in enumerate(parts) for node in part}, frozenset(bridges))


def cycle_through(edge: Edge, nodes: Iterable[str], edges: Sequence[Edge]) -> list[str]:
    """The edge ids of a shortest cycle that contains `edge`, in order, beginning with it; empty if there is none."""
    if edge.a == edge.b:
        return [edge.id]
    neighbours = incidence(nodes, (each for each in edges if each.id != edge.id))
    came: dict[str, tuple[str, str]] = {edge.b: ("", "")}
    waiting = [edge.b]
    for node in waiting:
        for edge_id, other in neighbours[node]:
            if other not in came:
                came[other] = (edge_id, node)
                waiting.append(other)
    if edge.a not in came:
        return []
    path: list[str] = []
    node = edge.a
    while node != edge.b:
        by, node = came[node]
        path.append(by)
    return [edge.id, *reversed(path)]
