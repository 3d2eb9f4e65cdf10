"""What must be done before what in a changeover, because hands, jacks, units and outlets want it so.

Takes both sides, the devices that are turned, and all jobs; gives the ids of the jobs before each.
"""

from collections.abc import Iterator, Mapping

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.settings import device_of
from firstfix.changeover.sides import Side
from firstfix.changeover.ways import openings
from firstfix.parts.part import TERMINATION_KINDS


def job_id(kind: Kind, subject: str) -> str:
    return f"{kind.name}:{subject}"


def orders(old: Side, new: Side, turned: Mapping[str, Kind], made: list[Job]) -> dict[str, frozenset[str]]:
    """Job to the jobs before it, those of things that aren't there included."""
    found: dict[str, set[str]] = {}
    pairs = (
        *_of_jacks(old, new, turned),
        *_of_units(old, new),
        *_of_places(old, new, made),
        *_of_mains(old, new, made),
        *_of_lanes(old, new),
        *_of_addresses(old, new, turned),
        *openings(old, new),
    )
    for before, after in pairs:
        if before != after:
            found.setdefault(after, set()).add(before)
    return {job: frozenset(before) for job, before in found.items()}


def _of_jacks(old: Side, new: Side, turned: Mapping[str, Kind]) -> Iterator[tuple[str, str]]:
    """A jack is free, its device stands and is set up, before anything is plugged in there."""
    gone = {end: key for key in old.laid.keys() - new.laid.keys() for end in old.laid[key].ends}
    elsewhere = {device for device, kind in turned.items() if _goes_away(old, new, device, kind)}
    for key in new.laid.keys() - old.laid.keys():
        for kind in (Kind.PLUG, Kind.JOIN, Kind.PULL):
            job = job_id(kind, key)
            for end in new.laid[key].ends:
                device = device_of(end)
                if kind is Kind.PULL and new.devices[device].part.kind not in TERMINATION_KINDS:
                    # Its end waits there for what it will be plugged into.
                    continue
                if end in gone and kind is not Kind.PULL:
                    yield job_id(Kind.UNPLUG, gone[end]), job
                yield job_id(Kind.READY, device), job
                if kind is Kind.PULL and _closes_over(new.devices[device]):
                    yield job, job_id(Kind.PUT_IN, device)
                else:
                    yield job_id(Kind.PUT_IN, device), job
                if device in elsewhere:
                    yield job_id(turned[device], device), job
    for end, key in gone.items():
        device = device_of(end)
        yield job_id(Kind.UNPLUG, key), job_id(Kind.TAKE_OUT, device)
        if device in elsewhere:
            yield job_id(Kind.UNPLUG, key), job_id(turned[device], device)


def _closes_over(device: Device) -> bool:
    """An outlet is screwed on over the ends of its runs; a panel is there before them."""
    return device.part.kind == "outlet"


def _goes_away(old: Side, new: Side, device: str, kind: Kind) -> bool:
    return kind is Kind.SWAP or (kind is Kind.MOVE and old.places[device][0] != new.places[device][0])


def _of_units(old: Side, new: Side) -> Iterator[tuple[str, str]]:
    """What stood there is gone before anything is put there."""
    after = dict(_arrivals(old, new))
    before = dict(_departures(old, new))
    for (cabinet, low, high, face, side), arrives in after.items():
        for (from_cabinet, from_low, from_high, from_face, from_side), leaves in before.items():
            apart = side and from_side and side != from_side
            if (
                cabinet == from_cabinet
                and low <= from_high
                and from_low <= high
                and face == from_face
                and not apart
            ):
                yield leaves, arrives


_Units = tuple[str, int, int, str, str]


def _arrivals(old: Side, new: Side) -> Iterator[tuple[_Units, str]]:
    for item, units in new.units.items():
        if old.units.get(item) != units:
            yield units, _mover(item, units[0], old.devices, Kind.PUT_IN, Kind.FIT_IN, old, new)


