"""The passes in their order, from a plan to a build. Each takes what it reads and gives back what it fills."""

from collections.abc import Mapping
from operator import itemgetter
from typing import TypeVar

from firstfix.build.model import Build
from firstfix.parts.part import Library
from firstfix.plan.model import Plan
from firstfix.resolve.addresses import resolve_addresses
from firstfix.resolve.chains import resolve_chains
from firstfix.resolve.channels import resolve_channels
from firstfix.resolve.ends import resolve_ends, without_ends
from firstfix.resolve.equipment import resolve_equipment
from firstfix.resolve.items import resolve_items, used_parts
from firstfix.resolve.jacks import resolve_jacks
from firstfix.resolve.mains import resolve_mains
from firstfix.resolve.notes import Notes
from firstfix.resolve.pieces import resolve_pieces
from firstfix.resolve.places import resolve_places
from firstfix.resolve.poe import resolve_poe
from firstfix.resolve.vlans import resolve_vlans

_Thing = TypeVar("_Thing")


def make_build(plan: Plan, shipped: Library) -> Build:
    """The build of `plan`. Never fails: what cannot be settled is a gap in it."""
    library: Library = {**shipped, **plan.parts}
    notes = Notes()
    used_parts(plan.cabling, library, notes)
    places = resolve_places(plan, notes)
    equipment = resolve_equipment(plan, library, places, notes)
    field = resolve_jacks(equipment.devices.values())
    chains, unsettled = resolve_chains(plan, equipment.devices, notes)
    ends = resolve_ends(chains, field, notes)
    unsettled |= without_ends(chains, ends)
    links, pieces, joints = resolve_pieces(
        chains, ends, field, places, equipment, plan.cabling, library, notes
    )
    channels, open_ends = resolve_channels(pieces, field, equipment.devices, library)
    poe = resolve_poe(plan, channels, pieces, field, equipment.devices, library, notes)
    feeds = resolve_mains(plan, equipment.devices, places, poe.runs, field, notes)
    ports = resolve_vlans(plan, equipment.devices, channels, chains, field, notes)
    addresses = resolve_addresses(plan, ports.vlans, ports.members, equipment.devices, notes)
    items = resolve_items(equipment, pieces, field, feeds, plan.cabling, library, notes)
    return Build(
        name=plan.name,
        start=plan.start,
        currency=plan.currency,
        library=library,
        sites=_sorted(places.sites),
        buildings=_sorted(places.buildings),
        rooms=_sorted(places.rooms),
        ways=_sorted(places.ways),
        cabinets=_sorted(equipment.cabinets),
        devices=_sorted(equipment.devices),
        fittings=_sorted(equipment.fittings),
        mounts=equipment.mounts,
        occupancy=equipment.occupancy,
        jacks=_sorted(field.jacks),
        jacks_of=_sorted(field.of),
        throughs=tuple(sorted(field.throughs)),
        links=_sorted(links),
        pieces=_sorted(pieces),
        joints=tuple(sorted(joints, key=itemgetter(0))),
        channels=channels,
        open_ends=open_ends,
        power_runs=poe.runs,
        power_sources=poe.sources,
        mains_feeds=feeds,
        vlans=_sorted(addresses.vlans),
        port_setups=ports.setups,
        memberships={device: (each.untagged, *each.tagged) for device, each in sorted(ports.members.items())},
        addresses=addresses.claims,
        name_service=addresses.names,
        wireless=ports.wireless,
        items=items,
        decisions=tuple(sorted(notes.decisions)),
        gaps=tuple(sorted(set(notes.gaps), key=lambda gap: (gap.rule, gap.subject, gap.why, gap.at or ()))),
        unsettled=unsettled,
        provenance=notes.provenance,
    )


def _sorted(things: Mapping[str, _Thing]) -> dict[str, _Thing]:
    return dict(sorted(things.items()))
