"""The network of both builds at once, as far as it changes: what changes, what it hangs on, and the strands between, laid out by Graphviz.

Takes both sides and units; gives a picture with what it shows in words.
"""

from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

from firstfix.compare.changes import MOVED, SAME
from firstfix.documents.drawing.change.cards import OUTLINES, SAMPLES, WIDEST, draw_card
from firstfix.documents.drawing.change.graph import Graph, graph_of
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.units import Unit, together
from firstfix.documents.drawing.change.words import in_words
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.marks import arrow_head
from firstfix.documents.drawing.kit.palette import HAIR, HAIRLINE, MOVED_STROKE, NAME_SIZE, QUIET, Stroke
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.network.diagram import curve_data
from firstfix.documents.drawing.network.layout import Box, Edge, Placed, layout
from firstfix.documents.drawing.numbered import Block

_RANK_GAP = 46.0
_FRAME_LABEL = 200.0
# The widest card where wider ones leave the sheet.
_NARROW = 152.0
# More than this is not even tried: a sheet holds no more.
_MOST_POINTS = 2600.0


class Pictured(NamedTuple):
    """A picture with its words, and the keys of the things that have a card in it."""

    block: Block
    keys: frozenset[str]


def picture_of(sides: Sides, chosen: Sequence[Unit], elsewhere: Mapping[str, str], width: float) -> Pictured:
    """`elsewhere`: the sheet of each hub that is on another one. Not wider than `width` unless it can't be helped."""
    shown, placed = _laid_out(sides, chosen, elsewhere, width)
    if _crossings(placed):
        grouped = [unit._replace(strands=together(sides, unit.strands)) for unit in chosen]
        other = _laid_out(sides, grouped, elsewhere, width)
        if _crossings(other[1]) < _crossings(placed) and other[1].width <= max(width, placed.width):
            shown, placed = other
    return Pictured(Block(_drawn(shown, placed), in_words(sides, chosen)), shown.keys)


def is_large(sides: Sides, chosen: Sequence[Unit]) -> bool:
    """Too much for a sheet, as one sees without laying it out."""
    return sum(card.height for card in graph_of(sides, chosen, {}, WIDEST).cards) > _MOST_POINTS


def _laid_out(
    sides: Sides, chosen: Sequence[Unit], elsewhere: Mapping[str, str], width: float
) -> tuple[Graph, Placed]:
    for widest, gap in ((WIDEST, _RANK_GAP), (WIDEST, _RANK_GAP / 2), (_NARROW, _RANK_GAP / 2)):
        shown = graph_of(sides, chosen, elsewhere, widest)
        placed = _placed(shown, gap)
        if placed.width <= width:
            break
    return shown, placed


def _crossings(placed: Placed) -> int:
    """Pairs of lines that would cross if they were straight: near enough where all run from left to right."""
    ends = [(curve[0], curve[-1]) for curve in placed.curves if curve]
    return sum(
        (one[0][1] - other[0][1]) * (one[1][1] - other[1][1]) < 0
        and max(one[0][0], other[0][0]) < min(one[1][0], other[1][0])
        for one, other in combinations(ends, 2)
    )


def _placed(shown: Graph, gap: float) -> Placed:
    boxes = [
        Box(card.width, tuple(map(float, card.heights)), frame)
        for card, frame in zip(shown.cards, shown.frame_of, strict=True)
    ]
    edges = [Edge(each.tail, each.head, (0.0, 0.0)) for each in shown.edges]
    sizes = {
        number: (float(int(min(_FRAME_LABEL, font.width(label, NAME_SIZE, True))) + 2), 3.0)
        for number, label in enumerate(shown.frames)
    }
    return layout(boxes, edges, sizes, gap)


def _drawn(shown: Graph, placed: Placed) -> Picture:
    parts = [_frame(shown.frames[number], *box) for number, box in sorted(placed.frames.items())]
    for edge, curve in zip(shown.edges, placed.curves, strict=True):
        parts.append(svg.path(curve_data(curve), _line(edge.state)))
    for edge, curve in zip(shown.edges, placed.curves, strict=True):
        if edge.state == MOVED and curve:
            parts.append(arrow_head(*curve[-1]))
    parts += [draw_card(card, *corner) for card, corner in zip(shown.cards, placed.boxes, strict=True)]
    return Picture("".join(parts), placed.width, placed.height, samples=_samples(shown))


def _line(state: str) -> Stroke:
    if state == MOVED:
        return MOVED_STROKE
    return Stroke(HAIR, 0.8) if state == SAME else OUTLINES[state]


def _frame(label: str, left: float, top: float, right: float, bottom: float) -> str:
    box = svg.rect(left, top, right - left, bottom - top, fill=palette.FIELD, stroke=HAIR, weight=HAIRLINE)
    words = svg.text(left + 8, top + 13, label, NAME_SIZE, is_bold=True, colour=QUIET, room=right - left - 16)
    return svg.group(label.replace(" / ", palette.BETWEEN), box, words)


def _samples(shown: Graph) -> tuple[tuple[str, float, str], ...]:
    """Of the outlines and lines that are in it, and no others."""
    outlines = {card.state for card in shown.cards}
    outlines |= {row.state for card in shown.cards for row in card.rows if row.side}
    return tuple(sample for state, sample in SAMPLES.items() if state in outlines)
