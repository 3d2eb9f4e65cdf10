"""The two ends of each piece at their jacks: what is plugged in, what is made off, and what of it the channel counts."""

from collections.abc import Iterable, Iterator, Mapping
from operator import itemgetter

from firstfix.build import ids
from firstfix.build.cabling import RUN, Joint, Piece
from firstfix.build.hardware import Device, Jack
from firstfix.parts.part import INLINE_KINDS, TERMINATION_KINDS


def resolve_joints(
    pieces: Iterable[Piece], jacks: Mapping[str, Jack], devices: Mapping[str, Device]
) -> tuple[Joint, ...]:
    """In order of ids."""
    found = [
        joint
        for piece in pieces
        for joint in _joints(piece, [devices[jacks[end].device].part.kind for end in piece.ends])
    ]
    return tuple(sorted(found, key=itemgetter(0)))


def _joints(piece: Piece, kinds: list[str]) -> Iterator[Joint]:
    """At a panel or outlet the wires on the block stand for the connection, at an in-line thing each plug; see Joint."""
    for end, kind in enumerate(kinds):
        on_block = piece.kind == RUN and kind in TERMINATION_KINDS
        how = "wires on block" if on_block else "plug"
        counts = on_block or kind in INLINE_KINDS
        yield Joint(f"joint:{ids.path(piece.id)}@{end}", piece.id, piece.ends[end], how, counts)
