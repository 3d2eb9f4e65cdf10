"""The sheets of PoE: a card for each source, with a bar for its budget; a source that PoE feeds hangs below its giver.

Takes a build; gives drawings, none where nothing is fed by PoE.
"""

import math

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.key import strip
from firstfix.documents.drawing.kit.palette import (
    BETWEEN,
    HAIR,
    INK,
    NAME_SIZE,
    PAPER,
    QUIET,
    SMALL_SIZE,
    TEXT_SIZE,
)
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.squares import POWERED, Square, jack_square
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.numbered import GAP, TALLEST, WIDEST, Block, contents_of, flow, numbered
from firstfix.documents.drawing.power.figures import bar, share
from firstfix.documents.drawing.power.poe_cards import Card, FedRow, cards, idle, words

_ROW = 14.0
_BAND, _BAR, _HEADS = 31.0, 22.0, 12.0
_INDENT = 22.0
_TAB = 26.0
# Right edges of the columns, from the right of the card.
_COLUMNS = (
    ("class", 312.0),
    ("pairs", 282.0),
    ("cable", 234.0),
    ("granted there", 166.0),
    ("draws there", 92.0),
    ("at source", 4.0),
)
# Where the bar of a device begins, from the right of the card, and how long it is.
_SHARE, _SHARE_WIDTH = 474.0, 108.0
_COUNTED = "counted of the budget, jack by jack in order (a narrow part has no number), and what is left"
_CASCADE = palette.Stroke(palette.POWER, palette.POWER_WEIGHT, core=palette.POWER_CORE)


def poe_drawings(build: Build) -> tuple[Drawing, ...]:
    """`poe`, or `poe-1` and so on."""
    found = cards(build)
    if not found:
        return ()
    key = _key(build)
    room = TALLEST - key.picture.height - GAP
    blocks = [block for card in found for block in _blocks(card, room)]
    sheets = [[*sheet, key] for sheet in flow(blocks, room)]
    fed = sum(len(card.rows) for card in found)
    under = f"{len(found)} source{'' if len(found) == 1 else 's'} of PoE feed {fed} devices; watts as usual / at the most"
    return numbered("poe", f"Power over Ethernet of {build.name}", contents_of(sheets, under))


