"""A build as flat records, id to attribute to text: what a comparison compares. Order, layout and comments of the plan aren't in it."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.renames import renamed
from firstfix.parts.facts import Fact, Figure
from firstfix.units import air_flow, celsius, metres, number, rate, watts

Record = dict[str, str]


def records(build: Build, names: Mapping[str, str] | None = None) -> dict[str, Record]:
    """Every thing that a person would name, with the attributes that they would see change; `names`: ids that are called otherwise."""
    calls = names or {}

    def path(id_: str) -> str:
        return ids.path(renamed(id_, calls))

    found: defaultdict[str, Record] = defaultdict(dict)
    for maker in (_places, _equipment, _wiring, _power, _logical, _phases):
        for id_, attribute, value in maker(build, path):
            found[renamed(id_, calls)][attribute] = value
    return dict(sorted(found.items()))


_Entries = Iterator[tuple[str, str, str]]
# An id's path as it is to be called.
_Path = Callable[[str], str]


def _figure(figure: Figure, unit: str) -> str:
    if not isinstance(figure, Fact):
        return "unknown"
    if unit == "m":
        return metres(figure.high)
    return watts(figure.high) if unit == "W" else number(figure.high)


def _places(build: Build, path: _Path) -> _Entries:
    for building in build.buildings.values():
        yield building.id, "earth", path(f"building:{building.earth}")
        yield from _known(building.id, (("altitude", building.altitude, "m"),))
    for room in build.rooms.values():
        yield room.id, "building", path(room.building)
        yield room.id, "floor", str(room.floor)
        yield room.id, "outdoors", str(room.is_outdoors).lower()
        yield room.id, "mains outlets", _figure(room.mains_outlets, "")
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
    for way in build.ways.values():
        yield way.id, "between", " and ".join(sorted(map(path, way.ends)))
        yield way.id, "length", _figure(way.length, "m")
        yield way.id, "kind", way.kind
        yield from _in_phase(way.id, way.phase)


def _known(id_: str, figures: Iterable[tuple[str, Figure, str]]) -> _Entries:
    """Those of the figures that somebody gave."""
    for attribute, figure, unit in figures:
        if isinstance(figure, Fact):
            yield id_, attribute, _figure(figure, unit)


def _in_phase(id_: str, phase: str) -> _Entries:
    if phase:
        yield id_, "phase", phase


def _phases(build: Build, _: _Path) -> _Entries:
    for place, phase in enumerate(build.phases, 1):
        yield f"phase:{phase.name}", "place in the order", str(place)
        yield f"phase:{phase.name}", "by", phase.by or "no day"
        yield from _known(f"phase:{phase.name}", (("budget", phase.budget, ""),))


def _equipment(build: Build, path: _Path) -> _Entries:
    for cabinet in build.cabinets.values():
        yield cabinet.id, "part", cabinet.part.name
        yield cabinet.id, "room", path(cabinet.room)
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
    for device in build.devices.values():
        yield device.id, "part", device.part.name
        yield device.id, "room", path(device.room)
        yield device.id, "owned", str(device.is_owned).lower()
        if device.carried_by:
            yield device.id, "stands on", path(device.carried_by)
        if device.mac:
            yield device.id, "MAC address", device.mac
        yield from _in_phase(device.id, device.phase)
    for mount in build.mounts:
        units = str(mount.low) if mount.low == mount.high else f"{mount.low}-{mount.high}"
        units = " ".join(each for each in (units, mount.face.replace("front", ""), mount.side) if each)
        if mount.is_kept_free:
            kept = f"units:{ids.path(mount.cabinet)}/{units}"
            yield kept, "kept free for", mount.what
            yield from _known(kept, (("heat", mount.heat, "W"),))
            yield from _in_phase(kept, mount.phase)
        elif mount.item in build.devices:
            yield mount.item, "units", f"{path(mount.cabinet)} {units}"


def _wiring(build: Build, path: _Path) -> _Entries:
    for link in build.links.values():
        yield link.id, "passes", " – ".join(_one_way_round([path(hop) for hop in link.hops]))
        yield link.id, "lanes", str(link.lanes)
        if link.spare_for:
            yield link.id, "spare for", path(f"jack:{link.spare_for}")
        if link.rate is not None:
            yield link.id, "rate", rate(link.rate)
        yield from _in_phase(link.id, link.phase)
    for piece in build.pieces.values():
        yield piece.id, "part", piece.part
        yield piece.id, "joins", " – ".join(sorted(map(path, piece.ends)))
        yield piece.id, "length", _figure(piece.length.as_planned.figure, "m")
        if piece.colour:
            yield piece.id, "colour", piece.colour
        if piece.route:
            yield piece.id, "ways", " – ".join(_one_way_round([path(way) for way in piece.route]))


def _one_way_round(names: list[str]) -> list[str]:
    return min(names, names[::-1])


def _power(build: Build, path: _Path) -> _Entries:
    for run in build.power_runs.values():
        device = build.jacks[run.sink].device
        yield device, "PoE from", path(run.source)
        yield device, "PoE class", _figure(run.assigned, "")
        yield device, "PoE priority", run.priority
    for feed in build.mains_feeds:
        inlet = "" if feed.inlet == 1 else f" at inlet {feed.inlet}"
        yield feed.device, f"mains from{inlet}", path(feed.source)
    for source in build.power_sources.values():
        yield source.device, "PoE to give", _figure(source.budget, "W")


def _logical(build: Build, path: _Path) -> _Entries:
    for vlan in build.vlans.values():
        yield vlan.id, "number", str(vlan.vid)
        yield vlan.id, "subnet", vlan.subnet or "none"
        yield vlan.id, "gateway", vlan.gateway or "none"
        yield vlan.id, "leases", " to ".join(vlan.leases) if vlan.leases[0] else "none"
        yield (
            vlan.id,
            "reaches",
            ", ".join(sorted(path(f"vlan:{each}") for each in vlan.reaches)) or "nothing",
        )
    for setup in build.port_setups.values():
        device = build.devices[build.jacks[setup.jack].device]
        if device.part.bridges is not False:
            yield setup.jack, "untagged", path(setup.untagged) or "none"
            yield setup.jack, "tagged", ", ".join(map(path, setup.tagged)) or "none"
    for claim in build.addresses:
        yield claim.device, f"address in {path(claim.vlan)}", f"{claim.address}/{claim.prefix}"
    for network in build.wireless:
        yield f"wifi:{network.name}", "SSID", network.ssid
        yield f"wifi:{network.name}", "VLAN", path(network.vlan)
    if build.internet is not None:
        yield "internet:", "through", ids.path(build.internet.through) or "none"
        yield (
            "internet:",
            "addresses",
            " ".join(filter(None, (build.internet.addresses, build.internet.address, build.internet.router))),
        )
    if build.name_service.domain or build.name_service.servers:
        yield "names:", "domain", build.name_service.domain or "none"
        yield "names:", "servers", ", ".join(map(path, build.name_service.servers)) or "none"
