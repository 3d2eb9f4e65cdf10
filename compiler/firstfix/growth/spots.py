"""Of what, and where, one could want more: cameras, access points, wired places and storage by room and switch, and cabinets.

Takes a plan and its build; gives a spot for each, of which things that are alike share one. The first of the same kind at the
same switch comes before the second of any, so that whoever has time for some only sees something of each.
"""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.ids import NaturalKey, natural
from firstfix.build.model import Build
from firstfix.growth.model import ACCESS_POINTS, CAMERAS, HEIGHT, KINDS, PLACES, STORAGE, Spot
from firstfix.plan.model import HopSpec, Plan

_BY_PART_KIND = {"camera": CAMERAS, "access-point": ACCESS_POINTS, "outlet": PLACES, "storage": STORAGE}
# In a cabinet, what one would add to it: gear before what is passive. A panel alone draws nothing.
_TO_MOUNT = ("switch", "panel", "gateway", "ups", "storage", "small-computer")
# Nothing that a cabinet takes is simpler.
_PLAIN = "blank-panel-1u"


def spots(plan: Plan, build: Build) -> tuple[Spot, ...]:
    alike: dict[tuple[str, ...], Spot] = {}
    for spot in sorted((*_devices(plan, build), *_cabinets(plan, build)), key=in_kinds):
        part = spot.like if spot.is_part else build.devices[ids.device(spot.like)].part.name
        alike.setdefault((spot.kind, spot.room, spot.switch, part, spot.cabinet), spot)
    turns: defaultdict[tuple[str, str], list[Spot]] = defaultdict(list)
    for spot in alike.values():
        turns[spot.kind, spot.switch or spot.cabinet].append(spot)
    placed = [(place, spot) for group in turns.values() for place, spot in enumerate(group)]
    return tuple(spot for _, spot in sorted(placed, key=lambda pair: (pair[0], in_kinds(pair[1]))))


def in_kinds(spot: Spot) -> tuple[int, NaturalKey, NaturalKey]:
    """A key that sorts by kind, then by name."""
    return KINDS.index(spot.kind), natural(spot.cabinet), natural(spot.like)


def one_of_each(found: tuple[Spot, ...]) -> tuple[Spot, ...]:
    """For each kind and switch, and for each cabinet, the first; of rooms at the same switch the others differ in their ways only."""
    first: dict[tuple[str, str, str], Spot] = {}
    for spot in found:
        first.setdefault((spot.kind, spot.switch, spot.cabinet), spot)
    return tuple(first.values())


def asked_for(found: tuple[Spot, ...], what: str) -> tuple[Spot, ...]:
    """Those of a kind, like a device, in a room, at a switch or in a cabinet of that name; all where `what` is ""."""
    names = {what, what.replace("-", " ")}
    return tuple(
        spot
        for spot in found
        if not what
        or names & {spot.kind, spot.name, spot.like, spot.room, spot.room.partition("/")[2], spot.switch}
    )


def _devices(plan: Plan, build: Build) -> Iterator[Spot]:
    runs: dict[str, int] = {}
    for place, link in enumerate(plan.links):
        for hop in link.hops if not link.spare_for else ():
            runs.setdefault(hop.device, place)
    for spec in plan.devices:
        device = build.devices.get(ids.device(spec.name))
        kind = _BY_PART_KIND.get(device.part.kind, "") if device is not None else ""
        if not kind or device is None or spec.name not in runs or device.id in build.unsettled:
            continue
        hops = towards_switch(plan.links[runs[spec.name]].hops, spec.name, build)
        if hops:
            yield Spot(kind, spec.name, ids.path(device.room), hops[-1].device, runs[spec.name])


def towards_switch(hops: tuple[HopSpec, ...], name: str, build: Build) -> tuple[HopSpec, ...]:
    """Of a run, what lies between `name` and the switch or router that it ends at, both included; nothing where it ends at none."""
    at = next(place for place, hop in enumerate(hops) if hop.device == name)
    for way in (hops[at:], hops[at::-1]):
        last = build.devices.get(ids.device(way[-1].device))
        if len(way) > 1 and last is not None and last.part.bridges is True:
            return way
    return ()


def _cabinets(plan: Plan, build: Build) -> Iterator[Spot]:
    known = {spec.name for spec in plan.devices}
    for cabinet in build.cabinets.values():
        mounted = [
            device
            for mount in build.mounts
            if mount.cabinet == cabinet.id and not mount.is_over and not mount.side
            and (device := build.devices.get(mount.item)) is not None and device.name in known
            and device.part.kind in _TO_MOUNT and device.id not in build.unsettled
        ]  # fmt: skip
        room = ids.path(cabinet.room)
        if mounted:
            device = min(
                mounted, key=lambda each: (_TO_MOUNT.index(each.part.kind), -len(each.part.jacks), each.id)
            )
            yield Spot(HEIGHT, device.name, room, "", -1, cabinet.name)
        elif _PLAIN in build.library:
            yield Spot(HEIGHT, _PLAIN, room, "", -1, cabinet.name, True)
