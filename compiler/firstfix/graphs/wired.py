"""What is wired to what, everything live at once: the jacks at the ends of pieces and channels, and what hangs together by them.

From a build. Nearly every rule on wiring asks for this; looking the jacks up again among all those of a big plan, of which most are
empty, takes longer than such a rule does. So each is found once.
"""

from typing import NamedTuple

from firstfix.algorithms.connectivity import Edge, components
from firstfix.build.cabling import Channel, Piece
from firstfix.build.hardware import Jack
from firstfix.build.model import Build
from firstfix.build.once import once_per_build


class WiredPiece(NamedTuple):
    piece: Piece
    near: Jack
    far: Jack


class WiredChannel(NamedTuple):
    channel: Channel
    near: Jack
    far: Jack


@once_per_build
def wired_pieces(build: Build) -> tuple[WiredPiece, ...]:
    """In order of ids."""
    jacks = build.jacks
    return tuple(
        [WiredPiece(each, jacks[near], jacks[far]) for each in build.pieces.values() for near, far in (each.ends,)]
    )  # fmt: skip


@once_per_build
def wired_channels(build: Build) -> tuple[WiredChannel, ...]:
    """In order of ids."""
    jacks = build.jacks
    return tuple(
        [WiredChannel(each, jacks[near], jacks[far]) for each in build.channels.values() for near, far in (each.ends,)]
    )  # fmt: skip


@once_per_build
def wired_jacks(build: Build) -> frozenset[str]:
    """Ids of the jacks, fronts and rears, that a piece comes to."""
    return frozenset([jack for piece in build.pieces.values() for jack in piece.ends])


@once_per_build
def wired_parts(build: Build) -> list[list[str]]:
    """The devices at the ends of channels, by what hangs together: each part sorted, in order of their first devices."""
    edges = [Edge(channel.id, near.device, far.device) for channel, near, far in wired_channels(build)]
    return components({end for edge in edges for end in (edge.a, edge.b)}, edges)
