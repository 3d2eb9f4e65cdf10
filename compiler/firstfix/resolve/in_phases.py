"""What hangs on a thing comes no sooner than it: links on their devices, items on what needs them."""

from collections.abc import Mapping

from firstfix.build.cabling import Link, Piece
from firstfix.build.hardware import Item
from firstfix.build.places import Way
from firstfix.resolve.equipment import Equipment
from firstfix.resolve.phases import PhaseOrder


def links_in_phases(links: dict[str, Link], equipment: Equipment, phases: PhaseOrder) -> dict[str, Link]:
    """A link comes no sooner than the last of the devices on it."""
    if not phases.phases:
        return links
    devices = equipment.devices
    found: dict[str, Link] = {}
    for id_, link in links.items():
        # Most links and most devices share one phase, or have none; nothing is compared then.
        others = {devices[hop].phase for hop in link.hops}
        others.discard(link.phase)
        found[id_] = link._replace(phase=phases.latest(link.phase, *others)) if others else link
    return found


def items_in_phases(
    items: tuple[Item, ...],
    links: dict[str, Link],
    pieces: Mapping[str, Piece],
    ways: dict[str, Way],
    equipment: Equipment,
    phases: PhaseOrder,
) -> tuple[Item, ...]:
    """An item is wanted no sooner than what needs it."""
    if not phases.phases:
        return items
    in_ways = {way.id: way.phase for way in ways.values() if way.phase}
    of = {piece.id: links[piece.link].phase for piece in pieces.values()}
    if in_ways:
        for piece in pieces.values():
            later = [in_ways[way] for way in piece.route if way in in_ways]
            if later:
                of[piece.id] = phases.latest(of[piece.id], *later)
    for things in (equipment.devices, equipment.cabinets, equipment.fittings):
        of |= {id_: thing.phase for id_, thing in things.items()}
    of |= in_ways
    found: list[Item] = []
    for item in items:
        needed = of.get(item.for_id, "")
        if needed and needed != item.phase:
            item = item._replace(phase=phases.latest(item.phase, needed))
        found.append(item)
    return tuple(found)
