"""A build without what is absent in it: the same objects, those left out that are not there, and nothing that points to them.

Takes a build and a presence; gives a build, total like any other, on which every view, rule and document works. Nothing is chosen
anew: jacks, ways, addresses and feeds are those of the whole. What power is taken and given is not reckoned again: see resolve/as_of.py.
"""

from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import replace
from typing import TypeVar

from firstfix.build.hardware import Device, Mount, Occupancy
from firstfix.build.model import Build
from firstfix.build.power import PowerSource
from firstfix.build.presence import Presence, closed
from firstfix.build.stock import StockLot

_Thing = TypeVar("_Thing")


def restricted(build: Build, presence: Presence) -> Build:
    """With an empty presence, an equal build."""
    absent = closed(build, presence).absent
    mounts = tuple(_mounts(build, absent))
    service, internet = build.name_service, build.internet
    return replace(
        build,
        ways=_there(build.ways, absent),
        cabinets=_there(build.cabinets, absent),
        devices={
            id_: _where_it_stands(each, absent) for id_, each in _there(build.devices, absent).items()
        },
        fittings=_there(build.fittings, absent),
        mounts=mounts,
        occupancy=tuple(_occupancy(build, mounts, absent)),
        jacks=_there(build.jacks, absent),
        jacks_of=_there(build.jacks_of, absent),
        throughs=tuple(each for each in build.throughs if absent.isdisjoint((each.near, each.far))),
        links=_there(build.links, absent),
        pieces=_there(build.pieces, absent),
        joints=tuple(each for each in build.joints if absent.isdisjoint((each.piece, each.jack))),
        channels=_there(build.channels, absent),
        open_ends=tuple(
            each for each in build.open_ends if absent.isdisjoint((each.jack, *each.pieces))
        ),
        power_runs=_there(build.power_runs, absent),
        power_sources={
            id_: _source(each, absent) for id_, each in _there(build.power_sources, absent).items()
        },
        mains_feeds=tuple(
            each for each in build.mains_feeds if absent.isdisjoint((each.device, each.source))
        ),
        port_setups=_there(build.port_setups, absent),
        memberships=_there(build.memberships, absent),
        addresses=tuple(each for each in build.addresses if each.device not in absent),
        name_service=service._replace(servers=_named(service.servers, absent)),
        items=tuple(each for each in build.items if each.id not in absent),
        decisions=tuple(each for each in build.decisions if each.subject not in absent),
        gaps=tuple(each for each in build.gaps if each.subject not in absent),
        unsettled=build.unsettled - absent,
        stock=tuple(_lot(each, absent) for each in build.stock),
        internet=internet._replace(through="") if internet and internet.through in absent else internet,
        renames=_there(build.renames, absent),
        working=build.working._replace(
            own=tuple(each for each in build.working.own if each.id not in absent)
        ),
        administration=build.administration._replace(own=_there(build.administration.own, absent)),
    )  # fmt: skip


def _there(things: Mapping[str, _Thing], absent: Set[str]) -> dict[str, _Thing]:
    return {id_: thing for id_, thing in things.items() if id_ not in absent}


def _named(names: Iterable[str], absent: Set[str]) -> tuple[str, ...]:
    return tuple(each for each in names if each not in absent)


def _where_it_stands(device: Device, absent: Set[str]) -> Device:
    """In the room, as long as its cabinet or its shelf is not there."""
    if device.cabinet in absent:
        return device._replace(cabinet="", carried_by="")
    return device._replace(carried_by="") if device.carried_by in absent else device


def _mounts(build: Build, absent: Set[str]) -> Iterator[Mount]:
    """Units kept free are kept free from the beginning, whatever comes into them in a later phase."""
    return (each for each in build.mounts if absent.isdisjoint((each.cabinet, each.item)))


def _occupancy(build: Build, mounts: tuple[Mount, ...], absent: Set[str]) -> Iterator[Occupancy]:
    there = set(mounts)
    for each in build.occupancy:
        if each.cabinet not in absent:
            yield each._replace(mounts=tuple(mount for mount in each.mounts if mount in there))


def _source(source: PowerSource, absent: Set[str]) -> PowerSource:
    fed_by = "" if source.fed_by in absent else source.fed_by
    return source._replace(runs=_named(source.runs, absent), fed_by=fed_by)


def _lot(lot: StockLot, absent: Set[str]) -> StockLot:
    """What is taken for later lies there until then."""
    gone = [each for each in lot.taken if each.item in absent]
    if not gone:
        return lot
    kept = tuple(each for each in lot.taken if each.item not in absent)
    return lot._replace(taken=kept, left=round(lot.left + sum(each.amount for each in gone), 6))
