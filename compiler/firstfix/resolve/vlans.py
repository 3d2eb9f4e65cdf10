"""VLANs: who is in which, and which ones each link between bridges must carry, also after one link of a ring has failed."""

from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from firstfix.algorithms.connectivity import Edge, rings
from firstfix.build import ids
from firstfix.build.cabling import Channel
from firstfix.build.hardware import Device
from firstfix.build.logical import PortSetup, Vlan, WirelessNetwork
from firstfix.plan.model import DeviceSpec, LinkSpec, Plan
from firstfix.resolve.chains import Chain
from firstfix.resolve.jacks import JackField
from firstfix.resolve.notes import Notes, named_span, value_span


class Membership(NamedTuple):
    """What a device belongs to: the VLAN of its own address, or of a plain device; and those it takes tagged. Bits by rank."""

    untagged: str
    tagged: tuple[str, ...]


class PortPlan(NamedTuple):
    vlans: dict[str, Vlan]
    setups: dict[str, PortSetup]
    wireless: tuple[WirelessNetwork, ...]
    members: dict[str, Membership]


def resolve_vlans(
    plan: Plan,
    devices: dict[str, Device],
    channels: dict[str, Channel],
    chains: tuple[Chain, ...],
    field: JackField,
    notes: Notes,
) -> PortPlan:
    vlans = _vlans(plan, notes)
    wireless = _wireless(plan, vlans, notes)
    members = _members(plan, vlans, devices, notes)
    planner = _Planner(vlans, devices, channels, chains, field, members, notes)
    return PortPlan(vlans, planner.setups(), wireless, members)


def _vlans(plan: Plan, notes: Notes) -> dict[str, Vlan]:
    known = {spec.name for spec in plan.vlans} | {"internet", "names"}
    found: dict[str, Vlan] = {}
    for spec in sorted(plan.vlans, key=lambda spec: (spec.vid, spec.name)):
        vlan_id = ids.vlan(spec.name)
        notes.wrote(vlan_id, spec.written)
        for target in spec.reaches:
            if target not in known:
                notes.unknown_name(
                    vlan_id, target, "VLAN", known, named_span(spec.written, "reaches", target)
                )
        reaches = tuple(sorted({target for target in spec.reaches if target in known}))
        found[vlan_id] = Vlan(vlan_id, spec.name, spec.vid, spec.subnet, "", ("", ""), reaches)
    return found


def _wireless(plan: Plan, vlans: dict[str, Vlan], notes: Notes) -> tuple[WirelessNetwork, ...]:
    found: list[WirelessNetwork] = []
    for spec in plan.wifi:
        subject = f"wifi:{spec.name}"
        notes.wrote(subject, spec.written)
        vlan = _vlan_id(spec.vlan, subject, vlans, notes, value_span(spec.written, "vlan"))
        if vlan:
            found.append(WirelessNetwork(spec.name, spec.ssid, vlan))
    return tuple(sorted(found))


def _vlan_id(name: str, subject: str, vlans: dict[str, Vlan], notes: Notes, at: object) -> str:
    vlan_id = ids.vlan(name)
    if vlan_id in vlans:
        return vlan_id
    known = (vlan.name for vlan in vlans.values())
    notes.unknown_name(subject, name, "VLAN", known, at)  # type: ignore[arg-type]
    return ""


def _members(
    plan: Plan, vlans: dict[str, Vlan], devices: dict[str, Device], notes: Notes
) -> dict[str, Membership]:
    found: dict[str, Membership] = {}
    only = next(iter(vlans)) if len(vlans) == 1 else ""
    for spec in plan.devices:
        device_id = ids.device(spec.name)
        if device_id not in devices:
            continue
        untagged = only
        if spec.vlan and (untagged := ids.vlan(spec.vlan)) not in vlans:
            untagged = _vlan_id(spec.vlan, device_id, vlans, notes, value_span(spec.written, "vlan"))
        found[device_id] = Membership(untagged, _tagged(spec, device_id, vlans, devices, notes))
    return found


def _tagged(
    spec: DeviceSpec, device_id: str, vlans: dict[str, Vlan], devices: dict[str, Device], notes: Notes
) -> tuple[str, ...]:
    named = [
        _vlan_id(name, device_id, vlans, notes, named_span(spec.written, "tagged", name))
        for name in spec.tagged
    ]
    if devices[device_id].part.routes is True:
        # A router has a foot in each VLAN that has a subnet; nobody else could be its gateway.
        named += [vlan.id for vlan in vlans.values() if vlan.subnet]
    return tuple(vlan_id for vlan_id in vlans if vlan_id in named)


