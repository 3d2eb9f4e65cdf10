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
    """Pieces in order, and the jacks at both ends of the walk and between."""

    pieces: tuple[Piece, ...]
    jacks: tuple[str, ...]


def resolve_channels(
    pieces: dict[str, Piece], field: JackField, devices: dict[str, Device], library: Library
) -> Channels:
    at_jack: dict[str, list[Piece]] = {}
    for piece in pieces.values():
        for jack in piece.ends:
            at_jack.setdefault(jack, []).append(piece)
    passive = {device.id for device in devices.values() if is_in_line(device)}
    seen: set[str] = set()
    channels: dict[str, Channel] = {}
    open_ends: list[OpenEnd] = []
    for piece_id in sorted(pieces):
        if piece_id in seen:
            continue
        walk = _walk(pieces[piece_id], at_jack, field, passive)
        seen.update(piece.id for piece in walk.pieces)
        ends = (walk.jacks[0], walk.jacks[-1])
        loose = [jack for jack in ends if field.jacks[jack].device in passive]
        if loose:
            names = tuple(piece.id for piece in walk.pieces)
            open_ends.extend(OpenEnd(jack, field.jacks[jack].face, names) for jack in loose)
        else:
            channel = _channel(walk, field, library)
            channels[channel.id] = channel
    return Channels(dict(sorted(channels.items())), tuple(sorted(open_ends)))


def _walk(first: Piece, at_jack: dict[str, list[Piece]], field: JackField, passive: set[str]) -> _Walk:
    """Grow from one piece both ways; a ring of passive things alone ends where it began."""
    pieces = [first]
    jacks = list(first.ends)
    walked = {first.id}
    for forward in (True, False):
        while True:
            here = jacks[-1] if forward else jacks[0]
            across = field.partner.get(here) if field.jacks[here].device in passive else None
            onward = [piece for piece in at_jack.get(across, ()) if piece.id not in walked] if across else []
            if not onward or across is None:
                break
            piece = onward[0]
            walked.add(piece.id)
            beyond = piece.ends[1] if piece.ends[0] == across else piece.ends[0]
            if forward:
                pieces.append(piece)
                jacks += [across, beyond]
            else:
                pieces.insert(0, piece)
                jacks[:0] = [beyond, across]
    return _Walk(tuple(pieces), tuple(jacks))


def _channel(walk: _Walk, field: JackField, library: Library) -> Channel:
    if walk.jacks[0] > walk.jacks[-1]:
        walk = _Walk(walk.pieces[::-1], walk.jacks[::-1])
    through = tuple(field.jacks[jack].device for jack in walk.jacks[1:-1:2])
    low, high = walk.jacks[0], walk.jacks[-1]
    form = library[walk.pieces[0].part].cable
    return Channel(
        f"channel:{ids.path(low)}--{ids.path(high)}",
        min(piece.link for piece in walk.pieces),
        (low, high),
        tuple(piece.id for piece in walk.pieces),
        through,
        len(through),
        form.medium if form is not None else "copper",
    )
