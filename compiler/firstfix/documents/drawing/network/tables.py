"""A hub drawn as a table: a band with its name, and a row for each jack in use with the device that hangs on it."""

import re
from collections.abc import Iterable
from math import ceil
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import INK, NAME_SIZE, QUIET, SMALL_SIZE, TEXT_SIZE, Stroke
from firstfix.documents.drawing.kit.squares import POWERED, WIRED, Square, jack_square

NARROWEST, WIDEST = 150.0, 262.0
_LINE = 10.0
_PAD = 5.0
_TAB_LEAST, _TAB_MOST = 16.0, 40.0
_STUB = 13.0
_APART = 0.8
_GAP = 8.0
# For what stands under the name of a row, in a table as wide as they get and whatever its jacks are called.
_SHEET = re.compile("^(on [^ ]+-)[0-9]+")
_UNDER_ROOM = WIDEST - _TAB_MOST - 2 * _PAD - 1


class Entry(NamedTuple):
    """One row. `side` is where its jack's tab stands: left, right, or "" for a row that is a remark in `under` or, with a `name`, a
    heading.

    `stroke` draws the stub from the tab to the name, for a device that hangs there. `hint` is the whole in words.
    """

    tab: str
    side: str
    stroke: Stroke | None
    name: str
    where: str
    length: str
    under: str
    power: str
    is_powered: bool
    hint: str

    @property
    def below(self) -> tuple[str, ...]:
        """The lines under the first one."""
        if self.lines == 1:
            return ()
        return (self.under,) if self.lines == 2 else font.wrap(self.under, self._room_below, SMALL_SIZE, 2)

    @property
    def _room_below(self) -> float:
        return _UNDER_ROOM - _spaced(self.power, SMALL_SIZE, _GAP)

    @property
    def lines(self) -> int:
        """Two for `under` where the widest table has no room for it in one: whatever the number of the sheet in it, so that a row is as
        tall before sheets have their numbers as it is after."""
        if not (self.name and self.under):
            return 1
        longest = _SHEET.sub(r"\g<1>100", self.under)
        return 3 if self.side and font.width(longest, SMALL_SIZE) > self._room_below else 2

    @property
    def height(self) -> int:
        return 14 + 10 * (self.lines - 1)


class Table(NamedTuple):
    """A whole table, or one column of a tall one. `heads` are the lines of its band, the name first; `tab` is how wide
    the tabs of its jacks are. All whole points."""

    heads: tuple[str, ...]
    entries: tuple[Entry, ...]
    hint: str
    width: int
    tab: int

    @property
    def head_height(self) -> int:
        return ceil(8 + _LINE * len(self.heads))

    @property
    def heights(self) -> tuple[int, ...]:
        return (self.head_height, *(entry.height for entry in self.entries))


def make_table(
    name: str, said: Iterable[str], entries: tuple[Entry, ...], hint: str, narrowest: float = NARROWEST
) -> Table:
    """Measure. A table is as wide as its name and its rows ask for; what else is `said` in the band gets two lines each."""
    tabs = (min(font.width(entry.tab, TEXT_SIZE, True) + 6, _TAB_MOST) for entry in entries)
    tab = ceil(max((_TAB_LEAST, *tabs)))
    wanted = [_entry_width(entry, tab) for entry in entries]
    width = ceil(min(WIDEST, max(narrowest, font.width(name, NAME_SIZE, True) + 2 * _PAD, *wanted)))
    wrapped = (line for words in said for line in font.wrap(words, width - 2 * _PAD, SMALL_SIZE, 2))
    return Table((name, *wrapped), entries, hint, width, tab)


def _entry_width(entry: Entry, tab: float) -> float:
    if not entry.side and not entry.name:
        return font.width(entry.under, SMALL_SIZE) + 2 * _PAD + 1
    if not entry.side:
        beside = _spaced(entry.where, SMALL_SIZE, 4) + _spaced(entry.length, TEXT_SIZE, _GAP)
        return font.width(entry.name, TEXT_SIZE, True) + beside + 2 * _PAD + 3
    first = font.width(entry.name, TEXT_SIZE, True) + (_STUB if entry.stroke else 0)
    first += _spaced(entry.where, SMALL_SIZE, 4) + _spaced(entry.length, TEXT_SIZE, _GAP)
    below = entry.below
    # In two lines it takes as much as in one, so that a longer name of a sheet never makes a table narrower.
    second = min(font.width(entry.under, SMALL_SIZE), _UNDER_ROOM) if below else 0.0
    power = _spaced(entry.power, SMALL_SIZE, _GAP)
    first, second = (first, second + power) if below else (first + power, second)
    return max(first, second) + tab + 2 * _PAD + 1


