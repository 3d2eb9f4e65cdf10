"""Rows under column heads, for sheets that are lists: measured, split over sheets, never shrunk.

Takes columns and rows; gives pictures no taller than asked for. A row that begins a group is repeated where the group goes on.
"""

from collections.abc import Iterable, Sequence
from itertools import takewhile
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import INK, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture

ROW_HEIGHT = 13.0
GROUP_HEIGHT = 17.0
HEADS_HEIGHT = 13.0
_PAD = 4.0
# A group that begins with less at the foot of a sheet begins on the next one.
_FEWEST_OF_GROUP = 3


class Column(NamedTuple):
    """`width` in points, the space to the next column included."""

    head: str
    width: float
    is_right: bool = False


class Cell(NamedTuple):
    words: str
    colour: str = INK
    is_bold: bool = False
    size: float = TEXT_SIZE


class Row(NamedTuple):
    """One line. `tint` lies under all of it. A group's row has one cell, which takes the whole width, and `beside` at the right.

    `is_more`: it goes on with the one above, with no line between.
    """

    cells: tuple[Cell, ...]
    tint: str = ""
    is_group: bool = False
    beside: str = ""
    is_more: bool = False

    @property
    def height(self) -> float:
        return GROUP_HEIGHT if self.is_group else ROW_HEIGHT

    @property
    def hint(self) -> str:
        return palette.BETWEEN.join(filter(None, (*(cell.words for cell in self.cells), self.beside)))


def group(words: str, beside: str = "") -> Row:
    """The row that names what follows."""
    return Row((Cell(words, is_bold=True, size=palette.NAME_SIZE),), palette.BAND, True, beside)


def quiet(words: str) -> Cell:
    return Cell(words, QUIET, size=SMALL_SIZE)


def split(rows: Iterable[Row], tallest: float, first: float | None = None) -> tuple[tuple[Row, ...], ...]:
    """Rows in lots that are each at most `tallest` points with the heads, the `first` lot as much as is left on its sheet.

    No group's row stands last on a sheet.
    """
    lots: list[list[Row]] = [[]]
    room = tallest - HEADS_HEIGHT - 1
    left = room if first is None else first - HEADS_HEIGHT - 1
    current: Row | None = None
    rows = list(rows)
    for place, row in enumerate(rows):
        needed = row.height + _needed_below(rows, place)
        if lots[-1] and needed > left:
            lots.append([])
            left = room
            if current is not None and not row.is_group:
                again = _continued(current)
                lots[-1].append(again)
                left -= again.height
        if row.is_group:
            current = row
        lots[-1].append(row)
        left -= row.height
    return tuple(tuple(lot) for lot in lots if lot)


def _needed_below(rows: Sequence[Row], place: int) -> float:
    """The height of what must stand on the same sheet: a group's first few rows, and all that a row goes on with."""
    if rows[place].is_group:
        own = list(takewhile(lambda each: not each.is_group, rows[place + 1 : place + 1 + _FEWEST_OF_GROUP]))
        return sum(each.height for each in own) + (
            _needed_below(rows, place + len(own)) if own else ROW_HEIGHT
        )
    if rows[place].is_more:
        return 0.0
    return sum(each.height for each in takewhile(lambda each: each.is_more, rows[place + 1 :]))


def _continued(row: Row) -> Row:
    first = row.cells[0]
    return row._replace(cells=(first._replace(words=f"{first.words} (continued)"),))


def listing(columns: Sequence[Column], rows: Sequence[Row]) -> Picture:
    """Column heads, rows with a hairline between, all as wide as the columns together."""
    width = sum(column.width for column in columns)
    parts = [_heads(columns)]
    top = HEADS_HEIGHT
    for row in rows:
        parts.append(_draw(columns, row, top, width))
        top += row.height
    parts.append(svg.hair(0, top, width, top))
    return Picture("".join(parts), width, top + 1)


def _heads(columns: Sequence[Column]) -> str:
    parts, x = [], 0.0
    for column in columns:
        parts.append(_words(Cell(column.head, QUIET, True, SMALL_SIZE), column, x, 9.0))
        x += column.width
    return "".join(parts)


def _draw(columns: Sequence[Column], row: Row, top: float, width: float) -> str:
    parts = [svg.rect(0, top, width, row.height, fill=row.tint)] if row.tint else []
    parts.append("" if row.is_more else svg.hair(0, top, width, top))
    if row.is_group:
        parts.append(_group(row, top, width))
    else:
        x = 0.0
        for column, cell in zip(columns, row.cells, strict=True):
            parts.append(_words(cell, column, x, top + 9.6))
            x += column.width
    return svg.group(row.hint, *parts)


def _group(row: Row, top: float, width: float) -> str:
    first = row.cells[0]
    beside = font.clip(row.beside, width * 0.62, SMALL_SIZE)
    room = width - 3 * _PAD - font.width(beside, SMALL_SIZE)
    return svg.text(
        _PAD, top + 12, first.words, first.size, is_bold=True, colour=first.colour, room=room
    ) + svg.text(width - _PAD, top + 12, beside, SMALL_SIZE, colour=QUIET, anchor="end")


def _words(cell: Cell, column: Column, x: float, base: float) -> str:
    room = column.width - 2 * _PAD
    at, anchor = (x + column.width - _PAD, "end") if column.is_right else (x + _PAD, "")
    return svg.text(
        at,
        base,
        cell.words,
        cell.size,
        is_bold=cell.is_bold,
        colour=cell.colour,
        anchor=anchor,
        room=room,
    )
