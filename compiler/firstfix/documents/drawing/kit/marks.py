"""Signs for a sheet of changes: what is new, gone or moved. Each is told by its shape and by a word; sizes are in points."""

from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.palette import (
    CHANGED_STROKE,
    GONE_STROKE,
    INK,
    MOVED_STROKE,
    NAME_SIZE,
    NEW_STROKE,
    PAPER,
    QUIET,
    SMALL_SIZE,
    Stroke,
)

_PLUS = 14.0
# What a plus sign takes before a name.
PLUS_ROOM = 10.0
# What becomes of a thing: words begin so.
NEW, GONE, MOVED, WAS_HERE, CHANGED = "new", "gone", "moved", "was here", "changed"
_STROKES = {
    NEW: NEW_STROKE,
    MOVED: NEW_STROKE,
    GONE: GONE_STROKE,
    WAS_HERE: GONE_STROKE,
    CHANGED: CHANGED_STROKE,
}


def change_stroke(words: str) -> Stroke | None:
    """The outline of a thing that becomes what `words` begin with; None if they begin otherwise."""
    return next((stroke for word, stroke in _STROKES.items() if words.startswith(word)), None)


def in_short(words: str) -> str:
    """Only how `words` begin, if that is what becomes of a thing; else all of them."""
    return next((word for word in _STROKES if words.startswith(word)), words)


def is_struck(words: str) -> bool:
    """Whether the name of what becomes that is struck through."""
    return words.startswith((GONE, WAS_HERE))


def plus(x: float, middle: float) -> str:
    """A plus sign, 7 wide, from `x` on."""
    n = svg.number
    return svg.path(f"M{n(x)} {n(middle)}h7M{n(x + 3.5)} {n(middle - 3.5)}v7", Stroke(INK, 1.4))


def strike(left: float, base: float, width: float, size: float) -> str:
    """A line through a text of `width` that stands on `base`."""
    middle = base - size * 0.3
    return svg.line(left - 1.5, middle, left + width + 1.5, middle, Stroke(QUIET, 0.9))


def new_box(x: float, y: float, width: float, height: float, name: str) -> str:
    """A solid heavy outline, a plus sign at the upper left, the name, and the word at the right."""
    return (
        _outline(x, y, width, height, NEW_STROKE)
        + plus(x + 4, y + height / 2)
        + _named(x + _PLUS, y, width - _PLUS, height, name, "new", INK)
    )


def gone_box(x: float, y: float, width: float, height: float, name: str) -> str:
    """A dashed outline, the name struck through, and the word."""
    room = width - 8 - font.width("gone", SMALL_SIZE) - 10
    wide = font.width(font.clip(name, room, NAME_SIZE, True), NAME_SIZE, True)
    return (
        _outline(x, y, width, height, GONE_STROKE)
        + _named(x + 4, y, width - 4, height, name, "gone", QUIET)
        + svg.line(x + 3, y + height / 2, x + 5 + wide, y + height / 2, Stroke(QUIET, 0.9))
    )


def changed_box(x: float, y: float, width: float, height: float, name: str) -> str:
    """In its place, and another than before: an outline in between, and the word."""
    return _outline(x, y, width, height, CHANGED_STROKE) + _named(
        x + 4, y, width - 4, height, name, CHANGED, INK
    )


def moved_boxes(
    was: tuple[float, float], now: tuple[float, float], width: float, height: float, name: str
) -> str:
    """The thing where it was, dashed, and where it is, solid, joined by an arrow from the right of one to the left of the other."""
    start, end = (was[0] + width, was[1] + height / 2), (now[0], now[1] + height / 2)
    room = width - 8 - font.width(WAS_HERE, SMALL_SIZE) - 10
    wide = font.width(font.clip(name, room, NAME_SIZE, True), NAME_SIZE, True)
    return (
        _outline(*was, width, height, GONE_STROKE)
        + _named(was[0] + 4, was[1], width - 4, height, name, WAS_HERE, QUIET)
        + strike(was[0] + 4, was[1] + height / 2 + 3.2, wide, NAME_SIZE)
        + _outline(*now, width, height, NEW_STROKE)
        + _named(now[0] + 4, now[1], width - 4, height, name, "moved", INK)
        + svg.line(*start, end[0] - 4, end[1], MOVED_STROKE)
        + arrow_head(*end)
    )


def arrow_head(x: float, y: float, colour: str = INK) -> str:
    """The point of an arrow to the right, its tip at (x, y)."""
    n = svg.number
    return svg.element("path", d=f"M{n(x - 5)} {n(y - 3)}L{n(x)} {n(y)}L{n(x - 5)} {n(y + 3)}Z", fill=colour)


def _outline(x: float, y: float, width: float, height: float, stroke: Stroke) -> str:
    return svg.rect(
        x, y, width, height, fill=PAPER, stroke=stroke.colour, weight=stroke.weight, dash=stroke.dash
    )


def _named(x: float, y: float, width: float, height: float, name: str, word: str, colour: str) -> str:
    taken = font.width(word, SMALL_SIZE) + 8
    return svg.text(
        x, y + height / 2 + 3.2, name, NAME_SIZE, is_bold=True, colour=colour, room=width - taken - 6
    ) + svg.text(x + width - 4, y + height / 2 + 2.6, word, SMALL_SIZE, colour=QUIET, anchor="end")
