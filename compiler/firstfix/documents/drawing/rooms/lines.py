"""The lines of a room's card, each drawn: its head, a cabinet, a thing, an outlet's opening, cords, the mains.

All are as wide as a column of the sheet; a line knows its height, and the same in words.
"""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.paints import BY_WORD
from firstfix.documents.drawing.kit.palette import BETWEEN, INK, NAME_SIZE, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.squares import Square, jack_square
from firstfix.documents.drawing.numbered import WIDEST
from firstfix.documents.drawing.rooms.signs import SIGN, WORDS, sign

BETWEEN_COLUMNS = 14.0
WIDTH = (WIDEST - BETWEEN_COLUMNS) / 2
_PAD, _LINE = 4.0, 9.4
_HEAD, _ROW = 17.0, 13.4
_BASE = 9.6
# Where names begin, and what is said of a thing; what is at the right of it.
_NAME = _PAD + SIGN + 4
_SAID = _NAME + 102
_RIGHT = 62.0
_STEP = 12.0
_UNITS = 29.0
_SQUARE, _WIDEST_SQUARE = 15.0, 54.0
_SWATCH = 8.0


class Line(NamedTuple):
    """`is_kept`: it stays with the line after it. `standings`, `states`: what of the key is in it.

    `inside`: the cabinet that it is in, which is named again where a card goes on with it.
    """

    markup: str
    height: float
    words: str
    is_kept: bool = False
    standings: tuple[str, ...] = ()
    states: tuple[str, ...] = ()
    inside: str = ""


class Said(NamedTuple):
    """A thing: its sign, where it stands in its cabinet, its name ("" for a fitting), what it is, and its phase."""

    standing: str
    units: str
    name: str
    what: str
    phase: str

    @property
    def words(self) -> str:
        said = ", ".join(filter(None, (self.units, self.what, WORDS[self.standing], self.phase)))
        return f"{self.name}: {said}" if self.name else said


def head(name: str, beside: str, is_again: bool = False) -> Line:
    """The room's name in a band across the column."""
    shown = f"{name} (continued)" if is_again else name
    beside_ = font.clip(beside, WIDTH * 0.55, SMALL_SIZE)
    room = WIDTH - 3 * _PAD - font.width(beside_, SMALL_SIZE)
    return Line(
        svg.rect(0, 0, WIDTH, _HEAD, fill=palette.FIELD)
        + svg.text(_PAD, 12, shown, NAME_SIZE, is_bold=True, room=room)
        + svg.text(WIDTH - _PAD, 12, beside_, SMALL_SIZE, colour=QUIET, anchor="end"),
        _HEAD,
        "" if is_again else f"{name}, {beside}:",
        is_kept=True,
    )


def cabinet(said: Said) -> Line:
    """What stands in it follows, stepped in."""
    return _thing(said, 0.0, palette.PASSIVE_BAND)._replace(is_kept=True)


def in_cabinet(said: Said, cabinet: str) -> Line:
    return _thing(said, _UNITS)._replace(inside=cabinet)


def still_in(cabinet: str) -> Line:
    """Above what goes on in another column."""
    name = f"{cabinet} (continued)"
    return Line(
        svg.rect(0, 0, WIDTH, _ROW, fill=palette.PASSIVE_BAND)
        + svg.text(_NAME, _BASE, name, TEXT_SIZE, is_bold=True, room=WIDTH - _NAME - _PAD),
        _ROW,
        "",
    )


def thing(said: Said, is_kept: bool = False) -> Line:
    return _thing(said, 0.0)._replace(is_kept=is_kept)


def _thing(said: Said, step: float, tint: str = "") -> Line:
    """What it is stands beside the name, or below a long one, in as many lines as it takes, up to four."""
    left, right = _NAME + step, WIDTH - _RIGHT
    is_beside = not said.name or font.width(font.clean(said.name), TEXT_SIZE, True) <= _SAID - left - 4
    at = _SAID if said.name and is_beside else left
    below = 0 if is_beside else 1
    what, status = _what_and_status(said, right - at - _PAD)
    height = _ROW + _LINE * (max(len(what) + below, len(status)) - 1)
    parts = [svg.rect(0, 0, WIDTH, height, fill=tint)] if tint else []
    parts += [
        svg.hair(0, 0, WIDTH, 0),
        sign(said.standing, _PAD, 6.8),
        svg.text(_NAME, _BASE, said.units, SMALL_SIZE, colour=QUIET, room=_UNITS - 3),
        svg.text(left, _BASE, said.name, TEXT_SIZE, is_bold=True, room=right - left - _PAD),
        *_small(at, what, QUIET if said.name else INK, below),
        *_small(right, status[:1], INK),
        *_small(right, status[1:], QUIET, 1),
    ]
    return Line(svg.group(said.words, *parts), height, f"{said.words};", standings=(said.standing,))


