"""One thing of a change as a card: its outline and a word tell what becomes of it, and its rows which of its jacks change.

Takes words; gives a card with its size in whole points, and markup. What is new has a heavy outline and a plus sign; what is gone a
dashed one and its name struck through; what only stands by for the others is drawn in hairlines.
"""

from collections.abc import Iterable
from math import ceil
from typing import NamedTuple

from firstfix.compare.changes import CHANGED, GONE, MOVED, NEW, SAME
from firstfix.documents.drawing.change.strands import WAS
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.marks import PLUS_ROOM, arrow_head, plus, strike
from firstfix.documents.drawing.kit.palette import (
    CHANGED_STROKE,
    GONE_STROKE,
    HAIR,
    INK,
    MOVED_STROKE,
    NAME_SIZE,
    NEW_STROKE,
    PAPER,
    QUIET,
    SMALL_SIZE,
    TEXT_SIZE,
    Stroke,
)
from firstfix.documents.drawing.kit.squares import FREE, POWERED, WIRED, Square, jack_square

NARROWEST, WIDEST = 128.0, 204.0
_PAD = 5.0
_LINE = 9.6
_TAB_LEAST, _TAB_MOST = 16.0, 40.0
_APART = 0.8
_MOST_LINES = 4
# What is moved is drawn as it stands now.
OUTLINES = {
    NEW: NEW_STROKE,
    MOVED: NEW_STROKE,
    GONE: GONE_STROKE,
    WAS: GONE_STROKE,
    CHANGED: CHANGED_STROKE,
    SAME: Stroke(HAIR, 0.8),
}
WORDS = {NEW: "new", MOVED: "moved", GONE: "gone", WAS: "was here", CHANGED: "changed", SAME: "stays"}


class Row(NamedTuple):
    """One jack. `side` is where its square stands, "" for a remark that is all in `lines`. `state` and `word` are a strand's."""

    jack: str
    side: str
    state: str
    word: str
    name: str
    lines: tuple[str, ...]
    is_powered: bool
    hint: str

    @property
    def height(self) -> int:
        return ceil(13 + _LINE * len(self.lines)) if self.side else 13


class Card(NamedTuple):
    """`tint` lies under its head. `lines` stand below the name. `hint` is the whole in words. All whole points."""

    name: str
    state: str
    tint: str
    lines: tuple[str, ...]
    rows: tuple[Row, ...]
    hint: str
    width: int
    tab: int
    word: str

    @property
    def head(self) -> int:
        return ceil(17 + _LINE * len(self.lines)) + (2 if self.lines else 0)

    @property
    def heights(self) -> tuple[int, ...]:
        return (self.head, *(row.height for row in self.rows))

    @property
    def height(self) -> int:
        return sum(self.heights)


def make_card(
    name: str,
    state: str,
    tint: str,
    said: Iterable[str],
    rows: Iterable[Row],
    width: int = 0,
    widest: float = WIDEST,
    word: str = "",
) -> Card:
    """Measure; what is said is broken into lines. `width` 0: as wide as its words ask for, within limits. `word`: instead of the state's."""
    said, rows, word = tuple(said), tuple(rows), word or WORDS[state]
    tab = ceil(
        max([_TAB_LEAST, *(min(font.width(row.jack, TEXT_SIZE, True) + 6, _TAB_MOST) for row in rows)])
    )
    wide = width or ceil(min(widest, max(NARROWEST, *_wanted(name, word, said, rows, tab))))
    room = wide - 2 * _PAD
    lines = tuple(line for words in said for line in font.wrap(words, room, SMALL_SIZE, 3))
    broken = tuple(
        row._replace(
            lines=tuple(
                line
                for words in row.lines
                for line in font.wrap(words, room - (tab if row.side else 0), SMALL_SIZE, _MOST_LINES)
            )
        )
        for row in rows
    )
    hint = palette.BETWEEN.join((name, word, *said))
    ground = tint if state not in (GONE, WAS) else PAPER
    return Card(name, state, ground, lines, broken, hint, wide, tab, word)


def _wanted(name: str, word: str, said: Iterable[str], rows: Iterable[Row], tab: float) -> Iterable[float]:
    yield PLUS_ROOM + font.width(name, NAME_SIZE, True) + font.width(word, SMALL_SIZE, True) + 3 * _PAD
    yield from (font.width(words, SMALL_SIZE) * 0.55 + 2 * _PAD for words in said)
    for row in rows:
        words = font.width(row.name, TEXT_SIZE, True) + font.width(row.word, SMALL_SIZE, True)
        first = words + PLUS_ROOM + 4 * _PAD
        yield first + tab
        yield from (font.width(words, SMALL_SIZE) * 0.4 + 2 * _PAD + tab for words in row.lines)


