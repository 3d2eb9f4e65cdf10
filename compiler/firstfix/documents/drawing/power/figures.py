"""Watts and bars, as both sheets of power show them."""

import math

from firstfix.documents.drawing.kit import palette, svg
from firstfix.documents.drawing.kit.palette import HAIR, PAPER
from firstfix.parts.facts import Figure, Unknown
from firstfix.units import number

NOT_KNOWN = "? W"
_STRIPE = 3.0


def watts_of(value: float) -> str:
    """To a tenth; what nothing bounds is not known."""
    return f"{number(value, 1)} W" if math.isfinite(value) else NOT_KNOWN


def most_of(figure: Figure) -> str:
    return NOT_KNOWN if isinstance(figure, Unknown) else watts_of(figure.high)


def percent(share: float) -> str:
    return f"{number(100 * share, 0)} %"


def bar(x: float, y: float, width: float, height: float, usual: float, most: float) -> str:
    """A frame for all that may be taken; filled as far as the share that is usual, upright lines as far as the most.

    A share above 1 fills the frame, with a heavy crimson edge; one that isn't known has no lines, and a question mark is written beside.
    """
    over = usual > 1 or (math.isfinite(most) and most > 1)
    end = width * min(1.0, most if math.isfinite(most) else usual)
    full = width * min(1.0, usual)
    parts = [svg.rect(x, y, width, height, fill=PAPER, stroke=HAIR, weight=0.6)]
    stripes = int((end - full) // _STRIPE)
    for index in range(1, stripes + 1):
        at = x + full + index * _STRIPE
        parts.append(svg.line(at, y, at, y + height, palette.Stroke(palette.POWER, 0.8)))
    if full > 0:
        parts.append(svg.rect(x, y, max(0.6, full), height, fill=palette.POWER))
    if end > full + _STRIPE / 2:
        parts.append(svg.rect(x + full, y, end - full, height, stroke=palette.POWER, weight=0.6))
    if over:
        parts.append(svg.rect(x + width - 1.5, y - 1.5, 3, height + 3, fill=palette.ALARM))
    return "".join(parts)


def share(value: float, of: float) -> float:
    return value / of if of > 0 else math.inf