def _spaced(text: str, size: float, gap: float) -> float:
    return font.width(text, size) + gap if text else 0.0


def draw_table(table: Table, x: float, y: float) -> str:
    """The markup of `table` with its upper left corner at (x, y)."""
    width, height = table.width, sum(table.heights)
    parts = [svg.rect(x, y, width, height, fill=palette.PAPER), _band(table, x, y)]
    top = y + table.head_height
    for entry in table.entries:
        parts += [svg.hair(x, top, x + width, top), draw_entry(entry, x, top, width, table.tab)]
        top += entry.height
    parts.append(svg.rect(x, y, width, height, stroke=INK, weight=palette.OUTLINE))
    return svg.group(table.hint, *parts)


def _band(table: Table, x: float, y: float) -> str:
    room = table.width - 2 * _PAD
    parts = [svg.rect(x, y, table.width, table.head_height, fill=palette.BAND)]
    base = y + 11
    for index, line in enumerate(table.heads):
        size, colour = (NAME_SIZE, INK) if index == 0 else (SMALL_SIZE, QUIET)
        parts.append(svg.text(x + _PAD, base, line, size, is_bold=index == 0, colour=colour, room=room))
        base += _LINE
    return "".join(parts)


def draw_entry(entry: Entry, x: float, y: float, width: float, tab: float) -> str:
    """One row of a table `width` wide, its upper left corner at (x, y)."""
    if not entry.side and entry.name:
        return svg.group(entry.hint, _first_line(entry, x + _PAD, x + width - _PAD, y + 10))
    if not entry.side:
        return svg.text(x + _PAD, y + 9.8, entry.under, SMALL_SIZE, colour=QUIET, room=width - 2 * _PAD)
    left, right = (x + tab, x + width) if entry.side == "left" else (x, x + width - tab)
    tab_x = x if entry.side == "left" else x + width - tab
    square = Square(entry.tab, POWERED if entry.is_powered else WIRED)
    # Apart from the one above and the one below: in black and white they would be one column.
    parts = [jack_square(tab_x, y + _APART, tab, entry.height - 2 * _APART, square)]
    start, base = left + _PAD, y + 10
    if entry.stroke:
        parts.append(svg.line(left, base - 3, left + _PAD + _STUB - 4, base - 3, entry.stroke))
        start += _STUB
    parts += [
        _first_line(entry, start, right - _PAD, base),
        _lines_below(entry, left + _PAD, right - _PAD, base + _LINE - 0.2),
    ]
    return svg.group(entry.hint, *parts)


def _first_line(entry: Entry, left: float, right: float, base: float) -> str:
    power = "" if entry.lines > 1 else font.clip(entry.power, (right - left) * 0.4, SMALL_SIZE)
    power_right = right - _spaced(entry.length, TEXT_SIZE, 6)
    room = power_right - left - (_spaced(power, SMALL_SIZE, _GAP) or 2)
    name = font.clip(entry.name, room, TEXT_SIZE, True)
    after = left + font.width(name, TEXT_SIZE, True) + 4
    return (
        svg.text(left, base, name, TEXT_SIZE, is_bold=True)
        + svg.text(after, base, entry.where, SMALL_SIZE, colour=QUIET, room=room - (after - left))
        + svg.text(power_right, base, power, SMALL_SIZE, colour=palette.POWER, anchor="end")
        + svg.text(right, base, entry.length, TEXT_SIZE, anchor="end")
    )


def _lines_below(entry: Entry, left: float, right: float, base: float) -> str:
    below = entry.below
    if not below:
        return ""
    power = font.clip(entry.power, (right - left) * 0.6, SMALL_SIZE)
    room = right - left - _spaced(power, SMALL_SIZE, _GAP)
    words = (
        svg.text(left, base + _LINE * number, line, SMALL_SIZE, colour=QUIET, room=room)
        for number, line in enumerate(below)
    )
    return "".join(words) + svg.text(right, base, power, SMALL_SIZE, colour=palette.POWER, anchor="end")
