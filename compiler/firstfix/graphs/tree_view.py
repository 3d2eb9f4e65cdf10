"""The spanning tree of a build, predicted: the root, each bridge's cost to it, and the role of each end of each link.

Takes a build, the priorities that its bridges are to be given, and the rates of its channels; gives one view. Where the outcome
hangs on addresses or rates that aren't known, or on a bridge that speaks no spanning tree, a role can't be told.

Words and order of offers: IEEE Std 802.1D (2004), 17.6 and 17.7 (now in IEEE Std 802.1Q).
"""

from collections.abc import Mapping
from typing import NamedTuple

from firstfix.algorithms.connectivity import Edge, components, rings
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.graphs.layer2 import Join, whole_layer2
from firstfix.graphs.spanning_tree import BridgeId, Tree, TreeLink, predicted_tree
from firstfix.graphs.vlan_view import carriers
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.standards.layer2 import long_path_cost, number_ranges

ROOT_PORT, DESIGNATED, ALTERNATE, BACKUP = "root port", "designated port", "alternate port", "backup port"
PASSES = "passes all on"
UNTOLD = "cannot tell"
# Ports that take frames and drop them until the tree changes.
STANDING_BY = (ALTERNATE, BACKUP)

_MUTE_PRIORITY = number_ranges()["tree-priority"].highest + 1


class TreeBridge(NamedTuple):
    """`address` as read at unboxing, or "". `cost` to the root, None where it can't be told. `uplink`: id of the link towards the
    root, "" for a root. `speaks`: whether it speaks spanning tree. `root`: the device at the top of its part of the network."""

    device: str
    priority: int
    address: str
    speaks: bool
    root: str
    cost: int | None
    uplink: str


class End(NamedTuple):
    """One end of a link: its bridge, the jacks there (of an aggregate, several), and the role of that port."""

    device: str
    jacks: tuple[str, ...]
    role: str


class TreeEdge(NamedTuple):
    """`rate` of all lanes together [Mb/s]; `cost` None where the rate isn't known. `link`: what the author meant by it.

    `stands_by`: one of its ends is blocked for sure, even where it can't be told which one.
    """

    id: str
    link: str
    channels: tuple[str, ...]
    ends: tuple[End, End]
    rate: Figure
    cost: int | None
    stands_by: bool

    @property
    def is_untold(self) -> bool:
        return any(end.role == UNTOLD for end in self.ends)


class TreeView(NamedTuple):
    """In order of names and ids. `doubts`: why a role or a cost can't be told."""

    bridges: tuple[TreeBridge, ...]
    edges: tuple[TreeEdge, ...]
    doubts: tuple[str, ...]


class _Ground(NamedTuple):
    """What the prediction starts from. `addressed`: bridges whose address is known; `unrated`: links whose rate is not."""

    build: Build
    ids: Mapping[str, BridgeId]
    addressed: frozenset[str]
    mute: frozenset[str]
    joins: tuple[Join, ...]
    links: Mapping[str, TreeLink]
    rates: Mapping[str, Figure]
    unrated: frozenset[str]
    ring_of: Mapping[str, int]
    single: frozenset[str]


def tree_view(build: Build, priorities: Mapping[str, int], rates: Mapping[str, Figure]) -> TreeView:
    """`priorities` by device, the usual one for others; `rates` by channel [Mb/s]. Leaves that speak none are left out."""
    joins, nodes = _joined(build)
    edges = [join.edge for join in joins]
    split = rings(nodes, edges)
    mute = frozenset(each for each in nodes if build.devices[each].part.spanning_tree is not True)
    rate_of = {join.edge.id: _rate(join, rates) for join in joins}
    ground = _Ground(
        build,
        _identifiers(build, nodes, priorities, mute),
        frozenset(each for each in nodes if build.devices[each].mac),
        mute,
        joins,
        {join.edge.id: _tree_link(build, join, rate_of[join.edge.id]) for join in joins},
        rate_of,
        frozenset(join.edge.id for join in joins if isinstance(rate_of[join.edge.id], Unknown)),
        split.ring_of,
        split.bridges,
    )
    tree = predicted_tree(ground.ids, list(ground.links.values()))
    parts = components(nodes, edges)
    part_of = {node: number for number, part in enumerate(parts) for node in part}
    unrated = {part_of[join.edge.a] for join in joins if join.edge.id in ground.unrated}
    rootless = {number for number, part in enumerate(parts) if _tied_at_the_top(ground, part)}
    shown = tuple(
        TreeBridge(
            node,
            ground.ids[node][0],
            build.devices[node].mac,
            node not in mute,
            "" if part_of[node] in rootless else tree.root_of[node],
            None if part_of[node] in unrated | rootless else tree.cost[node],
            tree.root_port.get(node, ""),
        )
        for node in nodes
    )
    roles = tuple(_edge(ground, tree, join, part_of, rootless) for join in joins)
    return TreeView(shown, roles, _doubts(ground, roles, bool(rootless)))


