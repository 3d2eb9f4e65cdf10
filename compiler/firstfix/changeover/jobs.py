"""All jobs that lead from one side to the other, each with those that must be done before it because hands and jacks want it so."""

from collections.abc import Iterable, Iterator, Mapping

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.minutes import Minutes
from firstfix.changeover.orders import orders
from firstfix.changeover.replugging import WIRED, held, moved, replugged
from firstfix.changeover.settings import device_of, setting_jobs
from firstfix.changeover.sides import Laid, Side
from firstfix.changeover.ways import way_jobs
from firstfix.parts.part import ACTIVE_KINDS, TERMINATION_KINDS


def jobs_between(old: Side, new: Side) -> tuple[Job, ...]:
    """In the order of their kinds and names. Nothing for what only bears another name."""
    minutes = Minutes(new.build)
    turned = dict(_turned(old, new))
    kept = frozenset(
        each for each in old.devices.keys() & new.devices.keys() if turned.get(each) != Kind.SWAP
    )
    made = [
        *setting_jobs(old, new, kept, minutes),
        *_addresses(old, new, kept, minutes),
        *_whole_rules(old, new, kept, minutes),
        *_cabinets(old, new, minutes),
        *way_jobs(old, new, minutes),
        *_fittings(old, new, minutes),
        *_devices(old, new, turned, minutes),
        *_pieces(old, new, minutes),
    ]
    after = orders(old, new, turned, made)
    known = {job.id for job in made}
    ordered = (job._replace(after=(job.after | after.get(job.id, frozenset())) & known) for job in made)
    return tuple(sorted(ordered, key=lambda job: (job.kind, ids.natural(job.id))))


def _turned(old: Side, new: Side) -> Iterator[tuple[str, Kind]]:
    """Devices of both sides that are another part, stand elsewhere, or hang on another outlet."""
    for device in sorted(old.devices.keys() & new.devices.keys()):
        if old.devices[device].part.name != new.devices[device].part.name:
            yield device, Kind.SWAP
        elif old.places[device] != new.places[device]:
            yield device, Kind.MOVE
        elif old.feeds.get(device, ()) != new.feeds.get(device, ()):
            yield device, Kind.FEED


def _devices(old: Side, new: Side, turned: Mapping[str, Kind], minutes: Minutes) -> Iterator[Job]:
    stays = old.laid.keys() & new.laid.keys()
    cords: dict[str, int] = {}
    for key in stays:
        for end in new.laid[key].ends:
            cords[device_of(end)] = cords.get(device_of(end), 0) + 1
    for device, kind in turned.items():
        again = cords.get(device, 0) * (minutes.usual("patch") + minutes.of_change("unplug"))
        stands = minutes.usual("power") if _is_live(new.devices[device]) else 0
        took = stands if kind is Kind.FEED else minutes.usual("fit") + stands + again
        yield Job(kind, device, max(took, 1), turned=device)
    bearing = _bearing(old, new)
    for device in sorted(new.devices.keys() - old.devices.keys()):
        thing = new.devices[device]
        bench = minutes.usual("set-up") if thing.part.kind in ("switch", "gateway") else 0
        took = minutes.usual("fit") + bench + (minutes.usual("power") if _is_live(thing) else 0)
        yield Job(Kind.PUT_IN, device, took, inert=_is_still(new, device) and device not in bearing)
    for device in sorted(old.devices.keys() - new.devices.keys()):
        yield Job(Kind.TAKE_OUT, device, minutes.of_change("take-out"), inert=_is_still(old, device))


def _is_live(device: Device) -> bool:
    return device.part.kind in ACTIVE_KINDS or bool(device.part.mains.inlet)


def _is_still(side: Side, device: str) -> bool:
    """It takes no outlet and is no source: that it stands there changes nothing."""
    return device not in side.feeds and not any(device in sources for sources in side.feeds.values())


def _bearing(old: Side, new: Side) -> frozenset[str]:
    """What lanes pass with no new cord plugged in at it: whether it is there decides whether they are."""
    cords = (new.laid[key] for key in new.laid.keys() - old.laid.keys() if new.laid[key].is_cord)
    at = {(device_of(end), cord.key) for cord in cords for end in cord.ends}
    return frozenset(
        device
        for lane in new.lanes
        for device in lane.through
        if not any((device, key) in at for key in lane.pieces)
    )


