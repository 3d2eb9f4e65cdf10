"""Channels: from active jack to active jack through everything passive; and the passive ends that lead nowhere."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import Channel, OpenEnd, Piece
from firstfix.build.hardware import Device
from firstfix.parts.part import Library
from firstfix.resolve.chains import is_in_line
from firstfix.resolve.jacks import JackField


class Channels(NamedTuple):
    channels: dict[str, Channel]
    open_ends: tuple[OpenEnd, ...]


class _Walk(NamedTuple):
    """Pieces in order, the jacks at both ends of the walk, and the passive devices between."""

    pieces: list[Piece]
    ends: tuple[str, str]
    through: list[str]


def resolve_channels(
    pieces: dict[str, Piece], field: JackField, devices: dict[str, Device], library: Library
) -> Channels:
    # A jack takes one end of one piece: resolve/ends.py hands out each only once.
    at_jack = {jack: piece for piece in pieces.values() for jack in piece.ends}
    passive = {device.id for device in devices.values() if is_in_line(device)}
    seen: set[str] = set()
    channels: dict[str, Channel] = {}
    open_ends: list[OpenEnd] = []
    for piece_id in sorted(pieces):
        if piece_id in seen:
            continue
        walk = _walk(pieces[piece_id], at_jack, field, passive)
        seen.update([piece.id for piece in walk.pieces])
        loose = [jack for jack in walk.ends if field.jacks[jack].device in passive]
        if loose:
            names = tuple(piece.id for piece in walk.pieces)
            open_ends.extend(OpenEnd(jack, field.jacks[jack].face, names) for jack in loose)
        else:
            channel = _channel(walk, library)
            channels[channel.id] = channel
    return Channels(dict(sorted(channels.items())), tuple(sorted(open_ends)))


def _walk(first: Piece, at_jack: dict[str, Piece], field: JackField, passive: set[str]) -> _Walk:
    """Grow from one piece both ways; a ring of passive things alone ends where it began."""
    walked = {first.id}

    def onward(here: str) -> tuple[list[Piece], list[str], str]:
        """The pieces and devices from a jack on, and the jack at which that ends."""
        pieces: list[Piece] = []
        through: list[str] = []
        while (across := field.partner.get(here)) is not None:
            device, piece = field.jacks[here].device, at_jack.get(across)
            if piece is None or piece.id in walked or device not in passive:
                break
            walked.add(piece.id)
            pieces.append(piece)
            through.append(device)
            here = piece.ends[1] if piece.ends[0] == across else piece.ends[0]
        return pieces, through, here

    after, through_after, last = onward(first.ends[1])
    before, through_before, start = onward(first.ends[0])
    pieces = [*reversed(before), first, *after]
    return _Walk(pieces, (start, last), [*reversed(through_before), *through_after])


def _channel(walk: _Walk, library: Library) -> Channel:
    low, high = walk.ends
    if low > high:
        walk = _Walk(walk.pieces[::-1], (high, low), walk.through[::-1])
        low, high = high, low
    form = library[walk.pieces[0].part].cable
    return Channel(
        f"channel:{ids.path(low)}--{ids.path(high)}",
        min([piece.link for piece in walk.pieces]),
        (low, high),
        tuple([piece.id for piece in walk.pieces]),
        tuple(walk.through),
        len(walk.through),
        form.medium if form is not None else "copper",
    )
