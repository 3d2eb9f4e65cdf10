"""Loops of the layer-2 view: a cord from a bridge to itself, bridges joined twice, and rings, with what goes round in each.

A ring is found once per link that closes it, on a breadth-first tree, so that a network with m - n + 1 links too many has as many
loops, and each is short. (D. B. Johnson counts all cycles, 1975; they are too many to be told.)
"""

from collections import defaultdict, deque
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from firstfix.algorithms.connectivity import Edge
from firstfix.graphs.layer2 import Join, Layer2, joins_by_vlan

IsSpare = Callable[[Join], bool]


class Loop(NamedTuple):
    """`devices` in order round the loop, without coming back to the first; `joins` in the same order, `joins[i]` after
    `devices[i]`; for bridges joined several times all of the joins. `vlans` (or PLAIN) go all the way round. `closing` is the
    join to name first: one that is spare, else the last in order of ids."""

    devices: tuple[str, ...]
    joins: tuple[Join, ...]
    vlans: tuple[str, ...]
    closing: Join


class Cycle(NamedTuple):
    nodes: tuple[str, ...]
    edges: tuple[Edge, ...]


def loops(view: Layer2, is_spare: IsSpare) -> tuple[Loop, ...]:
    """All of them, in order of the joins that close them. Only what some VLAN, or the plain network, goes round is one."""
    found = [*_short_loops(view, is_spare), *_rings(view, is_spare)]
    return tuple(sorted(found, key=lambda loop: (loop.closing.edge.id, loop.devices)))


def _short_loops(view: Layer2, is_spare: IsSpare) -> Iterable[Loop]:
    """Joins of a bridge with itself, and of two bridges more than once."""
    pairs: defaultdict[tuple[str, str], list[Join]] = defaultdict(list)
    for join in view.joins:
        a, b = sorted((join.edge.a, join.edge.b))
        if a == b:
            if join.carried:
                yield Loop((a,), (join,), tuple(sorted(join.carried)), join)
        else:
            pairs[a, b].append(join)
    for pair, joins in pairs.items():
        if len(joins) > 1:
            by_vlan = joins_by_vlan(tuple(joins))
            vlans = tuple(vlan for vlan, carrying in by_vlan.items() if len(carrying) > 1)
            round_ = [join for join in joins if not join.carried.isdisjoint(vlans)]
            if vlans:
                yield Loop(pair, tuple(round_), vlans, _closing(round_, is_spare))


def _rings(view: Layer2, is_spare: IsSpare) -> Iterable[Loop]:
    """Loops of three bridges and more. VLANs that the same joins carry are looked at together."""
    alike: dict[tuple[str, ...], tuple[tuple[Join, ...], list[str]]] = {}
    for vlan, carrying in joins_by_vlan(view.joins).items():
        same = tuple(join.edge.id for join in carrying)
        if same not in alike:
            alike[same] = (_one_per_pair(carrying, is_spare), [])
        alike[same][1].append(vlan)
    vlans_of: defaultdict[frozenset[str], set[str]] = defaultdict(set)
    cycle_of: dict[frozenset[str], tuple[Cycle, dict[str, Join]]] = {}
    for joins, vlans in alike.values():
        by_id = {join.edge.id: join for join in joins}
        spares = frozenset(join.edge.id for join in joins if is_spare(join))
        for cycle in fundamental_cycles([join.edge for join in joins], spares):
            key = frozenset(edge.id for edge in cycle.edges)
            vlans_of[key].update(vlans)
            cycle_of.setdefault(key, (cycle, by_id))
    for key, (cycle, by_id) in cycle_of.items():
        ordered = tuple(by_id[edge.id] for edge in cycle.edges)
        yield Loop(cycle.nodes, ordered, tuple(sorted(vlans_of[key])), _closing(ordered, is_spare))


def _one_per_pair(joins: Sequence[Join], is_spare: IsSpare) -> tuple[Join, ...]:
    """Bridges joined twice are a loop of their own; in a ring the first join that is no spare stands for all of them."""
    first: dict[tuple[str, str], Join] = {}
    for join in sorted(joins, key=lambda join: (is_spare(join), join.edge.id)):
        a, b = sorted((join.edge.a, join.edge.b))
        if a != b:
            first.setdefault((a, b), join)
    return tuple(sorted(first.values(), key=lambda join: join.edge.id))


def _closing(joins: Sequence[Join], is_spare: IsSpare) -> Join:
    return max(joins, key=lambda join: (is_spare(join), join.edge.id))


def fundamental_cycles(edges: Sequence[Edge], last: frozenset[str] = frozenset()) -> list[Cycle]:
    """One cycle for each edge that is not in a breadth-first forest of `edges`, which uses those in `last` only in need.

    `edges` may be parallel, and may join a node to itself.
    """
    neighbours: defaultdict[str, list[tuple[Edge, str]]] = defaultdict(list)
    for edge in edges:
        neighbours[edge.a].append((edge, edge.b))
        neighbours[edge.b].append((edge, edge.a))
    came: dict[str, tuple[Edge | None, str, int]] = {}
    for root in sorted(neighbours):
        if root not in came:
            _grow(root, neighbours, last, came)
    in_tree = {by.id for by, _, _ in came.values() if by is not None}
    return [_cycle(edge, came) for edge in edges if edge.id not in in_tree]


def _grow(
    root: str,
    neighbours: defaultdict[str, list[tuple[Edge, str]]],
    last: frozenset[str],
    came: dict[str, tuple[Edge | None, str, int]],
) -> None:
    """A tree from `root`: node to (edge that leads to it, node before, depth)."""
    came[root] = (None, "", 0)
    waiting = deque([root])
    deferred: deque[tuple[Edge, str, str]] = deque()
    while waiting or deferred:
        if not waiting:
            edge, node, other = deferred.popleft()
            if other not in came:
                came[other] = (edge, node, came[node][2] + 1)
                waiting.append(other)
            continue
        node = waiting.popleft()
        for edge, other in neighbours[node]:
            if other in came:
                continue
            if edge.id in last:
                deferred.append((edge, node, other))
            else:
                came[other] = (edge, node, came[node][2] + 1)
                waiting.append(other)


def _cycle(closing: Edge, came: dict[str, tuple[Edge | None, str, int]]) -> Cycle:
    """Up from both ends of `closing` to where they meet; the closing edge comes last."""
    left, right = [closing.a], [closing.b]
    up: list[Edge] = []
    down: list[Edge] = []
    while left[-1] != right[-1]:
        nodes, edges = (left, up) if came[left[-1]][2] >= came[right[-1]][2] else (right, down)
        by, above, _ = came[nodes[-1]]
        assert by is not None
        edges.append(by)
        nodes.append(above)
    return Cycle((*left, *reversed(right[:-1])), (*up, *reversed(down), closing))