def _departures(old: Side, new: Side) -> Iterator[tuple[_Units, str]]:
    for item, units in old.units.items():
        if new.units.get(item) != units:
            yield units, _mover(item, units[0], new.devices, Kind.TAKE_OUT, Kind.FIT_OUT, old, new)


def _mover(
    item: str,
    cabinet: str,
    other: Mapping[str, Device],
    device_kind: Kind,
    fitting_kind: Kind,
    old: Side,
    new: Side,
) -> str:
    """The job that brings a thing into its units, or out of them."""
    if ids.kind(item) != "device":
        return job_id(fitting_kind, cabinet)
    if item not in other:
        return job_id(device_kind, item)
    same = old.devices[item].part.name == new.devices[item].part.name
    return job_id(Kind.MOVE if same else Kind.SWAP, item)


def _of_places(old: Side, new: Side, made: list[Job]) -> Iterator[tuple[str, str]]:
    """A cabinet stands and has its shelves before anything is put in."""
    for job in made:
        if job.kind in (Kind.PUT_IN, Kind.MOVE, Kind.SWAP):
            cabinet = new.places[job.subject][1]
            yield job_id(Kind.HANG, cabinet), job.id
            if new.places[job.subject][2] and not old.places.get(job.subject, ("",) * 3)[2]:
                yield job_id(Kind.FIT_IN, cabinet), job.id
        elif job.kind is Kind.FIT_IN:
            yield job_id(Kind.HANG, job.subject), job.id
        if job.kind in (Kind.TAKE_OUT, Kind.MOVE, Kind.SWAP) and job.subject in old.places:
            cabinet = old.places[job.subject][1]
            if new.places.get(job.subject, ("", "", ""))[1] != cabinet:
                yield job.id, job_id(Kind.TAKE_DOWN, cabinet)


def _of_mains(old: Side, new: Side, made: list[Job]) -> Iterator[tuple[str, str]]:
    """A strip is there before anything is plugged into it, and taken out after that."""
    for job in made:
        if job.kind in (Kind.PUT_IN, Kind.SWAP, Kind.MOVE, Kind.FEED):
            sources = set(new.feeds.get(job.subject, ())) - old.devices.keys()
            yield from ((job_id(Kind.PUT_IN, source), job.id) for source in sources)
        if job.kind is Kind.TAKE_OUT:
            sources = set(old.feeds.get(job.subject, ())) - new.devices.keys()
            yield from ((job.id, job_id(Kind.TAKE_OUT, source)) for source in sources)


def _of_lanes(old: Side, new: Side) -> Iterator[tuple[str, str]]:
    """A run is pulled and tested before the cords of its lane are plugged in."""
    for lane in new.lanes:
        fresh = [new.laid[key] for key in lane.pieces if key not in old.laid]
        for run in fresh:
            if not run.is_cord:
                pull = job_id(Kind.PULL, run.key)
                yield from ((pull, job_id(Kind.PLUG, cord.key)) for cord in fresh if cord.is_cord)


def _of_addresses(old: Side, new: Side, turned: Mapping[str, Kind]) -> Iterator[tuple[str, str]]:
    """An address is given up before somebody else gets it: two that have the same are both out of reach. Where they only exchange
    theirs, both are set in one go.
    """
    had = _holders(old)
    for address, device in _holders(new).items():
        before = had.get(address, device)
        if before == device or (before not in new.devices and device not in old.devices):
            # Of a device that takes the place of another one, the cords say when it is on the network.
            continue
        leaves = _readdressed(before, turned) if before in new.devices else job_id(Kind.TAKE_OUT, before)
        gets = _readdressed(device, turned) if device in old.devices else job_id(Kind.PUT_IN, device)
        yield leaves, gets


def _holders(side: Side) -> dict[tuple[int, str], str]:
    """Who has each fixed address in each VLAN; of several, which the rules tell, the last."""
    return {
        (vid, text): device for device in sorted(side.claims) for vid, text in side.claims[device].items()
    }


def _readdressed(device: str, turned: Mapping[str, Kind]) -> str:
    return job_id(Kind.SWAP if turned.get(device) is Kind.SWAP else Kind.ADDRESS, device)
