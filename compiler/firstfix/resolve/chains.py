"""Links as chains of devices and hops: names resolved, ids given, each hop known as a cord or an installed run."""

from collections import Counter
from itertools import pairwise
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN
from firstfix.build.hardware import Device
from firstfix.parts.part import INLINE_KINDS, TERMINATION_KINDS
from firstfix.plan.model import LinkSpec, Plan
from firstfix.resolve.notes import Notes, value_span


class Chain(NamedTuple):
    """One link. `kinds[i]` is what lies between `devices[i]` and `devices[i + 1]`."""

    id: str
    spec: LinkSpec
    devices: tuple[Device, ...]
    kinds: tuple[str, ...]


class Chains(NamedTuple):
    """In order of ids. `unsettled`: devices named by a link that has a fault, about which nothing can be concluded."""

    chains: tuple[Chain, ...]
    unsettled: frozenset[str]


def resolve_chains(plan: Plan, devices: dict[str, Device], notes: Notes) -> Chains:
    named = {device.name: device for device in devices.values()}
    declared = {spec.name for spec in plan.devices}
    chains: list[Chain] = []
    unsettled: set[str] = set()
    for link_id, spec in _with_ids(plan.links):
        notes.wrote(link_id, spec.written)
        if spec.spare_for and spec.spare_for.partition("/")[0] not in declared:
            at = value_span(spec.written, "spare-for")
            notes.unknown_name(link_id, spec.spare_for, "device or jack", declared, at)
        found: list[Device] = []
        for hop in spec.hops:
            device = named.get(hop.device)
            if device is not None:
                found.append(device)
            elif hop.device not in declared:
                notes.unknown_name(link_id, hop.device, "device", declared, hop.node.span)
        if len(found) < len(spec.hops):
            # A device whose own part is at fault has had its finding already.
            unsettled.update(device.id for device in found)
            continue
        kinds = tuple(_kind(a, b) for a, b in pairwise(found))
        chains.append(Chain(link_id, spec, tuple(found), kinds))
    return Chains(tuple(chains), frozenset(unsettled))


def _with_ids(links: tuple[LinkSpec, ...]) -> list[tuple[str, LinkSpec]]:
    """Ids in sorted order. Links with the same two ends are told apart by what lies between, then by an ordinal."""

    chains = [_one_way(spec) for spec in links]
    count = Counter(chains)
    # Two links over the same hops are told apart by all else they say, never by who stands first in the file.
    keys = [
        (hops[0], hops[-1], hops, repr(spec) if count[hops] > 1 else "")
        for hops, spec in zip(chains, links, strict=True)
    ]
    counted: Counter[tuple[str, str]] = Counter()
    found: list[tuple[str, LinkSpec]] = []
    for (first, last, *_), spec in sorted(zip(keys, links, strict=True), key=lambda pair: pair[0]):
        counted[first, last] += 1
        found.append((ids.link(first, last, counted[first, last]), spec))
    return found


def _one_way(spec: LinkSpec) -> tuple[str, ...]:
    """The hops as written, in the same order whichever way round the run is written."""
    hops = tuple([hop.shown for hop in spec.hops])
    return min(hops, hops[::-1])


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
