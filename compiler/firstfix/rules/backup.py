"""Rules on what stays up when the mains goes, and on second leads that go down with the first.

Takes a build; yields one outcome for each router on a UPS, and for each device with several leads.
"""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.graphs.backup import stays_up
from firstfix.graphs.mains_load import strips
from firstfix.rules.mains_loads import ELECTRICIAN
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.wording import listed


@rule("backup-gap", Level.NOTE, COMMON_PRACTICE)
def backup_gap(build: Build) -> Iterator[Outcome]:
    """When a UPS keeps the router up, the provider's box at its outside stays up as well.

    Because: the lights of the cabinet stay on, and the internet is gone: the box on the wall has no power.
    Compares: what hangs on UPSs, by mains and by PoE, with the things at the outside jacks of each router that does.
    Skips: plans without a UPS, routers on none, outsides where nothing is plugged in.
    Remedy: feed the box from the UPS, if it is in reach.
    """
    if not any(each.part.kind == "ups" for each in strips(build)):
        return
    up = stays_up(build)
    beyond = _at_outsides(build)
    for device in build.devices.values():
        if device.id in up and device.part.routes is True and device.id in beyond:
            yield _router(build, device, [each for each in beyond[device.id] if each.id not in up])


def _at_outsides(build: Build) -> dict[str, list[Device]]:
    """Devices at the outside jacks of each router."""
    found: defaultdict[str, list[Device]] = defaultdict(list)
    for channel in build.channels.values():
        near, far = (build.jacks[each] for each in channel.ends)
        for jack, other in ((near, far), (far, near)):
            if jack.side == "outside":
                found[jack.device].append(build.devices[other.device])
    if build.internet is not None and build.internet.through in build.devices:
        box = build.devices[build.internet.through]
        for mine in found.values():
            if box not in mine:
                mine.append(box)
    return found


def _router(build: Build, router: Device, dark: list[Device]) -> Outcome:
    if not dark:
        return Fine(router.id)
    names = listed(each.name for each in dark)
    return backup_gap.finding(
        f"a UPS keeps '{router.name}' up when the mains goes, and {names} at its outside goes dark",
        router.id,
        build.provenance.span(router.id, "part"),
        related=tuple(Label(build.provenance.span(each.id, "part"), "hangs on no UPS") for each in (*dark,)),
        cures=(Cure(f"feed {names} from a UPS too ('power:'), where its lead reaches"),),
    )


@rule("feeds-one-circuit", Level.NOTE, COMMON_PRACTICE)
def feeds_one_circuit(build: Build) -> Iterator[Outcome]:
    """The leads of a device with several do not all hang on one circuit.

    Because: one breaker that trips takes both leads.
    Compares: the circuits of the rooms whose outlets are behind each lead; a UPS behind one of them is enough.
    Skips: plans that name no circuits; devices with one lead; leads that share a strip or UPS, of which feeds-not-apart tells.
    Cannot tell: a room that names no circuit.
    Remedy: an outlet on another circuit, where there is one in reach. A new one is a licensed electrician's work.
    """
    if not build.circuits or not any(feed.inlet > 1 for feed in build.mains_feeds):
        return
    sources: defaultdict[str, list[str]] = defaultdict(list)
    for feed in build.mains_feeds:
        sources[feed.device].append(feed.source)
    circuit_of = {room: circuit.id for circuit in build.circuits.values() for room in circuit.rooms}
    for device, mine in sources.items():
        if len(mine) < 2:
            continue
        behind = [_behind(each, sources) for each in mine]
        if any(_has_ups(build, each) for each in behind):
            yield Fine(device)
            continue
        rooms = sorted({room for each in behind for room in each if room in build.rooms})
        yield _circuits(build, device, rooms, circuit_of)


def _has_ups(build: Build, things: set[str]) -> bool:
    return any(each in build.devices and build.devices[each].part.kind == "ups" for each in things)


def _behind(source: str, sources: dict[str, list[str]]) -> set[str]:
    """`source` and all that feeds it, as far as the rooms' outlets."""
    seen, ahead = {source}, [source]
    while ahead:
        for each in sources.get(ahead.pop(), ()):
            if each not in seen:
                seen.add(each)
                ahead.append(each)
    return seen


def _circuits(build: Build, device: str, rooms: list[str], circuit_of: dict[str, str]) -> Outcome:
    at = build.provenance.span(device, "power") or build.provenance.span(device, "part")
    open_ = [room for room in rooms if room not in circuit_of]
    if open_:
        missing = (f"on which circuit the outlets of '{build.rooms[each].name}' hang (`circuit:`)" for each in open_)  # fmt: skip
        return feeds_one_circuit.cannot_tell(device, at, *missing)
    circuits = {circuit_of[room] for room in rooms}
    if len(circuits) != 1:
        return Fine(device)
    (only,) = circuits
    name = build.circuits[only].name
    return feeds_one_circuit.finding(
        f"all mains leads of '{build.devices[device].name}' hang on circuit '{name}': one breaker takes them all",
        device,
        at,
        related=(Label(build.provenance.span(only), "this circuit"), ELECTRICIAN),
        cures=(Cure("plug one lead in where another circuit feeds the outlets, if there is one in reach"),),
    )


RULES: tuple[Rule, ...] = (backup_gap, feeds_one_circuit)
