"""Rules on phases that stand by themselves: what a device is fed by, stands in and is served by is there when it comes.

Takes a build with phases; yields a finding for each thing that comes later than those that need it. Runs are judged in phase_order.py.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from collections.abc import Mapping as Map
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.phases import ranks
from firstfix.build.power import PowerRun
from firstfix.finding.model import COMMON_PRACTICE, Cure, Finding, Label, Level
from firstfix.rules.phase_order import ranked, runs_waiting
from firstfix.rules.rule import FineMany, Outcome, Rule, rule
from firstfix.rules.wording import listed
from firstfix.source.node import Mapping, Scalar

_Waiting = dict[str, list[str]]


@rule("phase-power", Level.WARNING, COMMON_PRACTICE)
def phase_power(build: Build) -> Iterator[Outcome]:
    """What feeds a device does not come in a later phase than the device.

    Because: the router that is there in spring stays dark until the strip that it is plugged into is bought in autumn.
    Compares: the phase of each device with those of the strips and backups that feed it, and of the switches and injectors that feed
        it over Ethernet, with all that lies between; one feed that is there as soon as the device is enough. What names no phase is
        there from the beginning, and so are the outlets of a room.
    Skips: plans without phases; devices that nothing feeds; what already waits for its only run (`phase-order`).
    Remedy: a later phase for what waits, or an earlier one for what feeds it.
    """
    if not build.phases:
        return
    feeds = _feeds(build)
    told = {device.id for devices in runs_waiting(build)[0].values() for device in devices}
    rank_of = ranked(build)
    waiting: _Waiting = defaultdict(list)
    for name, ways in feeds.items():
        last = [_last(each, rank_of) for each in ways]
        first = min(last, key=lambda each: rank_of.get(each, 0))
        if name not in told and rank_of.get(first, 0) > rank_of.get(name, 0):
            waiting[first].append(name)
    yield from _findings(build, phase_power, waiting, "is fed by it", "are fed by it")
    yield FineMany(len(feeds) - sum(map(len, waiting.values())))


def _feeds(build: Build) -> Map[str, list[tuple[str, ...]]]:
    """For each device, the ways by which power comes to it, each as the things that must be there for it; none for an outlet."""
    found: defaultdict[str, list[tuple[str, ...]]] = defaultdict(list)
    for feed in build.mains_feeds:
        found[feed.device].append((feed.source,))
    for run in build.power_runs.values():
        found[run.feeds or build.jacks[run.sink].device].append(tuple(_between(build, run)))
    return found


def _between(build: Build, run: PowerRun) -> Iterator[str]:
    yield build.jacks[run.source].device
    for piece_id in run.pieces:
        piece = build.pieces[piece_id]
        yield from piece.route
        yield from (build.jacks[end].device for end in piece.ends)


def _last(things: Iterable[str], rank_of: Map[str, int]) -> str:
    """Which of them comes last; of several that come together, the first one: it is what feeds."""
    return max(things, key=lambda each: rank_of.get(each, 0))


@rule("phase-place", Level.WARNING, COMMON_PRACTICE)
def phase_place(build: Build) -> Iterator[Outcome]:
    """What a thing stands in or on does not come in a later phase than the plan says of the thing.

    Because: the switch is to come in spring, and the cabinet that it is screwed into comes in autumn, so it has to wait for that.
    Compares: the phase that is written at each device and fitting in a cabinet with that of the cabinet, and of each device on a shelf
        with that of the shelf.
    Skips: plans without phases; what stands in the room itself; what has no phase of its own, which comes with its cabinet.
    Remedy: the cabinet's or shelf's phase for what stands in it, or an earlier one for the cabinet or shelf.
    """
    if not build.phases:
        return
    rank = ranks(build.phases)
    waiting: _Waiting = defaultdict(list)
    examined = 0
    for thing, phase, holder in _held(build):
        examined += 1
        said = build.provenance.written(thing, "phase")
        if said is not None and rank.get(_written(build, thing), 0) < rank.get(phase, 0):
            waiting[holder].append(thing)
    yield from _findings(build, phase_place, waiting, "stands there", "stand there", "said to come sooner")
    yield FineMany(examined - sum(map(len, waiting.values())))


def _held(build: Build) -> Iterator[tuple[str, str, str]]:
    """Each thing in a cabinet, the phase in which it comes, and what it has to wait for: its shelf, where that is later than the cabinet."""
    for device in build.devices.values():
        shelf, cabinet = build.fittings.get(device.carried_by), build.cabinets.get(device.cabinet)
        if cabinet is not None:
            is_later = shelf is not None and shelf.phase != cabinet.phase
            yield device.id, device.phase, device.carried_by if is_later else cabinet.id
    for fitting in build.fittings.values():
        yield fitting.id, fitting.phase, fitting.cabinet


def _written(build: Build, id_: str) -> str:
    """The phase in the plan's words; the build's own is that in which the thing can come."""
    node = build.provenance.node(id_)
    said = node.value("phase") if isinstance(node, Mapping) else None
    return said.text if isinstance(said, Scalar) else ""


class _Service(NamedTuple):
    """Any of `by` can do it for those that are in `vlan`."""

    by: tuple[str, ...]
    vlan: str
    one: str
    several: str


@rule("phase-service", Level.WARNING, COMMON_PRACTICE)
def phase_service(build: Build) -> Iterator[Outcome]:
    """What the devices of a VLAN talk through and ask does not come in a later phase than they do.

    Because: a computer without a gateway, without an address lent to it or without a name server has a cable and no network.
    Compares: for each VLAN that reaches something or lends addresses, the phase of the device that holds its gateway address with those
        of the devices in it; for each that reaches the name servers, the phase of the first of them.
    Skips: plans without phases; VLANs without a gateway; what waits for its run anyway (`phase-order`).
    Remedy: an earlier phase for the gateway or name server, or a later one for those that need it.
    """
    if not build.phases:
        return
    rank_of = ranked(build)
    told = {device.id for devices in runs_waiting(build)[0].values() for device in devices}
    members = _members(build)
    waiting: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    examined = 0
    for service in _services(build):
        first = min(service.by, key=lambda each: rank_of.get(each, 0))
        for device in members.get(service.vlan, ()):
            if device in service.by:
                continue
            examined += 1
            if device not in told and rank_of.get(first, 0) > rank_of.get(device, 0):
                waiting[service.one, service.several, first].append(device)
    for (one, several, first), devices in sorted(waiting.items()):
        yield from _findings(build, phase_service, {first: sorted(set(devices))}, one, several)
    yield FineMany(examined - sum(map(len, waiting.values())))


def _members(build: Build) -> Map[str, list[str]]:
    """Devices by their own VLAN."""
    found: defaultdict[str, list[str]] = defaultdict(list)
    for device, vlans in build.memberships.items():
        if vlans and vlans[0]:
            found[vlans[0]].append(device)
    return found


def _services(build: Build) -> Iterator[_Service]:
    servers = build.name_service.servers
    holders = {(claim.vlan, claim.address): claim.device for claim in build.addresses}
    for vlan in build.vlans.values():
        holder = holders.get((vlan.id, vlan.gateway)) if vlan.gateway else None
        if holder is not None and (vlan.reaches or vlan.leases[0]):
            yield _Service((holder,), vlan.id, "has its gateway there", "have their gateway there")
        if servers and "names" in vlan.reaches:
            yield _Service(servers, vlan.id, "asks it for names", "ask it for names")


def _findings(
    build: Build,
    by: Rule,
    waiting: Map[str, list[str]],
    one: str,
    several: str,
    sooner: str = "there before it",
) -> Iterator[Finding]:
    for blocker, things in sorted(waiting.items()):
        name, phase = _shown(build, blocker), _phase_of_blocker(build, blocker)
        verb = one if len(things) == 1 else several
        yield by.finding(
            f"'{name}' comes in the phase '{phase}', and {listed(_shown(build, each) for each in things)}, {sooner}, {verb}",
            blocker,
            build.provenance.span(blocker, "phase") or build.provenance.span(blocker),
            related=tuple(
                Label(build.provenance.span(each, "phase") or build.provenance.span(each), sooner)
                for each in things
            ),
            cures=(Cure(f"give '{name}' an earlier phase, or what needs it the phase '{phase}'"),),
        )


def _phase_of_blocker(build: Build, id_: str) -> str:
    thing: Device | None = build.devices.get(id_)
    if thing is not None:
        return thing.phase
    way, cabinet, fitting = build.ways.get(id_), build.cabinets.get(id_), build.fittings.get(id_)
    holder = way or cabinet or fitting
    return holder.phase if holder is not None else ""


def _shown(build: Build, id_: str) -> str:
    fitting = build.fittings.get(id_)
    if fitting is None:
        return ids.path(id_)
    return f"{fitting.part.name} in {ids.path(fitting.cabinet)}"


RULES: tuple[Rule, ...] = (phase_power, phase_place, phase_service)
