"""Why a device is where it is, set up and fed as it is, and on whose word its figures rest."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.logical import AddressClaim
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.explaining.far_end import far_end
from firstfix.explaining.lines import (
    decided,
    from_decision,
    mount_span,
    part_fact,
    place_of,
    ranges,
    room_name,
    said,
    sections,
    vlan_names,
)
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.power import poe_given, poe_taken
from firstfix.explaining.views import views
from firstfix.parts.facts import Fact
from firstfix.units import kilograms, millimetres, number, watts


def explain_device(build: Build, id_: str) -> Explanation:
    device = build.devices[id_]
    parts = sections(
        ("place", place(build, device)),
        ("network", _network(build, device)),
        ("power", _power(build, device)),
        ("jacks", _jacks(build, device)),
        ("part", _part(build, device)),
    )
    title = f"{device.name}, {device.part.title}"
    return Explanation(id_, "device", title, build.provenance.span(id_), parts)


def place(build: Build, device: Device) -> Iterator[Line]:
    if device.carried_by:
        holder = build.fittings[device.carried_by]
        for mount in views(build).mounts.get(holder.id, ()):
            yield Line("cabinet", f"{place_of(mount)}, on the {holder.part.name}", WRITTEN, "", mount_span(build, mount))  # fmt: skip
    for mount in views(build).mounts.get(device.id, ()):
        yield Line("cabinet", place_of(mount), WRITTEN, "", mount_span(build, mount))
    if device.room:
        yield _room(build, device)
    if device.is_owned:
        yield said(build, device.id, "in place already", "yes", "owned")
    if device.phase:
        yield said(build, device.id, "phase", device.phase)
    if device.mac:
        yield said(build, device.id, "MAC address", device.mac, "mac")
    if device.note:
        yield said(build, device.id, "note", device.note)


def _room(build: Build, device: Device) -> Line:
    shown = room_name(build, device.room)
    decision = decided(build, device.id, "room")
    if decision is not None:
        return from_decision("room", decision, None, shown)
    otherwise = "its cabinet stands there" if device.cabinet else "the plan does not say otherwise"
    return said(build, device.id, "room", shown, otherwise=otherwise)


def _network(build: Build, device: Device) -> Iterator[Line]:
    untagged, *tagged = build.memberships.get(device.id, ("",))
    if untagged:
        only = len(build.vlans) == 1
        otherwise = "the plan has one VLAN" if only else "the plan does not say otherwise"
        yield said(build, device.id, "VLAN", vlan_names(build, (untagged,)), "vlan", otherwise=otherwise)
    if tagged:
        routes = "a router has a foot in each VLAN with a subnet" if device.part.routes is True else "the plan does not say otherwise"  # fmt: skip
        yield said(build, device.id, "VLANs it takes tagged", vlan_names(build, tagged), "tagged", otherwise=routes)  # fmt: skip
    yield from _addresses(build, device)
    if device.id in build.name_service.servers:
        place_in_order = build.name_service.servers.index(device.id) + 1
        value = f"number {place_in_order} that is asked for names in {build.name_service.domain or 'this network'}"
        yield Line("name service", value, WRITTEN)
    yield from _wireless(build, device)


def _addresses(build: Build, device: Device) -> Iterator[Line]:
    claims = views(build).claims.get(device.id, ())
    for claim in claims:
        yield address_line(build, claim)
    decision = decided(build, device.id, "address")
    if decision is not None and not claims:
        yield from_decision("address", decision, None)


def address_line(build: Build, claim: AddressClaim) -> Line:
    """The address of one device in one VLAN, and how it came by it."""
    vlan = build.vlans[claim.vlan]
    shown = f"{claim.address}/{claim.prefix} in {vlan.name}"
    decision = decided(build, claim.device, "address")
    if decision is not None and decision.value == claim.address:
        at = build.provenance.written(claim.device, "host")
        return from_decision("address", decision, at, shown)
    if claim.address == vlan.gateway:
        return gateway_line(build, claim.vlan)._replace(what="address", value=f"{shown}, as its gateway")
    return said(build, claim.device, "address", shown, "host")


def gateway_line(build: Build, vlan_id: str) -> Line:
    vlan = build.vlans[vlan_id]
    decision = decided(build, vlan_id, "gateway")
    if decision is not None:
        return from_decision("gateway", decision, build.provenance.written(vlan_id, "gateway"))
    return said(build, vlan_id, "gateway", vlan.gateway)


def _wireless(build: Build, device: Device) -> Iterator[Line]:
    """An access point offers the networks whose VLAN comes to it."""
    if device.part.kind != "access-point":
        return
    member = build.memberships.get(device.id, ())
    for network in build.wireless:
        if network.vlan in member:
            why = f"its VLAN {vlan_names(build, (network.vlan,))} comes to this access point"
            yield Line("wireless network", f"{network.name} (SSID {network.ssid})", WORKED_OUT, why, build.provenance.span(f"wifi:{network.name}"))  # fmt: skip


def _power(build: Build, device: Device) -> Iterator[Line]:
    for feed in views(build).feeds.get(device.id, ()):
        yield _mains(build, feed)
    for jack in build.jacks_of.get(device.id, ()):
        for run in views(build).power.get(jack, ()):
            if run.sink == jack:
                yield from poe_taken(build, run)
    source_of = build.power_sources.get(device.id)
    if source_of is not None:
        yield from poe_given(build, source_of)
    if not views(build).feeds.get(device.id) and device.part.mains.inlet and device.part.takes_poe is None:
        yield Line("mains", "nothing feeds it")
    fed = [ids.path(each.device) for each in views(build).fed.get(device.id, ())]
    if device.part.mains.outlets:
        value = f"{', '.join(fed) or 'nothing'}; {len(fed)} of {device.part.mains.outlets} outlets in use"
        yield Line("feeds", value, WORKED_OUT)


def _mains(build: Build, feed: MainsFeed) -> Line:
    """One lead: to which outlet, and who chose that."""
    source = build.devices.get(feed.source)
    value = (
        f"{source.name}, outlet {feed.outlet}" if source else f"an outlet of {room_name(build, feed.source)}"
    )
    what = "mains" if feed.inlet == 1 else f"mains, inlet {feed.inlet}"
    decision = decided(build, feed.device, "power" if feed.inlet == 1 else f"power {feed.inlet}")
    if decision is None:
        return Line(what, value, WORKED_OUT, "the only outlet that could be meant")
    return from_decision(what, decision, build.provenance.written(feed.device, "power"), value)


def _jacks(build: Build, device: Device) -> Iterator[Line]:
    """One line for each jack that is wired, and one for all that are free."""
    free: dict[str, None] = {}
    for jack in build.jacks_of.get(device.id, ()):
        named = build.jacks[jack]
        pieces = views(build).pieces.get(jack, ())
        if not pieces:
            free.setdefault(named.name)
            continue
        face = " (rear)" if named.face == "rear" else ""
        for piece in pieces:
            yield Line(f"{named.name}{face}", far_end(build, jack, piece))
    wired = {
        build.jacks[jack].name for jack in build.jacks_of.get(device.id, ()) if jack in views(build).pieces
    }
    left = [name for name in free if name not in wired]
    if left:
        yield Line("free", ", ".join(ranges(left)))


def _part(build: Build, device: Device) -> Iterator[Line]:
    part = device.part
    yield said(
        build, device.id, "part", f"{part.name} ({part.kind})", otherwise="the plan does not say otherwise"
    )
    yield part_fact(build, part, "draw", part.draw, watts, "draw")
    if part.takes_poe is not None:
        yield part_fact(build, part, "PoE class asked for", part.takes_poe.poe_class, number, "takes-poe", "class")  # fmt: skip
    if part.gives_poe is not None:
        yield part_fact(build, part, "PoE class given", part.gives_poe.poe_class, number, "gives-poe", "class")  # fmt: skip
        # One that lives on PoE itself has no budget of its own: what it can give depends on what feeds it.
        if part.mains.inlet or isinstance(part.gives_poe.budget, Fact):
            yield part_fact(build, part, "PoE budget", part.gives_poe.budget, watts, "gives-poe", "budget")
    if part.rack is not None:
        yield part_fact(build, part, "depth", part.rack.depth, millimetres, "depth")
    yield part_fact(build, part, "weight", part.weight, kilograms, "weight")
