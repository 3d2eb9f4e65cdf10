"""Each VLAN as one looks it up: who is in it by which address, which bridges carry it on which jacks, who may reach whom.

Takes a build; gives one view for each VLAN, by number. Whoever is wired to nothing and has no address is in none.
"""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.ids import natural
from firstfix.build.logical import AddressClaim, Vlan
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.graphs.layer2 import whole_layer2

# What `whence` says beside written, kept and worked out.
LEASED = "leased"
GATEWAY = "gateway"
NO_ADDRESS = ""


class Member(NamedTuple):
    """`address` in text or "", `whence` it comes. `at`: jacks of bridges that it is plugged into and that carry the VLAN; for a
    bridge, those that join it to others. `is_tagged`: the VLAN comes to it tagged, at the first of these."""

    device: str
    is_tagged: bool
    address: str
    whence: str
    at: tuple[str, ...]


class Carrier(NamedTuple):
    """A bridge between jacks, and its jacks that are in the VLAN, in their order."""

    bridge: str
    untagged: tuple[str, ...]
    tagged: tuple[str, ...]


class VlanView(NamedTuple):
    """`reaches` as the plan says it: names of VLANs, internet, names; `reached_by`: names of VLANs. `wireless`: names and SSIDs."""

    vlan: Vlan
    members: tuple[Member, ...]
    carriers: tuple[Carrier, ...]
    wireless: tuple[tuple[str, str], ...]
    reaches: tuple[str, ...]
    reached_by: tuple[str, ...]


@once_per_build
def vlan_views(build: Build) -> tuple[VlanView, ...]:
    """By number, then by name."""
    plugged = _plugged(build)
    members = _members(build, plugged)
    ordered = sorted(build.vlans.values(), key=lambda vlan: (vlan.vid, vlan.name))
    return tuple(
        VlanView(
            vlan,
            tuple(members[vlan.id]),
            _carriers(build, vlan.id),
            tuple((each.name, each.ssid) for each in build.wireless if each.vlan == vlan.id),
            _in_order(vlan, ordered),
            tuple(each.name for each in ordered if vlan.name in each.reaches and each is not vlan),
        )
        for vlan in ordered
    )


def _in_order(vlan: Vlan, ordered: list[Vlan]) -> tuple[str, ...]:
    """VLANs by number, then what lies beyond."""
    places = {each.name: place for place, each in enumerate(ordered)}
    return tuple(sorted(vlan.reaches, key=lambda name: (places.get(name, len(places)), name)))


def _plugged(build: Build) -> dict[str, tuple[str, ...]]:
    """Device to the bridge jacks at the far ends of its channels, of a bridge's only those of other bridges between jacks; what has
    a channel to something else has an empty entry."""
    bridges, between = frozenset(whole_layer2(build).bridges), carriers(build)
    found: defaultdict[str, list[str]] = defaultdict(list)
    for channel in build.channels.values():
        near, far = (build.jacks[end] for end in channel.ends)
        for mine, other in ((near, far), (far, near)):
            if mine.side == "inside":
                peers = between if mine.device in between else bridges
                found[mine.device] += [other.id] if other.device in peers and other.side == "inside" else []
    return {device: tuple(jacks) for device, jacks in found.items()}


def _members(build: Build, plugged: dict[str, tuple[str, ...]]) -> dict[str, list[Member]]:
    claims = {(claim.device, claim.vlan): claim for claim in build.addresses}
    held: defaultdict[str, list[str]] = defaultdict(list)
    for each in build.addresses:
        held[each.device].append(each.vlan)
    origins = {made.subject: made for made in build.decisions if made.attribute == "address"}
    found: dict[str, list[Member]] = {vlan: [] for vlan in build.vlans}
    for device in sorted(build.devices, key=natural):
        untagged, *tagged = build.memberships.get(device, ("",))
        for vlan in dict.fromkeys((untagged, *tagged, *held[device])):
            if vlan not in found or not (device in plugged or vlan in held[device]):
                continue
            claim = claims.get((device, vlan))
            origin = origins.get(device)
            whence = _whence(build, claim, vlan) or (origin.origin if origin and claim else "")
            if claim is None and vlan == untagged and origin is not None and origin.value == LEASED:
                whence = LEASED
            at = _at(build, plugged.get(device, ()), vlan)
            is_tagged = vlan in build.port_setups[at[0]].tagged if at else vlan != untagged
            found[vlan].append(Member(device, is_tagged, claim.address if claim else "", whence, at))
    return found


def _whence(build: Build, claim: AddressClaim | None, vlan: str) -> str:
    return GATEWAY if claim is not None and claim.address == build.vlans[vlan].gateway else NO_ADDRESS


def _at(build: Build, jacks: tuple[str, ...], vlan: str) -> tuple[str, ...]:
    """Those of the jacks that carry the VLAN."""
    setups = ((jack, build.port_setups.get(jack)) for jack in jacks)
    return tuple(jack for jack, setup in setups if setup and vlan in (setup.untagged, *setup.tagged))


@once_per_build
def carriers(build: Build) -> frozenset[str]:
    """Ids of bridges through which frames go from cable to cable: switches, routers, and what has two cables to the inside.

    Where nobody says whether a thing bridges, it may.
    """
    wired = [build.jacks[end] for channel in build.channels.values() for end in channel.ends]
    count: defaultdict[str, int] = defaultdict(int)
    for jack in wired:
        count[jack.device] += jack.side == "inside"
    return frozenset(
        device.id
        for device in build.devices.values()
        if device.part.bridges is not False
        and (
            count[device.id] > 1
            or (count[device.id] and (device.part.kind == "switch" or device.part.routes is True))
        )
    )


def _carriers(build: Build, vlan: str) -> tuple[Carrier, ...]:
    found = []
    for bridge in sorted(carriers(build), key=natural):
        setups = [
            build.port_setups[jack] for jack in build.jacks_of.get(bridge, ()) if jack in build.port_setups
        ]
        carrier = Carrier(
            bridge,
            tuple(each.jack for each in setups if each.untagged == vlan),
            tuple(each.jack for each in setups if vlan in each.tagged),
        )
        if carrier.untagged or carrier.tagged:
            found.append(carrier)
    return tuple(found)


def shown_jack(build: Build, jack: str) -> str:
    """`core/3`, as a plan writes it."""
    known = build.jacks.get(jack)
    return f"{build.devices[known.device].name}/{known.name}" if known else ids.path(jack)
