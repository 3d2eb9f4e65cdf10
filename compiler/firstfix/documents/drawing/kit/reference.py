"""How one sheet points to another: a flag with the words "continues on SHEET", and the strip of them below the pictures."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.palette import INK, OUTLINE, PAPER, SMALL_SIZE
from firstfix.documents.drawing.kit.picture import Picture

FLAG_HEIGHT = 12.0
_PAD = 5.0
_TIP = 6.0
_SPACE = 8.0
_LINE = 15.0


class Onward(NamedTuple):
    """`sheet` is the name of a sheet of the set; `what` goes on there, "" for the same thing."""

    sheet: str
    what: str = ""


def words(onward: Onward) -> str:
    return f"{onward.what} continues on {onward.sheet}" if onward.what else f"continues on {onward.sheet}"


def flag_width(onward: Onward) -> float:
    return font.width(font.clean(words(onward)), SMALL_SIZE) + 2 * _PAD + _TIP


def flag(x: float, y: float, onward: Onward, room: float | None = None) -> str:
    """A box with a pointed right end, its upper left corner at (x, y), FLAG_HEIGHT high; no wider than `room`."""
    width = flag_width(onward) if room is None else min(room, flag_width(onward))
    right, middle, bottom = x + width, y + FLAG_HEIGHT / 2, y + FLAG_HEIGHT
    n = svg.number
    outline = f"M{n(x)} {n(y)}H{n(right - _TIP)}L{n(right)} {n(middle)}L{n(right - _TIP)} {n(bottom)}H{n(x)}Z"
    return svg.group(
        words(onward),
        svg.element("path", d=outline, fill=PAPER, stroke=INK, stroke_width=OUTLINE),
        svg.text(x + _PAD, y + 8.6, words(onward), SMALL_SIZE, room=width - 2 * _PAD - _TIP + 1),
    )


def flags(onward: Sequence[Onward], width: float) -> Picture:
    """Flags side by side, in as many lines as they take; empty without any."""
    parts: list[str] = []
    x, y = 0.0, 0.0
    for each in onward:
        wide = min(width, flag_width(each))
        if x and x + wide > width:
            x, y = 0.0, y + _LINE
        parts.append(flag(x, y, each, width))
        x += wide + _SPACE
    return Picture("".join(parts), width, y + FLAG_HEIGHT) if parts else Picture("", 0, 0)
