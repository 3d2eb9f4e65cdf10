"""The predicted tree in the order in which one reads it: each root, and below each bridge those that reach the root through it."""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.documents.stubs.lookup import lookup
from firstfix.documents.stubs.rates import expected_rate
from firstfix.documents.stubs.tree import tree_advice
from firstfix.graphs.tree_view import (
    PASSES,
    STANDING_BY,
    UNTOLD,
    End,
    TreeBridge,
    TreeEdge,
    TreeView,
    tree_view,
)
from firstfix.parts.facts import Fact
from firstfix.units import rate


class BridgeRow(NamedTuple):
    """`is_last` for each depth up to its own. `uplink` leads to the bridge above, None for a root."""

    bridge: TreeBridge
    depth: int
    is_last: tuple[bool, ...]
    uplink: TreeEdge | None


def predicted(build: Build) -> TreeView:
    """With the priorities that the sheets of settings advise, and the rates that they expect."""
    look = lookup(build)
    priorities = {device: advice.priority for device, advice in tree_advice(look).items()}
    rates = {each.id: expected_rate(look, each) for each in build.channels.values()}
    return tree_view(build, priorities, rates)


def bridge_rows(view: TreeView) -> tuple[BridgeRow, ...]:
    edges = {edge.id: edge for edge in view.edges}
    below: dict[str, list[TreeBridge]] = {}
    roots = []
    for bridge in view.bridges:
        if bridge.uplink:
            below.setdefault(_far(edges[bridge.uplink], bridge.device), []).append(bridge)
        else:
            roots.append(bridge)
    found: list[BridgeRow] = []
    stack: list[tuple[TreeBridge, int, tuple[bool, ...]]] = [(root, 0, (True,)) for root in reversed(roots)]
    while stack:
        bridge, depth, lasts = stack.pop()
        found.append(BridgeRow(bridge, depth, lasts, edges.get(bridge.uplink)))
        inner = sorted(below.get(bridge.device, ()), key=lambda each: natural(each.device))
        for index in range(len(inner) - 1, -1, -1):
            stack.append((inner[index], depth + 1, (*lasts, index == len(inner) - 1)))
    return tuple(found)


def _far(edge: TreeEdge, device: str) -> str:
    return next((end.device for end in edge.ends if end.device != device), device)


def root_words(bridge: TreeBridge) -> str:
    """Of a bridge at the top of its part of the network."""
    if not bridge.speaks:
        return "speaks no spanning tree, as far as is known"
    if bridge.root != bridge.device:
        return "which bridge is the root cannot be told"
    return f"the root, by its priority {bridge.priority}: the lowest wins, then the lowest address"


def rest(view: TreeView) -> tuple[TreeEdge, ...]:
    """Links that are no bridge's way to the root."""
    uplinks = {bridge.uplink for bridge in view.bridges}
    return tuple(edge for edge in view.edges if edge.id not in uplinks)


def mine_and_other(edge: TreeEdge, device: str) -> tuple[End, End]:
    first, second = edge.ends
    return (first, second) if first.device == device else (second, first)


def port(build: Build, end: End) -> str:
    """`core/9`; of an aggregate `core/9+10`."""
    jacks = "+".join(build.jacks[jack].name for jack in end.jacks)
    return f"{build.devices[end.device].name}/{jacks}"


def figures(edge: TreeEdge) -> str:
    """`1 Gb/s, cost 20 000`"""
    lanes = f"{len(edge.channels)} lanes, " if len(edge.channels) > 1 else ""
    if not isinstance(edge.rate, Fact) or edge.cost is None:
        return f"{lanes}rate and cost not known"
    return f"{lanes}{rate(edge.rate.low)}, cost {thousands(edge.cost)}"


def role_words(mine: End, other: End) -> str:
    """What the link to the bridge above does, by the roles of its two ends."""
    if UNTOLD in (mine.role, other.role):
        return "cannot tell whether it forwards"
    if mine.role == PASSES:
        return "speaks no spanning tree, passes all on"
    above = "which speaks none" if other.role == PASSES else other.role
    return f"forwards: {mine.role} to {above}"


def thousands(value: int) -> str:
    return f"{value:,}".replace(",", " ")


def blocked_end(edge: TreeEdge) -> End | None:
    return next((end for end in edge.ends if end.role in STANDING_BY), None)


def meant_as(build: Build, edge: TreeEdge) -> str:
    """What the plan says a link is for, whatever the tree makes of it; "" for one that is no spare."""
    link = build.links.get(edge.link)
    return f"the plan calls it a spare for {link.spare_for}" if link and link.spare_for else ""


def rest_words(build: Build, edge: TreeEdge) -> str:
    """What a link is good for that is on no way to the root."""
    meant = meant_as(build, edge)
    spare = f"; {meant}" if meant else ""
    blocked = blocked_end(edge)
    if blocked is not None:
        return f"stands by: blocked at {port(build, blocked)} ({blocked.role}){spare}"
    if edge.stands_by:
        return f"stands by, blocked at one end: which, the addresses decide{spare}"
    if edge.is_untold:
        return f"cannot tell whether it forwards or stands by{spare}"
    return f"forwards{spare}"


def in_words(build: Build, rows: tuple[BridgeRow, ...]) -> Iterator[str]:
    for row in rows:
        bridge = row.bridge
        name = build.devices[bridge.device].name
        if row.uplink is None:
            yield f"{name}: {root_words(bridge)}."
        else:
            mine, other = mine_and_other(row.uplink, bridge.device)
            cost = (
                f"cost {thousands(bridge.cost)} to the root"
                if bridge.cost is not None
                else "its cost is not known"
            )
            yield (
                f"{name}, priority {bridge.priority}, {cost}: uplink {port(build, mine)} ({mine.role}) to"
                f" {port(build, other)} ({other.role}), {figures(row.uplink)}."
            )
