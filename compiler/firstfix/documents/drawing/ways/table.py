"""The ways as a list: each with its figures, how full it is, and every cable in it by name. Rows are split over sheets, never cut off."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import INK, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.ways.marks import BAR_HEIGHT, bar
from firstfix.documents.drawing.ways.passages import NOTHING, Passage, room_name

_LINE = 9.6
_HEAD = 14.0
_GAP = 8.0
_COLUMNS = (
    ("Way", 92.0),
    ("From – to", 106.0),
    ("Kind", 104.0),
    ("Length", 42.0),
    ("Bore", 42.0),
    ("How full", 108.0),
    ("What runs in it", palette.SHEET_INNER - 494.0 + _GAP),
)
_FULL, _COUNTS = 5, 6
# The names of what runs in a way stand below it, across the sheet; so many lines make one row, what is more goes on in the next.
_INDENT = 12.0
_MOST_LINES = 24
# Fewer rows than this below a graph say little; they all go on the next sheet.
_FEWEST = 3


class Row(NamedTuple):
    """One way, or the continuation of one. `cells`: lines of each column. `names`: lines of what runs in it, one below the other."""

    passage: Passage
    cells: tuple[tuple[str, ...], ...]
    names: tuple[str, ...]

    @property
    def upper(self) -> float:
        """How high the cells are."""
        full = len(self.cells[_FULL]) + bool(self.passage.shares) if len(self.cells) > 1 else 0
        return _LINE * max(full, *map(len, self.cells))

    @property
    def height(self) -> float:
        return 5.0 + self.upper + _LINE * len(self.names)


def rows(build: Build, shown: Sequence[Passage]) -> Iterator[Row]:
    for passage in shown:
        lines = _names(passage)
        yield Row(passage, tuple(_facts(build, passage)), tuple(lines[:_MOST_LINES]))
        for start in range(_MOST_LINES, len(lines), _MOST_LINES):
            name = font.wrap(f"{passage.name} (continued)", palette.SHEET_INNER / 2, TEXT_SIZE, 1)
            yield Row(passage, (name,), tuple(lines[start : start + _MOST_LINES]))


def _facts(build: Build, passage: Passage) -> Iterator[tuple[str, ...]]:
    one, other = (room_name(build, end) for end in passage.ends)
    kind = passage.kind if passage.lies in passage.kind else f"{passage.kind}, {passage.lies}"
    said = (
        (passage.name,),
        (f"{one} – {other}",),
        (kind, passage.passes),
        (passage.length,),
        (passage.bore or "–",),
        (passage.full,),
        passage.counts or (NOTHING,),
    )
    for (_, width), words in zip(_COLUMNS, said, strict=True):
        # Bold letters are wider than `wrap` reckons.
        room = (width - _GAP) * (0.86 if words is said[0] else 1.0)
        yield tuple(line for each in words if each for line in font.wrap(each, room, TEXT_SIZE, 4))


def _names(passage: Passage) -> list[str]:
    """What it is made of in a line of its own, then as many to a line as there is room for."""
    room = palette.SHEET_INNER - _INDENT
    lines = [font.clip(passage.made, room, SMALL_SIZE)] if passage.made else []
    line = ""
    for number, run in enumerate(passage.runs, 1):
        said = font.clip(run, room - 4, SMALL_SIZE) + ("; " if number < len(passage.runs) else "")
        if line and font.width(line + said, SMALL_SIZE) > room:
            lines.append(line.rstrip())
            line = said
        else:
            line += said
    return [*lines, *([line.rstrip()] if line else [])]


def tables(found: Sequence[Row], first: float, tallest: float) -> list[tuple[Picture, tuple[Passage, ...]]]:
    """Pictures of rows: the first at most `first` high, and empty if few rows or none fit there, the others `tallest`."""
    lots: list[list[Row]] = [[]]
    left = first - _HEAD
    for row in found:
        if row.height > left and (lots[-1] or len(lots) == 1):
            lots.append([])
            left = tallest - _HEAD
        lots[-1].append(row)
        left -= row.height
    if len(lots) > 1 and 0 < len(lots[0]) < _FEWEST and first < tallest:
        return tables(found, 0.0, tallest)
    return [(_picture(lot), tuple(dict.fromkeys(row.passage for row in lot))) for lot in lots]


def _picture(lot: Sequence[Row]) -> Picture:
    width = palette.SHEET_INNER
    if not lot:
        return Picture("", 0, 0)
    parts = []
    x = 0.0
    for name, wide in _COLUMNS:
        parts.append(svg.text(x, 9.5, name, SMALL_SIZE, is_bold=True, colour=QUIET))
        x += wide
    top = _HEAD
    for row in lot:
        parts += [svg.hair(0, top, width, top), svg.group(_hint(row.passage), _draw(row, top))]
        top += row.height
    parts.append(svg.hair(0, top, width, top))
    return Picture("".join(parts), width, top)


def _hint(passage: Passage) -> str:
    return palette.BETWEEN.join((passage.name, passage.what, passage.cables, passage.full))


def _draw(row: Row, top: float) -> str:
    parts: list[str] = []
    x = 0.0
    is_whole = len(row.cells) == len(_COLUMNS)
    for column, (lines, (_, width)) in enumerate(zip(row.cells, _COLUMNS, strict=False)):
        colour = palette.ALARM if column == _FULL and row.passage.is_over else INK
        room = width - _GAP + 3 if is_whole else None
        for number, line in enumerate(lines):
            base = top + 10 + _LINE * number
            parts.append(svg.text(x, base, line, TEXT_SIZE, is_bold=column == 0, colour=colour, room=room))
        if column == _FULL and row.passage.shares:
            y = top + 10 + _LINE * len(lines) - BAR_HEIGHT - 0.4
            parts.append(bar(x, y, row.passage.shares, row.passage.is_over, width - 2 * _GAP))
        x += width
    for number, line in enumerate(row.names):
        base = top + 9.6 + row.upper + _LINE * number
        parts.append(svg.text(_INDENT, base, line, SMALL_SIZE, colour=QUIET))
    return "".join(parts)


def in_words(build: Build, shown: Sequence[Passage]) -> str:
    """Each way in one sentence, for who can't see the sheet."""
    said = []
    for passage in shown:
        one, other = (room_name(build, end) for end in passage.ends)
        inside = "; ".join((*passage.counts, *passage.runs)) or NOTHING
        full = passage.full if passage.runs else ""
        facts = ", ".join(filter(None, (passage.what, passage.lies, passage.passes, passage.made, full)))
        said.append(f"{passage.name} from {one} to {other}, {facts}: {inside}.")
    return " ".join(said)