class _Trunk(NamedTuple):
    """A link between two bridges; an aggregate's channels count once."""

    edge: Edge
    channels: tuple[Channel, ...]


class _Planner:
    def __init__(
        self,
        vlans: dict[str, Vlan],
        devices: dict[str, Device],
        channels: dict[str, Channel],
        chains: tuple[Chain, ...],
        field: JackField,
        members: dict[str, Membership],
        notes: Notes,
    ) -> None:
        self._vlans = vlans
        self._bit = {vlan_id: 1 << rank for rank, vlan_id in enumerate(vlans)}
        self._devices = devices
        self._field = field
        self._members = members
        self._notes = notes
        self._spec_of: dict[str, LinkSpec] = {chain.id: chain.spec for chain in chains}
        self._bridges = sorted(device.id for device in devices.values() if device.part.bridges is not False)
        self._is_bridge = set(self._bridges)
        # Channels between jacks of the inside, each with the devices at its two ends.
        self._inside: list[tuple[Channel, str, str]] = []
        for channel in channels.values():
            near, far = field.jacks[channel.ends[0]], field.jacks[channel.ends[1]]
            if near.side == far.side == "inside":
                self._inside.append((channel, near.device, far.device))

    def setups(self) -> dict[str, PortSetup]:
        if not self._vlans:
            return {}
        found: dict[str, PortSetup] = {}
        trunks = self._trunks()
        carried = self._carried(trunks)
        for trunk in trunks:
            self._set_up_trunk(trunk, carried[trunk.edge.id], found)
        for channel, a, b in self._inside:
            for bridge, other in ((a, b), (b, a)):
                if bridge in self._is_bridge and other not in self._is_bridge:
                    self._set_up_edge(channel, other, found)
        return dict(sorted(found.items()))

    def _trunks(self) -> list[_Trunk]:
        grouped: defaultdict[tuple[str, str, str], list[Channel]] = defaultdict(list)
        for channel, a, b in self._inside:
            if a in self._is_bridge and b in self._is_bridge:
                spec = self._spec_of[channel.link]
                key = channel.link if spec.lanes > 1 else channel.id
                grouped[key, a, b].append(channel)
        return [_Trunk(Edge(key, a, b), tuple(found)) for (key, a, b), found in sorted(grouped.items())]

    def _local(self) -> dict[str, int]:
        """For each bridge, the VLANs that it or a plain device plugged into it needs, as bits."""
        local = {bridge: self._needs(bridge) for bridge in self._bridges}
        for _, a, b in self._inside:
            for bridge, other in ((a, b), (b, a)):
                if bridge in self._is_bridge and other not in self._is_bridge:
                    local[bridge] |= self._needs(other)
        return local

    def _needs(self, device_id: str) -> int:
        member = self._members[device_id]
        return self._bits((member.untagged, *member.tagged))

    def _bits(self, vlan_ids: Iterable[str]) -> int:
        total = 0
        for vlan_id in vlan_ids:
            total |= self._bit.get(vlan_id, 0)
        return total

    def _carried(self, trunks: list[_Trunk]) -> dict[str, int]:
        """Which VLANs each trunk carries. Over a bridge of the graph: those needed on both of its sides. Within a ring: those
        needed at two or more of its nodes, so that they still get through when any one of the ring's links has failed."""
        edges = [trunk.edge for trunk in trunks]
        local = self._local()
        split = rings(self._bridges, edges)
        tree = _RingTree(split.ring_of, split.bridges, edges, local)
        return {edge.id: tree.carried(edge) for edge in edges}

    def _set_up_trunk(self, trunk: _Trunk, carried: int, found: dict[str, PortSetup]) -> None:
        spec = self._spec_of[trunk.channels[0].link]
        untagged, why = self._trunk_untagged(trunk.edge, carried, spec)
        tagged = [vlan_id for vlan_id in self._vlans if self._bit[vlan_id] & carried and vlan_id != untagged]
        if spec.tagged is not None:
            at = value_span(spec.written, "tagged")
            named = [
                _vlan_id(name, trunk.channels[0].link, self._vlans, self._notes, at) for name in spec.tagged
            ]
            tagged = [vlan_id for vlan_id in self._vlans if vlan_id in named and vlan_id != untagged]
            why = "the plan says so"
        for channel in trunk.channels:
            for jack in channel.ends:
                aware = self._devices[self._field.jacks[jack].device].part.vlan_aware
                found[jack] = PortSetup(jack, untagged, () if aware is False else tuple(tagged), why)

    def _trunk_untagged(self, edge: Edge, carried: int, spec: LinkSpec) -> tuple[str, str]:
        if spec.untagged is not None:
            at = value_span(spec.written, "untagged")
            return _vlan_id(
                spec.untagged, f"link:{edge.id}", self._vlans, self._notes, at
            ), "the plan says so"
        own = [self._members[device].untagged for device in (edge.a, edge.b)]
        for device, vlan in zip((edge.a, edge.b), own, strict=True):
            if self._devices[device].part.vlan_aware is False:
                only = [each for each in self._vlans if self._bit[each] & carried]
                return vlan or (
                    only[0] if len(only) == 1 else ""
                ), "a bridge that knows no VLANs has all its jacks in one"
        if own[0] == own[1] and self._bits(own):
            return own[0], "both ends are managed in it, so that a bridge fresh from its box can be reached"
        # A router is managed wherever the bridges behind it are.
        both = next((vlan for vlan in (own[1], own[0]) if self._bits((vlan,)) & carried), "")
        routed = any(self._devices[device].part.routes is True for device in (edge.a, edge.b))
        return (
            (both, "the bridge behind the router is managed in it")
            if both and routed
            else ("", "all of its VLANs are tagged")
        )

    def _set_up_edge(self, channel: Channel, other: str, found: dict[str, PortSetup]) -> None:
        """Both ends of a channel between a bridge and `other`, which is none."""
        member = self._members[other]
        spec = self._spec_of[channel.link]
        untagged, why = member.untagged, f"'{self._devices[other].name}' is in it"
        if spec.untagged is not None:
            at = value_span(spec.written, "untagged")
            untagged = _vlan_id(spec.untagged, channel.link, self._vlans, self._notes, at)
            why = "the plan says so"
        tagged = tuple([each for each in member.tagged if each != untagged])
        for jack in channel.ends:
            found[jack] = PortSetup(jack, untagged, tagged, why)


