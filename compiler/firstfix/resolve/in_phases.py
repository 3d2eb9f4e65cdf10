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
    return {
        id_: link._replace(phase=phases.latest(link.phase, *(devices[hop].phase for hop in link.hops)))
        for id_, link in links.items()
    }


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
    of = {
        piece.id: phases.latest(links[piece.link].phase, *(ways[way].phase for way in piece.route))
        for piece in pieces.values()
    }
    for things in (equipment.devices, equipment.cabinets, equipment.fittings):
        of |= {id_: thing.phase for id_, thing in things.items()}
    return tuple(item._replace(phase=phases.latest(item.phase, of.get(item.for_id, ""))) for item in items)
