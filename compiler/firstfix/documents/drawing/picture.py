"""A drawn block before it is put on a sheet."""

from typing import NamedTuple

from firstfix.documents.drawing.palette import Stroke


class Picture(NamedTuple):
    """Markup that fills `width` by `height` points from (0, 0), and the kinds of line and of jack in it, for the key."""

    markup: str
    width: float
    height: float
    strokes: frozenset[Stroke] = frozenset()
    states: frozenset[str] = frozenset()