def _pieces(old: Side, new: Side, minutes: Minutes) -> Iterator[Job]:
    lies = replugged(old, new)
    occupied = {end for key in old.laid.keys() - new.laid.keys() for end in old.laid[key].ends}
    for key in sorted(new.laid.keys() - old.laid.keys()):
        laid = new.laid[key]
        if laid.is_cord:
            yield Job(Kind.PLUG, key, minutes.usual("patch"), adds=(key,), ends=laid.ends)
        elif key in lies:
            yield _rejoined(laid, old.laid[lies[key]], new, minutes)
        elif _ends_in_walls(new, laid) and occupied.isdisjoint(laid.ends):
            # Nothing comes of it until a cord is plugged in at its ends, and these cords are new.
            still = all(
                _has_other_new(lane.pieces, key, old, new) for lane in new.lanes if key in lane.pieces
            )
            yield Job(Kind.PULL, key, minutes.pull(laid.piece), adds=(key,), inert=still)
        else:
            pull = Job(Kind.PULL, key, minutes.pull(laid.piece), inert=True)
            yield pull
            yield Job(
                Kind.JOIN,
                key,
                minutes.join(laid.piece),
                adds=(key,),
                after=frozenset({pull.id}),
                ends=laid.ends,
            )
    for key in sorted(old.laid.keys() - new.laid.keys()):
        laid = old.laid[key]
        yield Job(Kind.UNPLUG, key, minutes.of_change("unplug"), drops=(key,), ends=laid.ends)


def _rejoined(laid: Laid, was: Laid, new: Side, minutes: Minutes) -> Job:
    """The same run at other jacks, after it was taken off at the old ones."""
    ends = moved(laid, was)
    wired = sum(1 for end in ends if held(new, laid, end) == WIRED)
    took = minutes.rejoin(laid.piece, len(ends) - wired, wired)
    before = frozenset({Job(Kind.UNPLUG, was.key, 0).id})
    return Job(Kind.JOIN, laid.key, took, adds=(laid.key,), after=before, ends=laid.ends)


def _has_other_new(pieces: Iterable[str], key: str, old: Side, new: Side) -> bool:
    return any(each != key and each not in old.laid and new.laid[each].is_cord for each in pieces)


def _ends_in_walls(side: Side, laid: Laid) -> bool:
    return all(side.devices[device_of(end)].part.kind in TERMINATION_KINDS for end in laid.ends)


def _addresses(old: Side, new: Side, kept: frozenset[str], minutes: Minutes) -> Iterator[Job]:
    took = minutes.of_change("re-address")
    for device in sorted(kept):
        part = new.devices[device].part
        had, has = old.claims.get(device, {}), new.claims.get(device, {})
        if part.routes is True:
            vlans, then = old.vlans.get(device, frozenset()), new.vlans.get(device, frozenset())
            if then - vlans:
                yield Job(Kind.NEW_NET, device, took)
            if vlans - then:
                yield Job(Kind.OLD_NET, device, took)
            if any(_net(old, device, vid) != _net(new, device, vid) for vid in vlans & then):
                yield Job(Kind.ADDRESS, device, took)
            continue
        nets = any(old.networks.get(vid) != new.networks.get(vid) for vid in had.keys() & has.keys())
        is_bridge = part.bridges is True and part.vlan_aware is not False
        elsewhere = is_bridge and old.own_vlan.get(device) != new.own_vlan.get(device)
        if had != has or elsewhere or nets:
            yield Job(Kind.ADDRESS, device, took)


def _net(side: Side, device: str, vid: int) -> tuple[str | None, tuple[str, str] | None]:
    return side.claims.get(device, {}).get(vid), side.networks.get(vid)


def _whole_rules(old: Side, new: Side, kept: frozenset[str], minutes: Minutes) -> Iterator[Job]:
    """What a router is told as a whole: who may reach whom, which addresses it leases."""
    if _told(old) != _told(new):
        for device in sorted(kept):
            if new.devices[device].part.routes is True:
                yield Job(Kind.RULES, device, minutes.of_change("set"), inert=True)


def _told(side: Side) -> list[tuple[int, tuple[str, str], tuple[int | str, ...]]]:
    number: dict[str, int | str] = {vlan.name: vlan.vid for vlan in side.build.vlans.values()}
    return sorted(
        (vlan.vid, vlan.leases, tuple(sorted((number.get(each, each) for each in vlan.reaches), key=str)))
        for vlan in side.build.vlans.values()
    )


def _cabinets(old: Side, new: Side, minutes: Minutes) -> Iterator[Job]:
    there, then = _cabinets_of(old), _cabinets_of(new)
    for cabinet in sorted(then - there):
        yield Job(Kind.HANG, cabinet, minutes.usual("hang"), inert=True)
    for cabinet in sorted(there - then):
        yield Job(Kind.TAKE_DOWN, cabinet, minutes.of_change("take-down"), inert=True)


def _cabinets_of(side: Side) -> set[str]:
    names = side.names
    return {names.get(each, each) for each in side.build.cabinets}


def _fittings(old: Side, new: Side, minutes: Minutes) -> Iterator[Job]:
    """All that is fitted into one cabinet, or taken out of it, in one go."""
    for kind, more, less in ((Kind.FIT_IN, new, old), (Kind.FIT_OUT, old, new)):
        for cabinet in sorted({cabinet for cabinet, *_ in more.fittings - less.fittings}):
            count = sum(1 for each in more.fittings - less.fittings if each[0] == cabinet)
            took = minutes.usual("fit") if kind is Kind.FIT_IN else minutes.of_change("take-out")
            yield Job(kind, cabinet, took * count, inert=True)
