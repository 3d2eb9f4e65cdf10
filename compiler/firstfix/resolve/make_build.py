"""The passes in their order, from a plan to a build. Each takes what it reads and gives back what it fills."""

from collections.abc import Mapping
from typing import TypeVar

from firstfix.allocations.choices import NO_CHOICES, Choices
from firstfix.build.later import Later
from firstfix.build.model import Build
from firstfix.build.reasons import PLAN
from firstfix.parts.layers import laid_over
from firstfix.parts.part import Library
from firstfix.plan.model import Plan
from firstfix.resolve.addresses import resolve_addresses
from firstfix.resolve.boxes import check_contents
from firstfix.resolve.chains import Chain, resolve_chains
from firstfix.resolve.channels import resolve_channels
from firstfix.resolve.circuits import house_mains, resolve_circuits
from firstfix.resolve.colours import with_colours
from firstfix.resolve.ends import resolve_ends, without_ends
from firstfix.resolve.equipment import resolve_equipment
from firstfix.resolve.found import with_labels, with_measured
from firstfix.resolve.in_phases import items_in_phases, piece_phases
from firstfix.resolve.internet import resolve_internet
from firstfix.resolve.items import resolve_items, used_parts
from firstfix.resolve.jacks import resolve_jacks
from firstfix.resolve.joints import resolve_joints
from firstfix.resolve.kept import Kept
from firstfix.resolve.labels import resolve_labels
from firstfix.resolve.leads import Leads
from firstfix.resolve.looks import looks
from firstfix.resolve.mains import resolve_mains
from firstfix.resolve.notes import Notes
from firstfix.resolve.other_names import OtherNames
from firstfix.resolve.phases import resolve_phases
from firstfix.resolve.pieces import resolve_pieces, without_pieces
from firstfix.resolve.places import resolve_places
from firstfix.resolve.poe import resolve_poe
from firstfix.resolve.shops import check_instead, check_runs, check_sold_out, offered_lengths, resolve_shops
from firstfix.resolve.stock import take_from_stock
from firstfix.resolve.vlans import resolve_vlans
from firstfix.resolve.working import resolve_work

_Thing = TypeVar("_Thing")


def make_build(plan: Plan, shipped: Library, choices: Choices = NO_CHOICES) -> Build:
    """The build of `plan`. Never fails: what cannot be settled is a gap in it.

    `choices` of an earlier build stay where they are still possible.
    """
    library = laid_over(plan.parts, shipped)
    notes = Notes(plan.in_doubt, OtherNames(plan, library))
    notes.wrote(PLAN, plan.written)
    kept = Kept(choices, plan.renames, notes)
    used_parts(plan.cabling, library, notes)
    check_contents(plan.parts, library, notes)
    places = resolve_places(plan, library, notes)
    circuits = resolve_circuits(plan, places, notes)
    phases = resolve_phases(plan, notes)
    equipment = resolve_equipment(plan, library, places, phases, notes)
    internet = resolve_internet(plan.internet, equipment.devices, notes)
    field = resolve_jacks(equipment.devices.values())
    chains, unsettled = resolve_chains(plan, equipment.devices, kept, notes)
    ends = resolve_ends(chains, field, kept, notes)
    unsettled |= without_ends(chains, ends) | notes.doubtful(equipment.devices)
    links, pieces = resolve_pieces(
        chains, ends, field, places, equipment, plan.cabling, library, phases, kept, notes
    )
    unsettled |= without_pieces(chains, pieces)
    # Bought and cut as reckoned; judged as measured.
    laid = with_measured(pieces, field.jacks, plan.found)
    channels, open_ends = resolve_channels(laid, field, equipment.devices, library)
    poe = resolve_poe(plan, channels, laid, places.ways, field, equipment.devices, library, notes)
    leads = Leads(library)
    feeds = resolve_mains(plan, equipment.devices, places, poe.runs, field, leads, kept, notes)
    ports = resolve_vlans(plan, equipment.devices, channels, chains, field, notes)
    addresses = resolve_addresses(plan, ports.vlans, ports.members, equipment.devices, kept, notes)
    administration = resolve_labels(plan, places, equipment, kept, notes)
    kept.finish()
    laid = with_colours(plan, laid, channels, ports.setups, _colours(chains))
    phased = piece_phases(links, pieces, places.ways, phases)
    items = resolve_items(
        equipment, places, pieces, field, feeds, leads, plan.cabling, library, phased, notes
    )
    items = items_in_phases(items, phased, places.ways, equipment)
    check_instead(plan.purchase, equipment.devices, library, notes)
    check_runs(plan.purchase, library, notes)
    check_sold_out(plan.purchase, library, notes)
    shops = resolve_shops(plan.shops, plan.purchase, library, notes) if plan.shops else ()
    working = resolve_work(plan.work, places, notes)
    offered = offered_lengths(shops, plan.currency)
    stock = take_from_stock(plan.stock, items, laid, library, offered, notes)
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
        devices=_sorted(with_labels(equipment.devices, plan.found)),
        fittings=_sorted(equipment.fittings),
        mounts=equipment.mounts,
        occupancy=equipment.occupancy,
        jacks=_sorted(field.jacks),
        jacks_of=_sorted(field.of),
        throughs=tuple(sorted(field.throughs)),
        links=_sorted(links),
        pieces=_sorted(stock.pieces),
        joints=Later(lambda: resolve_joints(pieces.values(), field.jacks, equipment.devices)),
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
        items=stock.items,
        decisions=tuple(sorted(notes.decisions)),
        gaps=tuple(sorted(set(notes.gaps), key=lambda gap: (gap.rule, gap.subject, gap.why, gap.at or ()))),
        unsettled=unsettled,
        provenance=notes.provenance,
        circuits=circuits,
        mains=house_mains(plan),
        stock=stock.lots,
        shops=shops,
        purchase=plan.purchase.wish,
        working=working,
        administration=administration,
        looks=looks(plan.drawings),
        internet=internet,
        spares=plan.cabling.spares,
        phases=phases.phases,
        renames=plan.renames,
    )


def _colours(chains: tuple[Chain, ...]) -> dict[str, str]:
    return {chain.id: chain.spec.colour for chain in chains if chain.spec.colour}


def _sorted(things: Mapping[str, _Thing]) -> dict[str, _Thing]:
    return dict(sorted(things.items()))