def draw_card(card: Card, x: float, y: float) -> str:
    """Its upper left corner at (x, y)."""
    outline, is_quiet = OUTLINES[card.state], card.state == SAME
    parts = [
        svg.rect(x, y, card.width, card.height, fill=PAPER),
        svg.rect(x, y, card.width, card.head, fill=PAPER if is_quiet else card.tint),
        _head(card, x, y),
    ]
    top = y + card.head
    for row in card.rows:
        parts += [svg.hair(x, top, x + card.width, top), _row(row, x, top, card.width, card.tab)]
        top += row.height
    parts.append(
        svg.rect(
            x, y, card.width, card.height, stroke=outline.colour, weight=outline.weight, dash=outline.dash
        )
    )
    return svg.group(card.hint, *parts)


def _head(card: Card, x: float, y: float) -> str:
    parts = [named(card.name, card.state, card.word, x + _PAD, x + card.width - _PAD, y + 12, NAME_SIZE)]
    for number, line in enumerate(card.lines):
        parts.append(svg.text(x + _PAD, y + 21.5 + _LINE * number, line, SMALL_SIZE, colour=QUIET))
    return "".join(parts)


def named(name: str, state: str, word: str, left: float, right: float, base: float, size: float) -> str:
    """A plus sign for what is new, the name, struck through if it is gone, and the word at the right."""
    parts, start = [], left
    if state == NEW:
        parts.append(plus(left, base - size * 0.36))
        start += PLUS_ROOM
    is_loud = state in (NEW, MOVED, CHANGED)
    taken = font.width(word, SMALL_SIZE, is_loud) + _PAD
    is_gone = state in (GONE, WAS)
    shown = font.clip(name, right - taken - start, size, True)
    colour = QUIET if is_gone or state == SAME else INK
    parts.append(svg.text(start, base, shown, size, is_bold=True, colour=colour))
    if is_gone and shown:
        parts.append(strike(start, base, font.width(shown, size, True), size))
    parts.append(
        svg.text(
            right, base, word, SMALL_SIZE, is_bold=is_loud, colour=INK if is_loud else QUIET, anchor="end"
        )
    )
    return "".join(parts)


def _row(row: Row, x: float, y: float, width: float, tab: float) -> str:
    if not row.side:
        return "".join(svg.text(x + _PAD, y + 9.6, line, SMALL_SIZE, colour=QUIET) for line in row.lines)
    is_left = row.side == "left"
    left, right = (x + tab + _PAD, x + width - _PAD) if is_left else (x + _PAD, x + width - tab - _PAD)
    is_free = row.state in (GONE, WAS)
    square = Square(row.jack, FREE if is_free else POWERED if row.is_powered else WIRED)
    tab_x = x if is_left else x + width - tab
    parts = [
        jack_square(tab_x, y + _APART, tab, row.height - 2 * _APART, square),
        named(row.name, row.state, row.word, left, right, y + 9.8, TEXT_SIZE),
    ]
    for number, line in enumerate(row.lines):
        parts.append(svg.text(left, y + 19.2 + _LINE * number, line, SMALL_SIZE, colour=QUIET))
    return svg.group(row.hint, *parts)


_SAMPLE = 26.0


def _sample(state: str, words: str) -> tuple[str, float, str]:
    line = OUTLINES[state]
    box = svg.rect(1, 4, _SAMPLE - 2, 10, fill=PAPER, stroke=line.colour, weight=line.weight, dash=line.dash)
    return box, _SAMPLE, words


SAMPLES = {
    NEW: _sample(NEW, "new, also marked +"),
    GONE: _sample(GONE, "gone, or where it was"),
    WAS: _sample(GONE, "gone, or where it was"),
    MOVED: (
        svg.line(0, 9, _SAMPLE - 4, 9, MOVED_STROKE) + arrow_head(_SAMPLE, 9),
        _SAMPLE,
        "moved: from where it was to where it is",
    ),
    CHANGED: _sample(CHANGED, "changed, re-run or re-patched"),
    SAME: _sample(SAME, "stays where it is"),
}
