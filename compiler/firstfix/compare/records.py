"""A build as flat records, id to attribute to value: what a comparison compares. Order, layout and comments of the plan aren't in it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from firstfix.build import ids
from firstfix.build.hardware import Mount
from firstfix.build.model import Build
from firstfix.compare.values import Record, Value, chain, in_vlan, one, row, some
from firstfix.parts.facts import Fact, Figure
from firstfix.units import air_flow, celsius, metres, number, rate, watts


def records(build: Build) -> dict[str, Record]:
    """Every thing that a person would name, with the attributes that they would see change."""
    found: defaultdict[str, Record] = defaultdict(dict)
    for maker in (
        _places,
        _ways,
        _cabinets,
        _devices,
        _mounts,
        _wiring,
        _power,
        _logical,
        _services,
        _phases,
    ):
        for id_, attribute, value in maker(build):
            found[id_][attribute] = value
    return dict(sorted(found.items()))


_Entries = Iterator[tuple[str, str, Value]]


def _figure(figure: Figure, unit: str) -> str:
    if not isinstance(figure, Fact):
        return "unknown"
    if unit == "m":
        return metres(figure.high)
    return watts(figure.high) if unit == "W" else number(figure.high)


def _known(id_: str, figures: Iterable[tuple[str, Figure, str]]) -> _Entries:
    """Those of the figures that somebody gave."""
    for attribute, figure, unit in figures:
        if isinstance(figure, Fact):
            yield id_, attribute, _figure(figure, unit)


def _in_phase(id_: str, phase: str) -> _Entries:
    if phase:
        yield id_, "phase", phase


def _places(build: Build) -> _Entries:
    for site in build.sites.values():
        yield site.id, "buildings", some(each.id for each in build.buildings.values() if each.site == site.id)
    for building in build.buildings.values():
        yield building.id, "earth", one(f"building:{building.earth}")
        yield from _known(building.id, (("altitude", building.altitude, "m"),))
    for room in build.rooms.values():
        yield room.id, "building", one(room.building)
        yield room.id, "floor", str(room.floor)
        yield room.id, "outdoors", str(room.is_outdoors).lower()
        yield room.id, "mains outlets", _figure(room.mains_outlets, "")
        yield from _known(room.id, (("drop", room.drop, "m"),))
        extent = (
            ("east to west", room.size.east),
            ("south to north", room.size.north),
            ("height", room.size.height),
        )
        corner = (("corner east", room.position.east), ("corner north", room.position.north))
        yield from _known(room.id, [(what, figure, "m") for what, figure in (*extent, *corner)])
        yield from ((room.id, f"wall {side}", material) for side, material in room.walls)
        if isinstance(room.ambient, Fact):
            yield room.id, "ambient", f"{celsius(room.ambient.low)} to {celsius(room.ambient.high)}"


def _ways(build: Build) -> _Entries:
    for way in build.ways.values():
        yield way.id, "between", some(way.ends, " and ")
        yield way.id, "length", _figure(way.length, "m")
        yield way.id, "kind", way.kind
        yield from _known(way.id, (("bore", way.bore, "m"),))
        if way.material:
            yield way.id, "material", way.material
        if way.is_owned:
            yield way.id, "owned", "true"
        yield from _in_phase(way.id, way.phase)


def _cabinets(build: Build) -> _Entries:
    for cabinet in build.cabinets.values():
        yield cabinet.id, "part", cabinet.part.name
        yield cabinet.id, "room", one(cabinet.room)
        yield cabinet.id, "owned", str(cabinet.is_owned).lower()
        if cabinet.cooling.kind:
            yield cabinet.id, "cooling", cabinet.cooling.kind
        if isinstance(cabinet.cooling.air_flow, Fact):
            yield cabinet.id, "air flow", air_flow(cabinet.cooling.air_flow.typical)
        lengths = (("above the floor", cabinet.above_floor), ("clear in front", cabinet.clear_in_front))
        yield from _known(cabinet.id, [(what, figure, "m") for what, figure in lengths])
        yield from _in_phase(cabinet.id, cabinet.phase)
    for fitting in build.fittings.values():
        yield fitting.id, "part", fitting.part.name
        yield from _in_phase(fitting.id, fitting.phase)


def _devices(build: Build) -> _Entries:
    for device in build.devices.values():
        yield device.id, "part", device.part.name
        yield device.id, "room", one(device.room)
        yield device.id, "owned", str(device.is_owned).lower()
        if device.carried_by:
            yield device.id, "stands on", one(device.carried_by)
        if device.mac:
            yield device.id, "MAC address", device.mac
        yield from _in_phase(device.id, device.phase)


def kept_id(mount: Mount) -> str:
    """The id of units that are kept free."""
    return f"units:{ids.path(mount.cabinet)}/{units_of(mount)}"


def units_of(mount: Mount) -> str:
    """Where in its cabinet it is: "3-4 rear"."""
    units = str(mount.low) if mount.low == mount.high else f"{mount.low}-{mount.high}"
    return " ".join(each for each in (units, mount.face.replace("front", ""), mount.side) if each)


def _mounts(build: Build) -> _Entries:
    for mount in build.mounts:
        where = one(mount.cabinet, units_of(mount))
        if mount.is_kept_free:
            kept = kept_id(mount)
            yield kept, "units", where
            yield kept, "kept free for", mount.what
            yield from _known(kept, (("heat", mount.heat, "W"),))
            yield from _in_phase(kept, mount.phase)
        elif mount.item in build.devices or mount.item in build.fittings:
            yield mount.item, "units", where


def _wiring(build: Build) -> _Entries:
    for link in build.links.values():
        yield link.id, "passes", chain(link.hops)
        yield link.id, "lanes", str(link.lanes)
        if link.spare_for:
            yield link.id, "spare for", one(f"jack:{link.spare_for}")
        if link.rate is not None:
            yield link.id, "rate", rate(link.rate)
        yield from _in_phase(link.id, link.phase)
    for piece in build.pieces.values():
        yield piece.id, "kind", piece.kind
        yield piece.id, "part", piece.part
        yield piece.id, "joins", some(piece.ends, " – ")
        yield piece.id, "length", _figure(piece.length.as_planned.figure, "m")
        if piece.is_owned:
            yield piece.id, "owned", "true"
        if piece.colour:
            yield piece.id, "colour", piece.colour
        if piece.route:
            yield piece.id, "ways", chain(piece.route)


def _power(build: Build) -> _Entries:
    for run in build.power_runs.values():
        device = build.jacks[run.sink].device
        yield device, "PoE from", one(run.source)
        yield device, "PoE class", _figure(run.assigned, "")
        yield device, "PoE priority", run.priority
    for feed in build.mains_feeds:
        inlet = "" if feed.inlet == 1 else f" at inlet {feed.inlet}"
        yield feed.device, f"mains from{inlet}", one(feed.source)
    for source in build.power_sources.values():
        yield source.device, "PoE to give", _figure(source.budget, "W")
    for circuit in build.circuits.values():
        yield circuit.id, "rating", _figure(circuit.rating, "")
        yield circuit.id, "rooms", some(circuit.rooms)


def _logical(build: Build) -> _Entries:
    for vlan in build.vlans.values():
        yield vlan.id, "number", str(vlan.vid)
        yield vlan.id, "subnet", vlan.subnet or "none"
        yield vlan.id, "gateway", vlan.gateway or "none"
        yield vlan.id, "leases", " to ".join(vlan.leases) if vlan.leases[0] else "none"
        yield vlan.id, "reaches", some((f"vlan:{each}" for each in vlan.reaches), empty="nothing")
    for setup in build.port_setups.values():
        device = build.devices[build.jacks[setup.jack].device]
        if device.part.bridges is not False:
            yield setup.jack, "untagged", one(setup.untagged)
            yield setup.jack, "tagged", row(setup.tagged)
    for claim in build.addresses:
        yield claim.device, in_vlan("address", claim.vlan), f"{claim.address}/{claim.prefix}"


def _services(build: Build) -> _Entries:
    for network in build.wireless:
        yield f"wifi:{network.name}", "SSID", network.ssid
        yield f"wifi:{network.name}", "VLAN", one(network.vlan)
    line = build.internet
    if line is not None:
        yield "internet:", "through", one(line.through)
        yield (
            "internet:",
            "addresses",
            " ".join(filter(None, (line.addresses, line.address, line.router))) or "none",
        )
    if build.name_service.domain or build.name_service.servers:
        yield "names:", "domain", build.name_service.domain or "none"
        yield "names:", "servers", row(build.name_service.servers)


def _phases(build: Build) -> _Entries:
    for place, phase in enumerate(build.phases, 1):
        yield f"phase:{phase.name}", "place in the order", str(place)
        yield f"phase:{phase.name}", "by", phase.by or "no day"
        yield from _known(f"phase:{phase.name}", (("budget", phase.budget, ""),))