def _blocks(card: Card, tallest: float) -> list[Block]:
    """The card, or as many parts of it as it takes; each has the band and the bar."""
    most = max(1, int((tallest - _BAND - _BAR - _HEADS) // _ROW))
    lots = [card.rows[start : start + most] for start in range(0, len(card.rows), most)]
    said = list(words(card))
    blocks = []
    for index, rows in enumerate(lots):
        text = " ".join([said[0], *(f"{row.hint}." for row in rows)])
        blocks.append(Block(_picture(card, rows, index > 0), text))
    return blocks


def _picture(card: Card, rows: tuple[FedRow, ...], is_continued: bool) -> Picture:
    left = _INDENT * min(card.depth, 4)
    width = WIDEST - left
    height = _BAND + _BAR + _HEADS + len(rows) * _ROW
    parts = [
        svg.rect(0, 0, width, height, fill=PAPER),
        _band(card, width, is_continued),
        _budget(card, width),
        _heads(width),
    ]
    for index, row in enumerate(rows):
        parts.append(_row(row, _BAND + _BAR + _HEADS + index * _ROW, width))
    parts.append(svg.rect(0, 0, width, height, stroke=INK, weight=palette.OUTLINE))
    moved = svg.element("g", *parts, transform=f"translate({svg.number(left)} 0)")
    if card.depth:
        # From the card above, whose device this is: down at the left, and in at the band.
        moved = svg.path(f"M{svg.number(left - 12)} {svg.number(-GAP)}V{svg.number(_BAND / 2)}H{svg.number(left)}", _CASCADE) + moved  # fmt: skip
    return Picture(moved, WIDEST, height)


def _band(card: Card, width: float, is_continued: bool) -> str:
    name = f"{card.name} (continued)" if is_continued else card.name
    shown = font.clip(name, width * 0.4, NAME_SIZE, True)
    after = 6 + font.width(shown, NAME_SIZE, True) + 8
    fed_by = f"{card.fed_by}{BETWEEN}figures and bars of all its jacks" if is_continued else card.fed_by
    return svg.group(
        f"{card.name}: {card.summary}",
        svg.rect(0, 0, width, _BAND, fill=palette.BAND),
        svg.text(6, 12, shown, NAME_SIZE, is_bold=True),
        svg.text(after, 12, card.said, SMALL_SIZE, colour=QUIET, room=width - after - 6),
        svg.text(6, 24, fed_by, SMALL_SIZE, colour=palette.POWER, room=width * 0.44),
        svg.text(width - 6, 24, card.summary, TEXT_SIZE, is_bold=True, anchor="end", room=width * 0.53),
    )


def _budget(card: Card, width: float) -> str:
    """Two bars over the whole budget: above, what all draw as usual and at the most; below, what is counted, device by device."""
    if not math.isfinite(card.budget):
        return svg.text(6, _BAND + 13, "its budget is not known", TEXT_SIZE, colour=QUIET)
    room = width - 12 - 66
    usual = sum(row.usual for row in card.rows)
    most = sum(row.most for row in card.rows)
    parts = [
        svg.text(6, _BAND + 9, "drawn", SMALL_SIZE, colour=QUIET),
        bar(72, _BAND + 3.5, room, 6, share(usual, card.budget), share(most, card.budget)),
        svg.text(6, _BAND + 18.5, "counted, by jack", SMALL_SIZE, colour=QUIET),
        svg.rect(72, _BAND + 11.5, room, 9, fill=PAPER, stroke=HAIR, weight=0.6),
    ]
    x = 72.0
    for row in card.rows:
        long = room * share(row.reserved, card.budget) if math.isfinite(row.reserved) else 0.0
        long = min(long, 72 + room - x)
        if long <= 0:
            continue
        parts.append(_segment(x, _BAND + 12, long))
        if font.width(font.clean(row.jack), SMALL_SIZE, True) <= long - 2:
            parts.append(
                svg.text(x + long / 2, _BAND + 18.5, row.jack, SMALL_SIZE, is_bold=True, colour=PAPER, anchor="middle")
            )  # fmt: skip
        x += long
    return "".join(parts)


def _segment(x: float, y: float, long: float) -> str:
    """Kept apart from its neighbours by a hair of paper."""
    return svg.rect(x + 0.4, y, max(0.4, long - 0.8), 8, fill=palette.POWER)


def _heads(width: float) -> str:
    base = _BAND + _BAR + 8.5
    parts = [_head(_TAB + 6, base, "device"), _head(width - _SHARE, base, "draw, of what is granted")]
    parts += [_head(width - at - 2, base, words_, "end") for words_, at in _COLUMNS]
    return "".join(parts)


def _head(x: float, base: float, said: str, anchor: str = "") -> str:
    return svg.text(x, base, said, SMALL_SIZE, is_bold=True, colour=QUIET, anchor=anchor)


def _row(row: FedRow, top: float, width: float) -> str:
    base = top + 10
    room = width - _SHARE - _TAB - 14
    name = font.clip(row.name, room * 0.66, TEXT_SIZE, True)
    after = _TAB + 6 + font.width(name, TEXT_SIZE, True) + 6
    cells = (row.classes, row.pairs, row.metres, row.at_device, row.draws, row.at_source)
    parts = [
        svg.hair(0, top, width, top),
        jack_square(0, top, _TAB, _ROW, Square(row.jack, POWERED)),
        svg.text(_TAB + 6, base, name, TEXT_SIZE, is_bold=True),
        svg.text(after, base, row.where, SMALL_SIZE, colour=QUIET, room=_TAB + 6 + room - after),
    ]
    if row.of_granted is not None:
        parts.append(bar(width - _SHARE, top + 4, _SHARE_WIDTH, 6, *row.of_granted))
    for cell, (_, at) in zip(cells, _COLUMNS, strict=True):
        parts.append(svg.text(width - at - 2, base, cell, TEXT_SIZE, anchor="end", room=84))
    return svg.group(row.hint, *parts)


def _key(build: Build) -> Block:
    share_of = svg.rect(0, 4, 30, 9, fill=PAPER, stroke=HAIR, weight=0.6) + _segment(0, 4.5, 15)
    samples = [
        (bar(0, 5, 30, 6, 0.4, 0.75), 30.0, "drawn, cable loss included: filled as usual, lines to the most"),
        (share_of, 30.0, _COUNTED),
        (svg.line(0, 9, 26, 9, _CASCADE), 26.0, "feeds the source below"),
    ]
    key = strip(samples if any(card.depth for card in cards(build)) else samples[:2], WIDEST)
    nothing = idle(build)
    words_ = f"Feeds nothing: {', '.join(nothing)}." if nothing else ""
    text = svg.text(4, key.height + 10, words_, SMALL_SIZE, colour=QUIET, room=WIDEST - 8)
    return Block(Picture(key.markup + text, WIDEST, key.height + (13 if nothing else 0)), words_)
