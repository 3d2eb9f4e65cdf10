"""Kept choices follow a thing to its new name."""

from collections.abc import Mapping

from firstfix.allocations.choices import LABELLED_KINDS, Choices, KeptRoute, KeptRun, KeptStop, devices_named


def renamed(choices: Choices, renames: Mapping[str, str]) -> Choices:
    """`choices` in today's names. `renames` takes today's id (`device:barn`) to the one that the thing had before.

    A name that the choices know already has been followed by an earlier build, and stays.
    """
    now = {old: new for new, old in renames.items()}
    devices = _names(now, "device", devices_named(choices))
    vlans = _names(now, "vlan", {each.vlan for each in choices.hosts})
    ways = _names(now, "way", {way for each in choices.routes for way in each.ways})
    rooms = _names(now, "room", {room for each in choices.routes for room in each.rooms})
    labelled = {
        kind: _names(now, kind, {each.name for each in choices.labels if each.kind == kind})
        for kind in LABELLED_KINDS
    }
    if not (devices or vlans or ways or rooms or any(labelled.values())):
        return choices
    places = {**devices, **rooms}
    return Choices(
        tuple([_run(run, devices) for run in choices.runs]),
        tuple(
            [
                each._replace(
                    device=devices.get(each.device, each.device), vlan=vlans.get(each.vlan, each.vlan)
                )
                for each in choices.hosts
            ]
        ),
        tuple(
            [
                each._replace(
                    device=devices.get(each.device, each.device),
                    source=places.get(each.source, each.source),
                )
                for each in choices.feeds
            ]
        ),
        tuple([_route(each, rooms, ways) for each in choices.routes]),
        tuple([each._replace(device=devices.get(each.device, each.device)) for each in choices.routers]),
        tuple([each._replace(name=labelled[each.kind].get(each.name, each.name)) for each in choices.labels]),
    )


def _names(now: Mapping[str, str], kind: str, known: set[str]) -> dict[str, str]:
    """Old name to new one, of one kind."""
    found: dict[str, str] = {}
    for old, new in now.items():
        old_name, new_name = old.removeprefix(f"{kind}:"), new.removeprefix(f"{kind}:")
        if old.startswith(f"{kind}:") and new_name not in known:
            found[old_name] = new_name
    return found


def _run(run: KeptRun, devices: Mapping[str, str]) -> KeptRun:
    if not any(stop.device in devices for stop in run.stops):
        return run
    base, mark, ordinal = run.run.partition("#")
    ends = sorted(_end(end, devices) for end in base.split("--"))
    stops = [KeptStop(devices.get(stop.device, stop.device), stop.jacks) for stop in run.stops]
    return run._replace(run="--".join(ends) + mark + ordinal, stops=tuple(stops))


def _end(text: str, devices: Mapping[str, str]) -> str:
    device, slash, jack = text.partition("/")
    return devices.get(device, device) + slash + jack


def _route(route: KeptRoute, rooms: Mapping[str, str], ways: Mapping[str, str]) -> KeptRoute:
    """Told from the room whose name sorts first: where that is the other one now, its ways are turned round, too."""
    near, far = (rooms.get(room, room) for room in route.rooms)
    named = tuple([ways.get(way, way) for way in route.ways])
    if near <= far:
        return route._replace(rooms=(near, far), ways=named)
    return route._replace(rooms=(far, near), ways=named[::-1])
