"""A drawn block before it is put on a sheet."""

from typing import NamedTuple

from firstfix.documents.drawing.kit.palette import Stroke


class Picture(NamedTuple):
    """Markup that fills `width` by `height` points from (0, 0), and what of the key is in it.

    `states`: of jacks, and the tints of things. `samples`: what else the key explains, a sample's markup (12 high, from y = 3),
    its width and its meaning; the same one from several pictures stands there once.
    """

    markup: str
    width: float
    height: float
    strokes: frozenset[Stroke] = frozenset()
    states: frozenset[str] = frozenset()
    samples: tuple[tuple[str, float, str], ...] = ()