def _joined(build: Build) -> tuple[tuple[Join, ...], list[str]]:
    """Links between bridges that pass frames from cable to cable, and these bridges; none that hangs on one link and speaks none."""
    view = whole_layer2(build)
    nodes = set(carriers(build))
    joins = [join for join in view.joins if {join.edge.a, join.edge.b} <= nodes]
    while True:
        count: dict[str, int] = dict.fromkeys(nodes, 0)
        for join in joins:
            for end in (join.edge.a, join.edge.b):
                count[end] += 1
        leaves = {
            each for each in nodes if count[each] < 2 and build.devices[each].part.spanning_tree is not True
        }
        if not leaves:
            return tuple(joins), sorted(nodes, key=natural)
        nodes -= leaves
        joins = [join for join in joins if not leaves & {join.edge.a, join.edge.b}]


def _identifiers(
    build: Build, nodes: list[str], priorities: Mapping[str, int], mute: frozenset[str]
) -> dict[str, BridgeId]:
    """An unknown address is stood in for by a number, so that the outcome is the same each time; ties are looked for apart."""
    usual = number_ranges()["tree-priority"].usual
    found: dict[str, BridgeId] = {}
    taken: set[int] = set()
    for number, node in enumerate(nodes):
        mac = build.devices[node].mac
        address = int(mac.replace(":", "").replace("-", ""), 16) if mac else (1 << 48) + number
        while address in taken:
            address += 1 << 49
        taken.add(address)
        found[node] = (_MUTE_PRIORITY if node in mute else priorities.get(node, usual), address)
    return found


def _rate(join: Join, rates: Mapping[str, Figure]) -> Figure:
    """Of all lanes together, at the rate of the slowest."""
    known = [rates.get(each, Unknown("its rate is not known")) for each in join.channels]
    for each in known:
        if isinstance(each, Unknown):
            return each
    slowest = min(each.low for each in known if isinstance(each, Fact))
    total = slowest * len(known)
    return Fact(total, total, total, "the slowest lane, times the lanes")


def _tree_link(build: Build, join: Join, rate: Figure) -> TreeLink:
    # Where a rate isn't known, the cost of one stands in that most links have; nothing that hangs on it is told.
    cost = long_path_cost(rate.low if isinstance(rate, Fact) else 1000.0)
    a, b = (_port(build, join, end) for end in (join.edge.a, join.edge.b))
    return TreeLink(join.edge.id, join.edge.a, a, join.edge.b, b, cost)


def _port(build: Build, join: Join, device: str) -> tuple[int, int]:
    """Priority and number of the port: jacks are counted from 1, an aggregate has its first jack's number."""
    jacks = build.jacks_of[device]
    mine = min(jacks.index(each) for each in _jacks(build, join, device))
    return number_ranges()["tree-port-priority"].usual, mine + 1


def _jacks(build: Build, join: Join, device: str) -> tuple[str, ...]:
    ends = (end for channel in join.channels for end in build.channels[channel].ends)
    return tuple(dict.fromkeys(end for end in ends if build.jacks[end].device == device))


def _tie(ground: _Ground, a: str, b: str) -> bool:
    """Whether nobody can say which of two bridges has the lower identifier."""
    return a != b and ground.ids[a][0] == ground.ids[b][0] and not {a, b} <= ground.addressed


