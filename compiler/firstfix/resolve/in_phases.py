"""What hangs on a thing comes no sooner than it: links on their devices, items on what needs them."""

from collections.abc import Mapping
from typing import NamedTuple

from firstfix.build.cabling import Link, Piece
from firstfix.build.hardware import Item
from firstfix.build.places import Way
from firstfix.resolve.chains import Chain
from firstfix.resolve.equipment import Equipment
from firstfix.resolve.phases import PhaseOrder


def link_phase(chain: Chain, phases: PhaseOrder) -> str:
    """A link comes no sooner than the last of the devices on it."""
    own = chain.spec.phase
    # Most links and most devices share one phase, or have none; nothing is compared then.
    others = [device.phase for device in chain.devices if device.phase != own]
    return phases.latest(own, *others) if others else own


class PiecePhases(NamedTuple):
    """`of`: the phase of each piece by its id; empty where the plan has no phases."""

    of: Mapping[str, str]
    order: PhaseOrder


def piece_phases(
    links: Mapping[str, Link], pieces: Mapping[str, Piece], ways: Mapping[str, Way], phases: PhaseOrder
) -> PiecePhases:
    """A piece comes with its link, and no sooner than the ways that it lies in."""
    if not phases.phases:
        return PiecePhases({}, phases)
    in_ways = {way.id: way.phase for way in ways.values() if way.phase}
    of = {piece.id: links[piece.link].phase for piece in pieces.values()}
    if in_ways:
        for piece in pieces.values():
            later = [in_ways[way] for way in piece.route if way in in_ways]
            if later:
                of[piece.id] = phases.latest(of[piece.id], *later)
    return PiecePhases(of, phases)


def at(phase: str, own: str) -> str:
    """What the id of an item ends with that comes in another phase than what it is for, of the phase `own`."""
    return f"@{phase}" if phase not in ("", own) else ""


def items_in_phases(
    items: tuple[Item, ...], phased: PiecePhases, ways: Mapping[str, Way], equipment: Equipment
) -> tuple[Item, ...]:
    """An item is wanted no sooner than what needs it."""
    phases = phased.order
    if not phases.phases:
        return items
    of = dict(phased.of)
    for things in (equipment.devices, equipment.cabinets, equipment.fittings):
        of |= {id_: thing.phase for id_, thing in things.items()}
    of |= {way.id: way.phase for way in ways.values() if way.phase}
    found: list[Item] = []
    for item in items:
        needed = of.get(item.for_id, "")
        if needed and needed != item.phase:
            item = item._replace(phase=phases.latest(item.phase, needed))
        found.append(item)
    return tuple(found)
