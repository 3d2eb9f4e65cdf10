"""The sheets of rooms. Takes a build; gives drawings with two columns of cards, none for a build without things."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import svg
from firstfix.documents.drawing.kit.page import picture_room
from firstfix.documents.drawing.kit.palette import BETWEEN, HAIR
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.numbered import Content, numbered
from firstfix.documents.drawing.rooms.cards import Card, card, nothing_there, totals
from firstfix.documents.drawing.rooms.lines import BETWEEN_COLUMNS, WIDTH, Line, still_in
from firstfix.documents.drawing.rooms.signs import WORDS, sample
from firstfix.graphs.room_view import room_views

_COLUMNS = 2
_GAP = 9.0
_TALLEST = picture_room(key_lines=2, onward_lines=1)[1]
# Of a column: a card no taller than that isn't split.
_WHOLE = 0.4
_STEP = 8.0


class _Segment(NamedTuple):
    """A card, or as much of it as stands in one column; its head comes first."""

    lines: list[Line]
    building: str

    @property
    def height(self) -> float:
        return sum(line.height for line in self.lines)


_Column = list[_Segment]


def room_drawings(build: Build) -> tuple[Drawing, ...]:
    """`rooms`, or `rooms-1` and so on."""
    views = room_views(build)
    cards = [card(build, view) for view in views if not view.is_empty]
    if not cards:
        return ()
    empty = nothing_there(build, views)
    cards += [empty] if empty else []
    in_all = totals(views)
    columns = _levelled(cards)
    contents = [
        _content(columns[start : start + _COLUMNS], in_all) for start in range(0, len(columns), _COLUMNS)
    ]
    return numbered("rooms", f"What stands in which room of {build.name}", contents)


def _levelled(cards: Sequence[Card]) -> list[_Column]:
    """On the fewest sheets, and there in columns as level as can be."""
    found = _poured(cards, _TALLEST)
    most = -(-len(found) // _COLUMNS) * _COLUMNS
    limit = _TALLEST - _STEP
    while limit > _STEP and len(levelled := _poured(cards, limit)) <= most:
        found = levelled
        limit -= _STEP
    return found


def _poured(cards: Sequence[Card], tallest: float) -> list[_Column]:
    columns: list[_Column] = [[]]
    used = 0.0
    for each in cards:
        whole = each.head.height + sum(line.height for line in each.lines)
        if columns[-1] and used + whole > tallest and whole <= _WHOLE * _TALLEST:
            columns.append([])
            used = 0.0
        is_begun = False
        for chunk in _chunks(each.lines):
            needed = sum(line.height for line in chunk)
            begin = 0.0 if is_begun else each.head.height
            if columns[-1] and used + begin + needed > tallest:
                columns.append([])
                columns[-1].append(_Segment(_heads(each, chunk[0], is_begun), each.building))
                used = columns[-1][-1].height
            elif not is_begun:
                columns[-1].append(_Segment([each.head], each.building))
                used += begin
            is_begun = True
            columns[-1][-1].lines.extend(chunk)
            used += needed
        used += _GAP
    return columns


def _heads(card: Card, following: Line, is_again: bool) -> list[Line]:
    """What stands above a line at the top of a column."""
    if not is_again:
        return [card.head]
    return [card.again, still_in(following.inside)] if following.inside else [card.again]


def _chunks(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """Lines that stay together."""
    chunk: list[Line] = []
    for line in lines:
        chunk.append(line)
        if not line.is_kept:
            yield chunk
            chunk = []
    if chunk:
        yield chunk


def _content(columns: Sequence[_Column], in_all: str) -> Content:
    segments = [segment for column in columns for segment in column]
    lines = [line for segment in segments for line in segment.lines]
    buildings = dict.fromkeys(segment.building for segment in segments)
    standings = {standing for line in lines for standing in line.standings}
    parts = [_column(column, number * (WIDTH + BETWEEN_COLUMNS)) for number, column in enumerate(columns)]
    picture = Picture(
        "".join(parts),
        len(columns) * (WIDTH + BETWEEN_COLUMNS) - BETWEEN_COLUMNS,
        max(sum(each.height + _GAP for each in column) - _GAP for column in columns),
        states=frozenset(state for line in lines for state in line.states),
        samples=tuple(sample(each) for each in WORDS if each in standings),
    )
    alt = " ".join(line.words for line in lines if line.words)
    return Content((picture,), alt, BETWEEN.join((*filter(None, buildings), in_all)))


def _column(column: _Column, left: float) -> str:
    parts, top = list[str](), 0.0
    for segment in column:
        parts.append(_segment(segment, left, top))
        top += segment.height + _GAP
    return "".join(parts)


def _segment(segment: _Segment, left: float, top: float) -> str:
    parts, y = list[str](), 0.0
    for line in segment.lines:
        parts.append(svg.element("g", line.markup, transform=f"translate(0 {svg.number(y)})"))
        y += line.height
    parts.append(svg.rect(0, 0, WIDTH, y, stroke=HAIR, weight=0.8))
    return svg.element("g", *parts, transform=f"translate({svg.number(left)} {svg.number(top)})")
