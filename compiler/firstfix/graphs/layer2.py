"""The layer-2 view: which bridges are joined, what is plugged into them, and which VLANs each of these links carries.

From a build and a presence. Jacks that face the provider's line are outside this network and left out.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from firstfix.algorithms.connectivity import Edge
from firstfix.build.cabling import Channel
from firstfix.build.logical import PortSetup
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.presence import EVERYTHING, Presence
from firstfix.graphs.wired import wired_channels

# The one network of a plan without VLANs, and of bridges as they come from their box.
PLAIN = ""


class Join(NamedTuple):
    """One link at layer 2: a channel, or the channels of one aggregate. `edge.a` and `edge.b` are device ids.

    `carried`: ids of the VLANs that get through as both ends are set up, where a bridge that knows no VLANs passes whatever the
    other end sends. A link that nothing is set up for carries PLAIN.
    `split`: lanes written as one aggregate, which an end without settings can't make one of.
    """

    edge: Edge
    link: str
    channels: tuple[str, ...]
    carried: frozenset[str]
    split: bool


@dataclass(frozen=True, slots=True)
class Layer2:
    """`bridges` in order of ids, those of which nobody knows whether they bridge included; `joins` are between two bridges,
    `plugs` between a bridge (edge.a) and something else (edge.b). All in order of edge ids."""

    bridges: tuple[str, ...]
    joins: tuple[Join, ...]
    plugs: tuple[Join, ...]


def layer2(build: Build, presence: Presence = EVERYTHING) -> Layer2:
    bridges = tuple(
        device.id
        for device in build.devices.values()
        if device.part.bridges is not False and presence.has(device.id)
    )
    known = frozenset(bridges)
    # Whatever comes in at one jack of a bridge that knows no VLANs goes out at all its others, tag and all.
    blind = frozenset(each for each in bridges if build.devices[each].part.vlan_aware is False)
    joins: list[Join] = []
    plugs: list[Join] = []
    for edge, channels, split in _grouped(build, presence):
        from_bridge, to_bridge = edge.a in known, edge.b in known
        if not (from_bridge or to_bridge):
            continue
        carried = _carried(build, channels[0], edge.a in blind, edge.b in blind)
        if not from_bridge:
            edge = Edge(edge.id, edge.b, edge.a)
        join = Join(edge, channels[0].link, tuple([each.id for each in channels]), carried, split)
        (joins if from_bridge and to_bridge else plugs).append(join)
    return Layer2(bridges, tuple(joins), tuple(plugs))


whole_layer2 = once_per_build(layer2)
"""The layer 2 of everything, live at once."""


def _grouped(build: Build, presence: Presence) -> list[tuple[Edge, tuple[Channel, ...], bool]]:
    """Live channels between inside jacks, an aggregate's together, in order of their edges."""
    groups: defaultdict[Edge, list[Channel]] = defaultdict(list)
    splits: set[Edge] = set()
    for channel, a, b in wired_channels(build):
        if a.side != "inside" or b.side != "inside" or not _is_live(channel, a.device, b.device, presence):
            continue
        is_aggregate = build.links[channel.link].lanes > 1
        split = is_aggregate and any(
            build.devices[each].part.bridges is not False and build.devices[each].part.vlan_aware is False
            for each in (a.device, b.device)
        )
        edge = Edge(channel.link if is_aggregate and not split else channel.id, a.device, b.device)
        groups[edge].append(channel)
        if split:
            splits.add(edge)
    return [(edge, tuple(channels), edge in splits) for edge, channels in sorted(groups.items())]


def _is_live(channel: Channel, a: str, b: str, presence: Presence) -> bool:
    return not presence.absent or presence.has(
        channel.id, channel.link, a, b, *channel.ends, *channel.pieces, *channel.through
    )


def _carried(build: Build, channel: Channel, blind_a: bool, blind_b: bool) -> frozenset[str]:
    a, b = build.port_setups.get(channel.ends[0]), build.port_setups.get(channel.ends[1])
    if a is None or b is None:
        return frozenset({PLAIN})
    if blind_a or blind_b:
        found = (vlans_of(b) if blind_a else frozenset()) | (vlans_of(a) if blind_b else frozenset())
    elif a.untagged == b.untagged and a.tagged == b.tagged:
        found = _set_of(a.untagged, a.tagged)
    else:
        found = frozenset(set(a.tagged) & set(b.tagged)) | (frozenset({a.untagged} & {b.untagged}) - {PLAIN})
    return found if found or vlans_of(a) or vlans_of(b) else frozenset({PLAIN})


def vlans_of(setup: PortSetup) -> frozenset[str]:
    """All VLANs that a jack is in, tagged or not."""
    return _set_of(setup.untagged, setup.tagged)


@lru_cache(maxsize=4096)
def _set_of(untagged: str, tagged: tuple[str, ...]) -> frozenset[str]:
    return frozenset((*tagged, untagged) if untagged else tagged)


def joins_by_vlan(joins: tuple[Join, ...]) -> Mapping[str, tuple[Join, ...]]:
    """VLAN id (or PLAIN) to the joins that carry it, in order."""
    found: defaultdict[str, list[Join]] = defaultdict(list)
    for join in joins:
        for vlan in join.carried:
            found[vlan].append(join)
    return {vlan: tuple(each) for vlan, each in sorted(found.items())}
