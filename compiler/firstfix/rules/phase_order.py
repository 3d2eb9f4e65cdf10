"""The rule on the order of phases: what a device hangs on is there when the device comes.

Takes a build with phases; yields a finding for each thing that comes later than devices that have no other way out.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from firstfix.build.cabling import Channel
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.phases import ranks
from firstfix.build.places import Way
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
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
    rank_of = _ranked(build)
    reach: defaultdict[str, list[Channel]] = defaultdict(list)
    for channel in build.channels.values():
        for end in channel.ends:
            reach[build.jacks[end].device].append(channel)
    waiting: defaultdict[str, list[Device]] = defaultdict(list)
    fed = {build.jacks[run.sink].device for run in build.power_runs.values()}
    for name, channels in reach.items():
        device = build.devices[name]
        if device.part.bridges is True and name not in fed:
            continue
        last = _all_later(build, channels, rank_of, rank_of.get(name, 0))
        if last:
            waiting[min(last, key=lambda each: rank_of.get(each, 0))].append(device)
    for blocker, devices in sorted(waiting.items()):
        yield _finding(build, blocker, devices)
    yield FineMany(len(reach) - sum(len(each) for each in waiting.values()))


def _ranked(build: Build) -> Mapping[str, int]:
    """Of devices and ways with a phase, which phase it is in their order; all else is there from the beginning."""
    rank = ranks(build.phases)
    things: tuple[Device | Way, ...] = (*build.devices.values(), *build.ways.values())
    return {each.id: rank.get(each.phase, 0) for each in things if each.phase}


def _all_later(build: Build, channels: list[Channel], rank_of: Mapping[str, int], own: int) -> list[str]:
    """Of each channel the device or way that comes last, if that is later than `own` on all of them; else nothing."""
    found: list[str] = []
    for channel in channels:
        things = [build.jacks[end].device for end in channel.ends]
        things += channel.through
        things += [way for piece in channel.pieces for way in build.pieces[piece].route]
        last = max(things, key=lambda each: rank_of.get(each, 0))
        if rank_of.get(last, 0) <= own:
            return []
        found.append(last)
    return found


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
