"""Links as chains of devices and hops: names resolved, ids given, each hop known as a cord or an installed run."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from itertools import pairwise
from operator import itemgetter
from typing import NamedTuple

from firstfix.allocations.choices import KeptRun
from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN
from firstfix.build.hardware import Device
from firstfix.parts.part import INLINE_KINDS, TERMINATION_KINDS
from firstfix.plan.model import LinkSpec, Plan
from firstfix.resolve.kept import Kept
from firstfix.resolve.kept_runs import KeptJacks, Named, jacks_along, match_runs, number_of
from firstfix.resolve.notes import Notes, value_span


class Chain(NamedTuple):
    """One link. `kinds[i]` is what lies between `devices[i]` and `devices[i + 1]`."""

    id: str
    spec: LinkSpec
    devices: tuple[Device, ...]
    kinds: tuple[str, ...]
    kept: KeptJacks | None = None


class Chains(NamedTuple):
    """In order of ids. `unsettled`: devices named by a link that has a fault, about which nothing can be concluded."""

    chains: tuple[Chain, ...]
    unsettled: frozenset[str]


def resolve_chains(plan: Plan, devices: dict[str, Device], kept: Kept, notes: Notes) -> Chains:
    named = {device.name: device for device in devices.values()}
    placed = sum([device.room != "" for device in devices.values()])
    some_unplaced = 0 < placed < len(devices)
    declared = {spec.name for spec in plan.devices}
    chains: list[Chain] = []
    unsettled: set[str] = set()
    for link_id, spec, chosen in with_ids(plan.links, kept):
        notes.wrote(link_id, spec.written)
        if spec.spare_for and spec.spare_for.partition("/")[0] not in declared:
            at = value_span(spec.written, "spare-for")
            name = spec.spare_for.partition("/")[0]
            notes.unknown_name(link_id, name, "device", declared, at, spec.spare_for)
        found: list[Device] = []
        for hop in spec.hops:
            device = named.get(hop.device)
            if device is not None:
                found.append(device)
            elif hop.device not in declared:
                notes.unknown_name(link_id, hop.device, "device", declared, hop.node.span, hop.shown)
        if len(found) < len(spec.hops) or (some_unplaced and _is_unplaced(found)):
            # A device whose own part is at fault has had its finding already.
            unsettled.update(device.id for device in found)
            continue
        kinds = tuple([_kind(a, b) for a, b in pairwise(found)])
        chains.append(Chain(link_id, spec, tuple(found), kinds, chosen))
    return Chains(tuple(chains), frozenset(unsettled))


class Identified(NamedTuple):
    """A link with its id, and what an earlier build chose for it."""

    id: str
    spec: LinkSpec
    kept: KeptJacks | None


def with_ids(links: tuple[LinkSpec, ...], kept: Kept) -> list[Identified]:
    """Ids in sorted order. Links with the same two ends are told apart by what lies between, then by an ordinal.

    A link that is known from an earlier build keeps its ordinal, whichever of its kind have come or gone since.
    """
    chains = [one_way(spec) for spec in links]
    count = Counter(chains)
    # Two links over the same hops are told apart by all else they say, never by who stands first in the file.
    keys = [
        (hops[0], hops[-1], hops, repr(spec) if count[hops] > 1 else "")
        for hops, spec in zip(chains, links, strict=True)
    ]
    ordered = sorted(zip(keys, links, strict=True), key=itemgetter(0))
    if kept.runs:
        return _kept_ids([Named(ids.link(key[0], key[1], 1), key[2], spec) for key, spec in ordered], kept)
    counted: defaultdict[tuple[str, str], int] = defaultdict(int)
    found: list[Identified] = []
    for (first, last, *_), spec in ordered:
        counted[first, last] += 1
        found.append(Identified(ids.link(first, last, counted[first, last]), spec, None))
    return found


def _kept_ids(named: list[Named], kept: Kept) -> list[Identified]:
    known = match_runs(named, kept.runs)
    number: dict[int, int] = {}
    holder: dict[tuple[str, int], KeptRun] = {}
    for index, run in sorted(known.items()):
        base, ordinal = number_of(run)
        if base != named[index].base:
            continue
        first = holder.setdefault((base, ordinal), run)
        if first is run:
            number[index] = ordinal
        else:
            kept.twice(run, f"two runs are kept as '{run.run}'", f"the one by {first.chosen}")
    _say_left_over(set(kept.runs).difference(known.values()), known.values(), kept)
    taken = set(holder)
    free: Counter[str] = Counter()
    found: list[Identified] = []
    for index, (base, hops, spec) in enumerate(named):
        if index not in number:
            free[base] += 1
            while (base, free[base]) in taken:
                free[base] += 1
            number[index] = free[base]
        chosen = jacks_along(known[index], spec, hops) if index in known else None
        found.append(Identified(base + (f"#{number[index]}" if number[index] > 1 else ""), spec, chosen))
    return found


def _say_left_over(runs: set[KeptRun], known: Iterable[KeptRun], kept: Kept) -> None:
    """Kept runs that are no run of the plan: the same run kept twice, or one that is gone."""
    first = {run.run: run for run in known}
    gone: list[KeptRun] = []
    for run in sorted(runs, key=lambda each: each[:-1]):
        if run.run in first:
            kept.twice(
                run,
                f"the {run.about} is kept twice, by {first[run.run].chosen} and by {run.chosen}",
                first[run.run].chosen,
            )
        else:
            gone.append(run)
    kept.idle(gone)


def one_way(spec: LinkSpec) -> tuple[str, ...]:
    """The hops as written, in the same order whichever way round the run is written."""
    hops = tuple([hop.shown for hop in spec.hops])
    return min(hops, hops[::-1])


def _is_unplaced(devices: list[Device]) -> bool:
    """Whether nobody can say where a panel's or outlet's cords and installed runs are, since a room is not known."""
    return any(not each.room for each in devices) and any(
        each.part.kind in TERMINATION_KINDS for each in devices
    )


def _kind(a: Device, b: Device) -> str:
    """Between rooms, and between two terminations, lies an installed run; all else is a cord."""
    if a.room != b.room:
        return RUN
    if a.part.kind in TERMINATION_KINDS and b.part.kind in TERMINATION_KINDS and a.cabinet != b.cabinet:
        return RUN
    return CORD


def is_in_line(device: Device) -> bool:
    """Whether a chain goes in at one jack of the device and out at the jack that belongs to it."""
    return device.part.kind in INLINE_KINDS or device.part.kind in TERMINATION_KINDS
