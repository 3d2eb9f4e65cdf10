"""One sheet with every sign of the drawings, each with its name: for the page on the visual language."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.build.hardware import IN_PLACE, IN_STOCK
from firstfix.documents.drawing.kit import marks, palette, squares, svg
from firstfix.documents.drawing.kit.key import MEANINGS as LINES
from firstfix.documents.drawing.kit.page import page
from firstfix.documents.drawing.kit.palette import (
    ALARM_DASH,
    HAIR,
    HAIRLINE,
    INK,
    NAME_SIZE,
    OUTLINE,
    QUIET,
    SMALL_SIZE,
    Stroke,
    wire_stroke,
)
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward, flag
from firstfix.documents.drawing.kit.squares import Square, jack_square
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.power.figures import bar as power_bar
from firstfix.documents.drawing.rooms.signs import MEANINGS, WORDS, sign
from firstfix.documents.drawing.tree.picture import letter
from firstfix.documents.drawing.vlans.carriers import TAGGED, UNTAGGED
from firstfix.documents.drawing.vlans.carriers import square as jack_in_vlan
from firstfix.documents.drawing.vlans.matrix import mark
from firstfix.documents.drawing.ways.marks import bar as way_bar
from firstfix.documents.drawing.ways.marks import pipe
from firstfix.documents.drawing.ways.passages import EXPOSURES

_NAME = "visual-language"
_ROWS = 14
_ROW = 26.0
_HEAD = 18.0
_SIGN = 92.0
_COLUMN = 240.0
_HATCH = f"{_NAME}-hatch"


class _Sign(NamedTuple):
    """`markup` lies in _SIGN by 20 points from (0, 0)."""

    markup: str
    words: str


def language_sample() -> Drawing:
    signs = [*_things(), *_lines(), *_figures(), *_changes()]
    columns = [signs[start : start + _ROWS] for start in range(0, len(signs), _ROWS)]
    parts = [_hatch()]
    parts += [_shifted(number * _COLUMN, 0, _column(column)) for number, column in enumerate(columns)]
    picture = Picture("".join(parts), len(columns) * _COLUMN, _ROWS * _ROW)
    words = "Every sign of the drawings: " + "; ".join(sign.words or "moved" for sign in signs) + "."
    return page(_NAME, "", "The signs of the drawings", "every sign with its name", "", words, (picture,))


def _column(signs: Sequence[_Sign]) -> str:
    return "".join(
        _shifted(0, row * _ROW, sign.markup + svg.text(_SIGN + 12, 13, sign.words, SMALL_SIZE, colour=QUIET))
        for row, sign in enumerate(signs)
    )


def _shifted(x: float, y: float, markup: str) -> str:
    return svg.element("g", markup, transform=f"translate({svg.number(x)} {svg.number(y)})")


def _things() -> list[_Sign]:
    field = svg.rect(0, 1, _SIGN, 18, fill=palette.FIELD, stroke=HAIR, weight=HAIRLINE)
    kept = svg.rect(0, 1, _SIGN, 18, fill=f"url(#{_HATCH})", stroke=palette.KEPT, weight=0.8)
    clash = svg.rect(0.7, 1.7, _SIGN - 1.4, 16.6, stroke=palette.ALARM, weight=2.0, dash=ALARM_DASH)
    return [
        _Sign(_box(palette.BAND, "core"), "device"),
        _Sign(_box(palette.PASSIVE_BAND, "panel"), "panel, and what else is passive"),
        _Sign(_jack(squares.FREE), "free jack"),
        _Sign(_jack(squares.WIRED), "wired jack"),
        _Sign(_jack(squares.POWERED), "jack that gives or takes PoE"),
        _Sign(_jack(squares.CABLED_BEHIND), "cabled behind, no cord in front"),
        _Sign(_in_line(), "in line: a passive thing on a run"),
        _Sign(_box("none", "strip", dash=ALARM_DASH, word="behind"), "rear, behind"),
        _Sign(field + _words("farm / barn", QUIET), "building"),
        _Sign(kept, "kept free, with the words what for"),
        _Sign(svg.text(_SIGN, 13, "? m", NAME_SIZE, anchor="end"), "gap: not known"),
        _Sign(clash + _words("clash", palette.ALARM), "two that want the same place"),
        _Sign(flag(0, 4, Onward("ways-2"), _SIGN), "continues on another sheet"),
    ]


def _lines() -> list[_Sign]:
    cables = [_Sign(svg.line(0, 10, _SIGN, 10, stroke), words) for stroke, words in LINES]
    ways = [
        _Sign(svg.line(0, 10, _SIGN, 10, pipe(where)), f"way {words}") for where, words in EXPOSURES.items()
    ]
    return [*cables, *ways]


def _figures() -> list[_Sign]:
    root = svg.rect(1, 1, _SIGN - 2, 18, fill=palette.BAND, stroke=INK, weight=2 * OUTLINE)
    return [
        _Sign(way_bar(0, 7, (0.3, 0.5), False), "how full a way is, and its limit"),
        _Sign(way_bar(0, 7, (0.8, 0.5), True), "over the limit"),
        _Sign(power_bar(0, 6, _SIGN, 8, 0.4, 0.75), "power taken: usual, and the most"),
        _Sign(power_bar(0, 6, _SIGN, 8, 1.2, 1.4), "more than there is"),
        _Sign(jack_in_vlan(0, 3, 18, "3", UNTAGGED), "jack, the VLAN untagged"),
        _Sign(jack_in_vlan(0, 3, 18, "3", TAGGED), "jack, the VLAN tagged"),
        _Sign(mark(9, 10, True), "may open connections to it"),
        _Sign(root + _words("core", INK) + _at_right("root"), "the tree's root"),
        _Sign(_stands_by(), "stands by, blocked at this end"),
    ]


def _stands_by() -> str:
    line = svg.line(0, 10, _SIGN, 10, wire_stroke("copper", True, False))
    return line + svg.rect(1, 5, 3, 10, fill=palette.ALARM) + letter(46, 10, "A")


def _hatch() -> str:
    lines = svg.element("path", d="M-1 1L1 -1M0 6L6 0M5 7L7 5", stroke=palette.KEPT, stroke_width=0.6)
    body = svg.element("pattern", lines, id=_HATCH, width=6, height=6, patternUnits="userSpaceOnUse")
    return svg.element("defs", body)


def _changes() -> list[_Sign]:
    moved = marks.moved_boxes((0, 0), (_SIGN + 36, 0), _SIGN - 6, 20, "till")
    return [
        _Sign(marks.new_box(1.2, 1.2, _SIGN - 2.4, 17.6, "camera"), "new"),
        _Sign(marks.gone_box(0.5, 1.2, _SIGN - 1, 17.6, "printer"), "gone"),
        _Sign(marks.changed_box(0.9, 1.2, _SIGN - 1.8, 17.6, "store"), "changed in its place"),
        _Sign(moved, ""),
        *(
            _Sign(sign(each, 1, 10) + _after_sign(WORDS[each]), MEANINGS[each])
            for each in (IN_PLACE, IN_STOCK)
        ),
    ]


def _box(tint: str, name: str, dash: str = "", word: str = "") -> str:
    outline = svg.rect(0.5, 1, _SIGN - 1, 18, fill=tint, stroke=INK, weight=OUTLINE, dash=dash)
    return outline + _words(name, INK) + _at_right(word)


def _at_right(word: str) -> str:
    return svg.text(_SIGN - 5, 13, word, SMALL_SIZE, colour=QUIET, anchor="end")


def _after_sign(words: str) -> str:
    return svg.text(13, 13, words, SMALL_SIZE)


def _words(words: str, colour: str) -> str:
    return svg.text(5, 13.2, words, NAME_SIZE, is_bold=True, colour=colour)


def _jack(state: str) -> str:
    return jack_square(0, 3, 18, 14, Square("3", state))


def _in_line() -> str:
    run = Stroke(palette.COPPER, palette.RUN_WEIGHT)
    body = svg.rect(20, 2, _SIGN - 40, 16, fill=palette.PASSIVE_BAND, stroke=INK, weight=OUTLINE)
    return (
        svg.line(0, 10, _SIGN, 10, run)
        + body
        + svg.text(_SIGN / 2, 13, "surge-1", SMALL_SIZE, anchor="middle")
    )
