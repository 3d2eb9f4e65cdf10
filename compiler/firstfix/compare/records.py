"""A build as flat records, id to attribute to text: what a comparison compares. Order, layout and comments of the plan aren't in it."""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.parts.facts import Fact, Figure
from firstfix.units import metres, number, watts

Record = dict[str, str]


def records(build: Build) -> dict[str, Record]:
    """Every thing that a person would name, with the attributes that they would see change."""
    found: defaultdict[str, Record] = defaultdict(dict)
    for maker in (_places, _equipment, _wiring, _power, _logical):
        for id_, attribute, value in maker(build):
            found[id_][attribute] = value
    return dict(sorted(found.items()))


_Entries = Iterator[tuple[str, str, str]]


def _figure(figure: Figure, unit: str) -> str:
    if not isinstance(figure, Fact):
        return "unknown"
    if unit == "m":
        return metres(figure.high)
    return watts(figure.high) if unit == "W" else number(figure.high)


def _places(build: Build) -> _Entries:
    for building in build.buildings.values():
        yield building.id, "earth", building.earth
    for room in build.rooms.values():
        yield room.id, "building", ids.path(room.building)
        yield room.id, "floor", str(room.floor)
        yield room.id, "outdoors", str(room.is_outdoors).lower()
        yield room.id, "mains outlets", _figure(room.mains_outlets, "")
    for way in build.ways.values():
        yield way.id, "between", " and ".join(sorted(map(ids.path, way.ends)))
        yield way.id, "length", _figure(way.length, "m")
        yield way.id, "kind", way.kind


def _equipment(build: Build) -> _Entries:
    for cabinet in build.cabinets.values():
        yield cabinet.id, "part", cabinet.part.name
        yield cabinet.id, "room", ids.path(cabinet.room)
    for fitting in build.fittings.values():
        yield fitting.id, "part", fitting.part.name
    for device in build.devices.values():
        yield device.id, "part", device.part.name
        yield device.id, "room", ids.path(device.room)
        yield device.id, "owned", str(device.is_owned).lower()
        if device.carried_by:
            yield device.id, "stands on", ids.path(device.carried_by)
        if device.mac:
            yield device.id, "MAC address", device.mac
    for mount in build.mounts:
        units = str(mount.low) if mount.low == mount.high else f"{mount.low}-{mount.high}"
        if mount.is_kept_free:
            yield f"units:{ids.path(mount.cabinet)}/{units}", "kept free for", mount.what
        elif mount.item in build.devices:
            yield mount.item, "units", f"{ids.path(mount.cabinet)} {units}"


def _wiring(build: Build) -> _Entries:
    for link in build.links.values():
        yield link.id, "passes", " – ".join(_one_way_round([ids.path(hop) for hop in link.hops]))
        yield link.id, "lanes", str(link.lanes)
        if link.spare_for:
            yield link.id, "spare for", link.spare_for
    for piece in build.pieces.values():
        yield piece.id, "part", piece.part
        yield piece.id, "joins", " – ".join(sorted(map(ids.path, piece.ends)))
        yield piece.id, "length", _figure(piece.length.figure, "m")
        if piece.route:
            yield piece.id, "ways", " – ".join(_one_way_round([ids.path(way) for way in piece.route]))


def _one_way_round(names: list[str]) -> list[str]:
    return min(names, names[::-1])


def _power(build: Build) -> _Entries:
    for run in build.power_runs.values():
        device = build.jacks[run.sink].device
        yield device, "PoE from", ids.path(run.source)
        yield device, "PoE class", _figure(run.assigned, "")
    for feed in build.mains_feeds:
        yield feed.device, "mains from", ids.path(feed.source)
    for source in build.power_sources.values():
        yield source.device, "PoE to give", _figure(source.budget, "W")


def _logical(build: Build) -> _Entries:
    for vlan in build.vlans.values():
        yield vlan.id, "number", str(vlan.vid)
        yield vlan.id, "subnet", vlan.subnet or "none"
        yield vlan.id, "gateway", vlan.gateway or "none"
        yield vlan.id, "leases", " to ".join(vlan.leases) if vlan.leases[0] else "none"
        yield vlan.id, "reaches", ", ".join(sorted(vlan.reaches)) or "nothing"
    for setup in build.port_setups.values():
        device = build.devices[build.jacks[setup.jack].device]
        if device.part.bridges is not False:
            yield setup.jack, "untagged", ids.path(setup.untagged) or "none"
            yield setup.jack, "tagged", ", ".join(map(ids.path, setup.tagged)) or "none"
    for claim in build.addresses:
        yield claim.device, f"address in {ids.path(claim.vlan)}", f"{claim.address}/{claim.prefix}"
    for network in build.wireless:
        yield f"wifi:{network.name}", "SSID", network.ssid
        yield f"wifi:{network.name}", "VLAN", ids.path(network.vlan)
    if build.name_service.domain or build.name_service.servers:
        yield "names:", "domain", build.name_service.domain or "none"
        yield "names:", "servers", ", ".join(map(ids.path, build.name_service.servers)) or "none"
