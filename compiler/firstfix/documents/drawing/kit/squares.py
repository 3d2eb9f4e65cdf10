"""Jacks as small squares with their numbers: one state, one look, in every drawing."""

from typing import NamedTuple

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import HAIR, INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE

FREE, WIRED, POWERED, CABLED_BEHIND = "free", "wired", "powered", "cabled behind"
LEAST_HEIGHT = 8.6
_GAP = 1.0
_NARROW = 5.0
# Less room than this shows nothing of a name that is cut off.
_CLIPPED_LEAST = 20.0


class Square(NamedTuple):
    """A jack's name and one of the four states above."""

    name: str
    state: str


def jack_square(
    x: float, y: float, width: float, height: float, square: Square, size: float = TEXT_SIZE
) -> str:  # fmt: skip
    """One jack, its name in `size`, or in the smallest size, or left out where not even that fits."""
    fill = {WIRED: palette.COPPER, POWERED: palette.POWER}.get(square.state, PAPER)
    is_filled = fill != PAPER
    body = svg.rect(x, y, width, height, fill=fill, stroke=INK if is_filled else HAIR, weight=0.6)
    if square.state == POWERED and width > _NARROW:
        body += svg.rect(x + 1.5, y + 1.5, width - 3, height - 3, stroke=PAPER, weight=0.7)
    elif square.state == POWERED:
        body += svg.rect(x, y + height / 2 - 0.6, width, 1.2, fill=PAPER)
    if square.state == CABLED_BEHIND:
        body += svg.rect(x, y + height - 1.6, width, 1.6, fill=palette.COPPER)
    return body + _name(x + width / 2, y + height / 2, square.name, width - 1, is_filled, size)


def _name(x: float, y: float, name: str, room: float, is_filled: bool, largest: float) -> str:
    size = next(
        (size for size in (largest, SMALL_SIZE) if font.width(font.clean(name), size, is_filled) <= room), 0.0
    )
    if not size and room < _CLIPPED_LEAST:
        return ""
    size = size or SMALL_SIZE
    colour = PAPER if is_filled else QUIET
    return svg.text(
        x, y + size * 0.36, name, size, is_bold=is_filled, colour=colour, anchor="middle", room=room
    )


class SquareRows(NamedTuple):
    """How a device's jacks stand: in rows, each square with its width; `names_fit` tells whether numbers are written."""

    rows: tuple[tuple[Square, ...], ...]
    widths: tuple[tuple[float, ...], ...]
    height: float
    names_fit: bool

    @property
    def size(self) -> tuple[float, float]:
        """Of all rows together, in points."""
        widest = max((sum(row) + _GAP * (len(row) - 1) for row in self.widths), default=0.0)
        return widest, len(self.rows) * (self.height + _GAP) - _GAP


def arrange(squares: tuple[Square, ...], room: float, height: float) -> SquareRows:
    """In `room` by `height` points: one row with numbers if that fits, else two, else one row without numbers."""
    for count in (1, 2):
        row_height = min(13.0, (height - _GAP * (count - 1)) / count)
        rows = _cut(squares, count)
        widths = tuple(tuple(_needed(square) for square in row) for row in rows)
        found = SquareRows(rows, widths, row_height, True)
        if row_height >= LEAST_HEIGHT and found.size[0] <= room:
            return found
    each = max(1.2, min(8.0, (room + _GAP) / max(1, len(squares)) - _GAP))
    bare = tuple(square._replace(name="") for square in squares)
    return SquareRows((bare,), ((each,) * len(bare),), min(height, 9.0), False)


def _cut(squares: tuple[Square, ...], count: int) -> tuple[tuple[Square, ...], ...]:
    per_row = max(1, -(-len(squares) // count))
    return tuple(squares[start : start + per_row] for start in range(0, len(squares), per_row))


def _needed(square: Square) -> float:
    name = font.clean(square.name)
    return max(11.5, font.width(name, SMALL_SIZE, True) + (2.0 if name.isdigit() else 5.0))