class _RingTree:
    """Rings as nodes, bridges as edges: a forest. What is needed beyond an edge is counted once, from the leaves."""

    def __init__(
        self, ring_of: dict[str, int], bridges: frozenset[str], edges: list[Edge], local: dict[str, int]
    ) -> None:
        self._ring_of = ring_of
        self._bridges = bridges
        self._local = local
        self._links: defaultdict[int, list[tuple[Edge, int]]] = defaultdict(list)
        for edge in edges:
            if edge.id in bridges:
                a, b = ring_of[edge.a], ring_of[edge.b]
                self._links[a].append((edge, b))
                self._links[b].append((edge, a))
        self._nodes: defaultdict[int, list[str]] = defaultdict(list)
        for node, ring in ring_of.items():
            self._nodes[ring].append(node)
        self._beyond: dict[tuple[str, int], int] = {}
        self._inside: dict[int, int] = {}
        self._sum_up()

    def _sum_up(self) -> None:
        """`_beyond[edge, ring]`: the VLANs needed on the far side of `edge` as seen from `ring`."""
        own = {ring: self._or(self._local[node] for node in nodes) for ring, nodes in self._nodes.items()}
        order: list[tuple[int, int, Edge | None]] = []
        seen: set[int] = set()
        for root in self._nodes:
            if root in seen:
                continue
            stack: list[tuple[int, int, Edge | None]] = [(root, -1, None)]
            seen.add(root)
            while stack:
                here = stack.pop()
                order.append(here)
                for edge, other in self._links[here[0]]:
                    if other not in seen:
                        seen.add(other)
                        stack.append((other, here[0], edge))
        below = dict(own)
        for ring, above, came_by in reversed(order):
            if came_by is not None:
                self._beyond[came_by.id, above] = below[ring]
                below[above] |= below[ring]
        for ring, above, came_by in order:
            if came_by is not None:
                others = self._or(
                    self._beyond[each.id, above] for each, _ in self._links[above] if each.id != came_by.id
                )
                self._beyond[came_by.id, ring] = own[above] | others

    @staticmethod
    def _or(masks: Iterable[int]) -> int:
        total = 0
        for mask in masks:
            total |= mask
        return total

    def carried(self, edge: Edge) -> int:
        ring = self._ring_of[edge.a]
        if edge.id in self._bridges:
            return self._beyond[edge.id, ring] & self._beyond[edge.id, self._ring_of[edge.b]]
        known = self._inside.get(ring)
        if known is None:
            known = self._inside[ring] = self._needed_twice(ring)
        return known

    def _needed_twice(self, ring: int) -> int:
        once = twice = 0
        for node in self._nodes[ring]:
            mask = self._local[node]
            for edge, _ in self._links[ring]:
                if node in (edge.a, edge.b):
                    mask |= self._beyond[edge.id, ring]
            twice |= once & mask
            once |= mask
        return twice
