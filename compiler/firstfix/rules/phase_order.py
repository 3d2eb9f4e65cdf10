"""The rule on the order of phases: what a device hangs on is there when the device comes.

Takes a build with phases; yields a finding for each thing that comes later than devices that have no other way out.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Set

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.phases import ranks
from firstfix.build.places import Way
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.graphs.wired import WiredChannel, wired_channels
from firstfix.rules.rule import FineMany, Outcome, Rule, rule
from firstfix.rules.wording import listed


@rule("phase-order", Level.WARNING, COMMON_PRACTICE)
def phase_order(build: Build) -> Iterator[Outcome]:
    """What a device hangs on does not come in a later phase than the device.

    Because: the cameras are up in spring, and the switch that feeds them is bought in autumn.
    Compares: the phase of each device with those of the devices and ways on each of its runs; one run that is there as soon as
        the device is enough. What names no phase is there from the beginning.
    Skips: plans without phases; devices on no run; a run that itself is said to come later; switches and routers that have power
        of their own, which others may hang on to begin with.
    Remedy: a later phase for what waits, or an earlier one for what it waits for.
    """
    if not build.phases:
        return
    waiting, examined = runs_waiting(build)
    for blocker, devices in sorted(waiting.items()):
        yield _finding(build, blocker, devices)
    yield FineMany(examined - sum(len(each) for each in waiting.values()))


@once_per_build
def runs_waiting(build: Build) -> tuple[Mapping[str, list[Device]], int]:
    """By the device or way that comes later, the devices all of whose runs wait for it; and how many devices were looked at."""
    rank_of = ranked(build)
    late_ways = rank_of.keys() & build.ways.keys()
    # For each device, what comes last on each of its channels.
    reach: defaultdict[str, list[str]] = defaultdict(list)
    for wired in wired_channels(build):
        blocker = _last_on(build, wired, rank_of, late_ways)
        reach[wired.near.device].append(blocker)
        reach[wired.far.device].append(blocker)
    waiting: defaultdict[str, list[Device]] = defaultdict(list)
    fed = {build.jacks[run.sink].device for run in build.power_runs.values()}
    for name, last in reach.items():
        device = build.devices[name]
        if device.part.bridges is True and name not in fed:
            continue
        first = min(last, key=lambda each: rank_of.get(each, 0))
        if rank_of.get(first, 0) > rank_of.get(name, 0):
            waiting[first].append(device)
    return waiting, len(reach)


@once_per_build
def ranked(build: Build) -> Mapping[str, int]:
    """Of devices and ways with a phase, which phase it is in their order; all else is there from the beginning."""
    rank = ranks(build.phases)
    things: tuple[Device | Way, ...] = (*build.devices.values(), *build.ways.values())
    return {each.id: rank.get(each.phase, 0) for each in things if each.phase}


def _last_on(build: Build, wired: WiredChannel, rank_of: Mapping[str, int], late_ways: Set[str]) -> str:
    """The device or way of a channel that comes last; of several that come together, the first one."""
    channel, near, far = wired
    things = [near.device, far.device, *[each for each in channel.through if each in rank_of]]
    if late_ways:
        routes = [build.pieces[piece].route for piece in channel.pieces]
        things += [way for route in routes for way in route if way in late_ways]
    return max(things, key=lambda each: rank_of.get(each, 0))


def _finding(build: Build, blocker: str, devices: list[Device]) -> Outcome:
    thing = build.devices.get(blocker) or build.ways[blocker]
    waits = "waits" if len(devices) == 1 else "wait"
    return phase_order.finding(
        f"'{thing.name}' comes in the phase '{thing.phase}', and {listed(each.name for each in devices)}, there before it, {waits} for it",
        blocker,
        build.provenance.span(blocker, "phase") or build.provenance.span(blocker),
        related=tuple(
            Label(
                build.provenance.span(each.id, "phase") or build.provenance.span(each.id), "is there before"
            )
            for each in devices
        ),
        cures=(
            Cure(f"give '{thing.name}' an earlier phase, or what waits for it the phase '{thing.phase}'"),
        ),
    )


RULES: tuple[Rule, ...] = (phase_order,)