def _what_and_status(said: Said, room: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The phase stands below the word at the right, or, where that saves a line, beside what a thing is."""
    word = WORDS[said.standing]
    both = BETWEEN.join(filter(None, (said.what, said.phase)))
    if font.width(font.clean(both), SMALL_SIZE) <= room:
        return (font.clean(both),), (word,)
    return font.wrap(said.what, room, SMALL_SIZE, 4), (
        word,
        *font.wrap(said.phase, _RIGHT - _PAD, SMALL_SIZE, 2),
    )


def _small(x: float, lines: Sequence[str], colour: str, first: int = 0) -> list[str]:
    """Lines in the smallest size from `x` on, the first of them that many lines down."""
    return [
        svg.text(x, _BASE + _LINE * (first + n), line, SMALL_SIZE, colour=colour)
        for n, line in enumerate(lines)
    ]


class Plugged(NamedTuple):
    """What is in an opening's front, and the cord that leads there: `colour` a word or "", `length` as text."""

    to: str
    colour: str
    length: str


def opening(squares: Sequence[Square], behind: str, plugged: Plugged | None, note: str) -> Line:
    """One opening in use, or several in a row that are alike. `behind`: the run, or ""; `note` where nothing is plugged in."""
    parts, x = list[str](), _NAME + _STEP
    for square in squares:
        wide = max(_SQUARE, font.width(font.clean(square.name), SMALL_SIZE, True) + 5)
        wide = min(wide, _WIDEST_SQUARE)
        parts.append(jack_square(x, 1.4, wide, 10.6, square, SMALL_SIZE))
        x += wide + 2
    middle = max(x + 4, _SAID + 70)
    parts.append(svg.text(x + 4, _BASE, behind, SMALL_SIZE, room=middle - x - 8))
    if plugged is None:
        at = middle if behind else x + 4
        parts.append(svg.text(at, _BASE, note, SMALL_SIZE, colour=QUIET, room=WIDTH - at - _PAD))
    else:
        parts += _cord(plugged, middle)
    names = ", ".join(square.name for square in squares)
    front = f"{plugged.to} by {plugged.colour} cord, {plugged.length}" if plugged else note
    words = f"opening {names}: " + ", ".join(filter(None, (behind, " ".join(front.split()))))
    return Line(svg.group(words, *parts), _ROW, f"{words};", states=tuple(each.state for each in squares))


def _cord(plugged: Plugged, x: float) -> list[str]:
    """The cord's colour and length at the right, what it leads to before that."""
    cord = f"{plugged.colour} cord {plugged.length}".strip()
    wide = font.width(cord, SMALL_SIZE)
    right = WIDTH - _PAD
    parts = [svg.text(right, _BASE, cord, SMALL_SIZE, colour=QUIET, anchor="end")]
    right -= wide + 3
    if plugged.colour:
        right -= _SWATCH
        parts.append(swatch(plugged.colour, right, 2.8))
        right -= 4
    return [svg.text(x, _BASE, plugged.to, TEXT_SIZE, room=right - x - 2), *parts]


def swatch(colour: str, x: float, y: float) -> str:
    paint = BY_WORD.get(colour)
    return svg.rect(x, y, _SWATCH, _SWATCH, fill=paint.role, stroke=INK, weight=0.5) if paint else ""


def cords(standing: str, count: int, colour: str, length: str, title: str) -> Line:
    """So many equal cords."""
    name = f"{count} cord{'' if count == 1 else 's'}, {length}"
    shown = colour or "any colour"
    at, right = _NAME + 70.0, WIDTH - _RIGHT
    word_at = at + _SWATCH + 3 if colour else at
    parts = [
        svg.hair(0, 0, WIDTH, 0),
        sign(standing, _PAD, 6.8),
        svg.text(_NAME, _BASE, name, TEXT_SIZE, room=at - _NAME - 2),
        swatch(colour, at, 2.8),
        svg.text(word_at, _BASE, shown, SMALL_SIZE, room=_SAID + 20 - word_at - 3),
    ]
    title_at = _SAID + 20
    what = font.wrap(title, right - title_at - _PAD, SMALL_SIZE, 2)
    parts += _small(title_at, what, QUIET)
    parts.append(svg.text(right, _BASE, WORDS[standing], SMALL_SIZE, room=_RIGHT - _PAD))
    words = f"{name}, {shown}, {title}, {WORDS[standing]}"
    return Line(
        svg.group(words, *parts),
        _ROW + _LINE * (len(what) - 1),
        f"{words};",
        standings=(standing,),
    )


def remark(name: str, words: str) -> Line:
    """A name in bold and what is said of it, in up to four lines."""
    shown = font.clip(name, WIDTH / 2, TEXT_SIZE, True)
    at = _NAME + font.width(shown, TEXT_SIZE, True) + 6
    lines = font.wrap(words, WIDTH - at - _PAD, SMALL_SIZE, 4)
    parts = [svg.hair(0, 0, WIDTH, 0), svg.text(_NAME, _BASE, shown, TEXT_SIZE, is_bold=True)]
    parts += _small(at, lines, QUIET)
    said = f"{name} {words}"
    return Line(svg.group(said, *parts), _ROW + _LINE * (max(1, len(lines)) - 1), f"{said};")
