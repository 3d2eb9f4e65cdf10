"""A run in the words by which it is known again when the plan has changed: its cable, its route, what it joins."""

import re
from collections.abc import Mapping

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.hardware import Jack

_WORD = re.compile(r"[^ ,]+")


def are_same(then: str, now: str) -> bool:
    """Whether two such sentences say the same: a renaming may have changed the order of what they list."""
    return then == now or sorted(_WORD.findall(then)) == sorted(_WORD.findall(now))


def as_laid(piece: Piece, jacks: Mapping[str, Jack]) -> str:
    """The same whichever end is written first, and whichever jacks of the two devices it takes.

    "cat6-indoor along skirting, stair-void from out-workroom to panel"
    """
    joined = " to ".join(sorted(ids.path(jacks[end].device) for end in piece.ends))
    ways = ", ".join(sorted(ids.path(way) for way in piece.route))
    return f"{piece.part}{f' along {ways}' if ways else ''} from {joined}"
