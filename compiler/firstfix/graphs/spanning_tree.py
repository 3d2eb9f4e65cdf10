"""The tree that spanning tree will settle on: root, costs, root ports and blocked ports of bridges whose identifiers are known.

IEEE Std 802.1D (2004), 17.6: the best offer has the lowest root identifier, then the lowest cost, sending bridge, sending port,
receiving port.
"""

import heapq
from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import NamedTuple

# (priority, address or any number that orders bridges as their addresses do)
BridgeId = tuple[int, int]
# (priority, number)
PortId = tuple[int, int]


class TreeLink(NamedTuple):
    """A link or an aggregate between two ports; `cost` is the same at both ends (standards.layer2.long_path_cost)."""

    id: str
    a: str
    a_port: PortId
    b: str
    b_port: PortId
    cost: int


class Tree(NamedTuple):
    """`root_of` and `cost` by bridge; `root_port`: bridge (none for a root) to the link towards its root.

    `blocked`: (bridge, link) of each port that is alternate or backup. `active`: ids of the links in use.
    """

    root_of: Mapping[str, str]
    cost: Mapping[str, int]
    root_port: Mapping[str, str]
    blocked: frozenset[tuple[str, str]]
    active: frozenset[str]


def predicted_tree(bridges: Mapping[str, BridgeId], links: Sequence[TreeLink]) -> Tree:
    """Each connected part gets a root of its own. Raises ValueError where two bridges have one identifier, or a cost is below 1."""
    if len(set(bridges.values())) < len(bridges):
        raise ValueError("two bridges have the same identifier")
    if any(link.cost < 1 for link in links):
        raise ValueError("a path cost is at least 1")
    at: defaultdict[str, list[tuple[TreeLink, str, PortId, PortId]]] = defaultdict(list)
    for link in links:
        if link.a != link.b:
            at[link.a].append((link, link.b, link.a_port, link.b_port))
            at[link.b].append((link, link.a, link.b_port, link.a_port))
    root_of, cost = _costs(bridges, at)
    root_port = {
        bridge: min(
            ((cost[other] + link.cost, bridges[other], theirs, mine), link.id)
            for link, other, mine, theirs in at[bridge]
        )[1]
        for bridge in sorted(bridges)
        if root_of[bridge] != bridge
    }
    blocked = frozenset(each for link in links if (each := _blocked(link, bridges, cost, root_port)))
    cut = {link for _, link in blocked}
    return Tree(root_of, cost, root_port, blocked, frozenset(link.id for link in links) - cut)


def _costs(
    bridges: Mapping[str, BridgeId], at: Mapping[str, Sequence[tuple[TreeLink, str, PortId, PortId]]]
) -> tuple[dict[str, str], dict[str, int]]:
    root_of: dict[str, str] = {}
    cost: dict[str, int] = {}
    for root in sorted(bridges, key=lambda bridge: bridges[bridge]):
        waiting = [(0, root)] if root not in root_of else []
        while waiting:
            so_far, bridge = heapq.heappop(waiting)
            if bridge in root_of:
                continue
            root_of[bridge], cost[bridge] = root, so_far
            for link, other, _, _ in at.get(bridge, ()):
                if other not in root_of:
                    heapq.heappush(waiting, (so_far + link.cost, other))
    return root_of, cost


def _blocked(
    link: TreeLink, bridges: Mapping[str, BridgeId], cost: Mapping[str, int], root_port: Mapping[str, str]
) -> tuple[str, str] | None:
    """The end that isn't designated is blocked, unless it is its bridge's root port."""
    offer_a = (cost[link.a], bridges[link.a], link.a_port)
    offer_b = (cost[link.b], bridges[link.b], link.b_port)
    loser = link.b if offer_a < offer_b else link.a
    return None if root_port.get(loser) == link.id and link.a != link.b else (loser, link.id)