def _tied_at_the_top(ground: _Ground, part: list[str]) -> bool:
    best = min(part, key=lambda node: ground.ids[node])
    return any(_tie(ground, best, other) for other in part)


def _edge(
    ground: _Ground, tree: Tree, join: Join, part_of: Mapping[str, int], rootless: set[int]
) -> TreeEdge:
    edge = join.edge
    is_told = part_of[edge.a] not in rootless and (edge.id in ground.single or _is_ring_told(ground, edge))
    ends = [
        End(
            device,
            _jacks(ground.build, join, device),
            _role(ground, tree, edge, device) if is_told else UNTOLD,
        )
        for device in (edge.a, edge.b)
    ]
    if edge.a == edge.b:
        first, second = ends[0].jacks[:1], ends[0].jacks[1:]
        ends = [End(edge.a, first, DESIGNATED), End(edge.b, second, BACKUP)]
    rate = ground.rates[edge.id]
    cost = None if edge.id in ground.unrated else ground.links[edge.id].cost
    # Bridges that are equally far from the root don't reach it through each other: one end of their link is blocked.
    is_level = is_told and edge.a != edge.b and tree.cost[edge.a] == tree.cost[edge.b]
    stands_by = is_level or any(end.role in STANDING_BY for end in ends)
    return TreeEdge(edge.id, join.link, join.channels, (ends[0], ends[1]), rate, cost, stands_by)


def _is_ring_told(ground: _Ground, edge: Edge) -> bool:
    """On a ring all must speak spanning tree, and all rates be known."""
    ring = ground.ring_of[edge.a]
    on_it = (each for each in ground.joins if each.edge.id not in ground.single)
    links = [each.edge for each in on_it if ground.ring_of[each.edge.a] == ring]
    return not any(each.id in ground.unrated or {each.a, each.b} & ground.mute for each in links)


def _role(ground: _Ground, tree: Tree, edge: Edge, device: str) -> str:
    other = edge.b if device == edge.a else edge.a
    if device in ground.mute:
        return PASSES
    if edge.id not in ground.single and _hangs_on_addresses(ground, tree, edge, device, other):
        return UNTOLD
    if tree.root_port.get(device) == edge.id:
        return ROOT_PORT
    if (device, edge.id) in tree.blocked:
        return ALTERNATE
    return DESIGNATED


def _hangs_on_addresses(ground: _Ground, tree: Tree, edge: Edge, device: str, other: str) -> bool:
    """Whether this end's role, or the other's, changes with addresses that aren't known."""
    if tree.cost[device] == tree.cost[other] and _tie(ground, device, other):
        return True
    return any(_is_contested(ground, tree, edge, end) for end in (device, other))


def _is_contested(ground: _Ground, tree: Tree, edge: Edge, device: str) -> bool:
    """Whether this link is one of several that are as good ways to the root, from bridges of one priority."""
    offers = [
        (tree.cost[other] + ground.links[join.edge.id].cost, ground.ids[other][0], other, join.edge.id)
        for join in ground.joins
        if device in (join.edge.a, join.edge.b) and join.edge.a != join.edge.b
        for other in ((join.edge.b,) if device == join.edge.a else (join.edge.a,))
    ]
    if tree.root_of[device] == device or not offers:
        return False
    best = min(offers)[:2]
    equal = [offer for offer in offers if offer[:2] == best]
    return edge.id in {offer[3] for offer in equal} and any(
        _tie(ground, equal[0][2], each[2]) for each in equal
    )


def _doubts(ground: _Ground, edges: tuple[TreeEdge, ...], is_rootless: bool) -> tuple[str, ...]:
    build = ground.build
    mute = ", ".join(build.devices[each].name for each in sorted(ground.mute, key=natural))
    found = [f"whether these speak spanning tree: {mute}"] if mute else []
    found += [
        f"the rate between '{build.devices[edge.ends[0].device].name}' and '{build.devices[edge.ends[1].device].name}'"
        for edge in edges
        if edge.cost is None
    ]
    if is_rootless or any(edge.is_untold and edge.cost is not None for edge in edges):
        found.append("addresses of bridges of one priority, which decide where costs are equal")
    return tuple(found)
