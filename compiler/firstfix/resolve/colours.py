"""The colour of each piece: what its link says, else that of the VLAN it carries, else what the cabling says of its kind.

Comes after VLANs are settled, since a cord's VLAN follows from what is plugged in at its ends.
"""

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN, Channel, Piece
from firstfix.build.logical import PortSetup
from firstfix.plan.model import CordColours, Plan


def with_colours(
    plan: Plan,
    pieces: dict[str, Piece],
    channels: dict[str, Channel],
    setups: dict[str, PortSetup],
    colour_of_link: dict[str, str],
) -> dict[str, Piece]:
    """`pieces` with their colours; the same mapping where the plan says none.

    A link's colour is its cords'; a link that is one installed run takes it itself. VLANs colour cords only: cable in
    walls is bought by the box.
    """
    by_vlan = {ids.vlan(spec.name): spec.colour for spec in plan.vlans if spec.colour}
    usual = plan.cabling.colours
    if not (by_vlan or any(usual) or colour_of_link):
        return pieces
    carried = _by_piece(channels, setups, by_vlan, usual)
    with_cords = {piece.link for piece in pieces.values() if piece.kind == CORD}
    return {
        id_: _coloured(piece, colour_of_link, with_cords, carried, usual) for id_, piece in pieces.items()
    }


def _by_piece(
    channels: dict[str, Channel],
    setups: dict[str, PortSetup],
    by_vlan: dict[str, str],
    usual: CordColours,
) -> dict[str, str]:
    """The colour for what each piece carries, where there is one."""
    found: dict[str, str] = {}
    for channel in channels.values():
        ends = [setup for jack in channel.ends if (setup := setups.get(jack)) is not None]
        is_tagged = any(setup.tagged for setup in ends)
        untagged = next((setup.untagged for setup in ends), "")
        colour = (usual.tagged if is_tagged else "") or by_vlan.get(untagged, "")
        if colour:
            found.update(dict.fromkeys(channel.pieces, colour))
    return found


def _coloured(
    piece: Piece,
    colour_of_link: dict[str, str],
    with_cords: set[str],
    carried: dict[str, str],
    usual: CordColours,
) -> Piece:
    said = colour_of_link.get(piece.link, "")
    if piece.is_owned:
        # It has the colour it has; nobody repaints it.
        return piece._replace(colour=said) if said and piece.kind == CORD else piece
    if piece.kind == RUN:
        colour = ("" if piece.link in with_cords else said) or usual.runs
    else:
        colour = said or carried.get(piece.id, "") or usual.cords
    return piece._replace(colour=colour) if colour else piece
