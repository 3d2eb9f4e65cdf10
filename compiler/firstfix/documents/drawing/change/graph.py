"""From hubs and strands to cards with rows and the edges between them, before anything is laid out."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from firstfix.compare.changes import GONE, MOVED, SAME
from firstfix.documents.drawing.change.cards import Card, Row
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.strands import WAS, Strand
from firstfix.documents.drawing.change.things import card_of, ghost_of
from firstfix.documents.drawing.change.units import Unit
from firstfix.documents.drawing.change.words import strand_words


class Line(NamedTuple):
    """From (card, row) to (card, row). `state` as a strand's, or moved for the arrow from where a thing was."""

    tail: tuple[int, int]
    head: tuple[int, int]
    state: str


class Graph(NamedTuple):
    cards: tuple[Card, ...]
    frame_of: tuple[int, ...]
    frames: tuple[str, ...]
    edges: tuple[Line, ...]
    keys: frozenset[str]


def graph_of(sides: Sides, chosen: Sequence[Unit], elsewhere: Mapping[str, str], widest: float) -> Graph:
    making = _Making(sides, widest)
    within = {unit.hub for unit in chosen}
    inward: defaultdict[str, list[Strand]] = defaultdict(list)
    boxed = {
        each.far: _is_boxed(sides, each) or (sides.is_hub(each.far) and each.far in within)
        for unit in chosen
        for each in unit.strands
    }
    for unit in chosen:
        for each in unit.strands:
            if each.far in within and each.far != unit.hub:
                inward[each.far].append(each)
    for unit in chosen:
        rows = [_inward_row(sides, each) for each in inward[unit.hub]]
        rows += [_outward_row(each, boxed[each.far], elsewhere) for each in unit.strands]
        making.thing(unit.hub, [*rows, *_rest(sides, unit, inward[unit.hub])], unit.part)
    passing = _passing(sides, [each for unit in chosen for each in unit.strands if boxed[each.far]])
    for unit in chosen:
        for number, each in enumerate(unit.strands, 1 + len(inward[unit.hub])):
            if boxed[each.far]:
                _join(making, (making.place_of[unit.hub], number), each, passing, inward)
    labels = tuple(label for _, label in sorted(making.frames.values()))
    return Graph(
        tuple(making.cards), tuple(making.frame_of), labels, tuple(making.edges), frozenset(making.place_of)
    )


class _Making:
    """Cards in the order in which they are met, and the edges between them."""

    def __init__(self, sides: Sides, widest: float) -> None:
        self.sides = sides
        self.widest = widest
        self.cards: list[Card] = []
        self.frame_of: list[int] = []
        self.frames: dict[str, tuple[int, str]] = {}
        self.edges: list[Line] = []
        self.place_of: dict[str, int] = {}

    def put(self, key: str, card: Card, is_before: bool = False) -> int:
        frame, label = self.sides.building(key, is_before)
        self.frames.setdefault(frame, (len(self.frames), label))
        self.cards.append(card)
        self.frame_of.append(self.frames[frame][0])
        return len(self.cards) - 1

    def thing(self, key: str, rows: Iterable[Row] = (), part: str = "") -> int:
        """The place of a thing's card; one that has moved between rooms has a second one where it was."""
        if key in self.place_of:
            return self.place_of[key]
        place = self.put(key, card_of(self.sides, key, rows, part, self.widest))
        self.place_of[key] = place
        if self.sides.has_moved(key):
            was = self.put(key, ghost_of(self.sides, key), is_before=True)
            self.edges.append(Line((was, 0), (place, 0), MOVED))
        return place


def _is_boxed(sides: Sides, strand: Strand) -> bool:
    """Whether the far end has a card of its own: it changes itself, or something on the way to it does."""
    ends = (strand.far, *strand.through)
    return not sides.is_hub(strand.far) and any(sides.shape(key) != SAME for key in ends)


def _passing(sides: Sides, strands: Iterable[Strand]) -> Mapping[str, list[Strand]]:
    """Passive things that are drawn, with what passes them."""
    found: defaultdict[str, list[Strand]] = defaultdict(list)
    for strand in strands:
        for key in strand.through:
            if sides.shape(key) != SAME:
                found[key].append(strand)
    return found


def _join(
    making: _Making,
    spot: tuple[int, int],
    strand: Strand,
    passing: Mapping[str, Sequence[Strand]],
    inward: Mapping[str, Sequence[Strand]],
) -> None:
    """Edges from a hub's row to what is drawn on the way, and to the far end. What several pass has a row for each."""
    for key in (each for each in strand.through if each in passing):
        others = passing[key] if len(passing[key]) > 1 else []
        place = making.thing(key, [_passed_row(each) for each in others])
        row = 1 + others.index(strand) if others else 0
        making.edges.append(Line(spot, (place, row), strand.state))
        spot = (place, row)
    row = 1 + inward[strand.far].index(strand) if strand in inward.get(strand.far, ()) else 0
    making.edges.append(Line(spot, (making.thing(strand.far), row), strand.state))


def _outward_row(strand: Strand, is_boxed: bool, elsewhere: Mapping[str, str]) -> Row:
    said = [strand.said]
    if strand.far in elsewhere:
        said.append(f"see {elsewhere[strand.far]}")
    return _row(strand, strand.jack, "right" if is_boxed else "left", strand.far_shown, said)


def _passed_row(strand: Strand) -> Row:
    return Row("", "", strand.state, "", "", (strand.far_shown,), False, strand_words(strand))


def _inward_row(sides: Sides, strand: Strand) -> Row:
    shown = f"{sides.name(strand.near)}/{strand.jack}"
    return _row(strand, strand.far_jack, "left", shown, [])


def _row(strand: Strand, jack: str, side: str, name: str, said: Sequence[str]) -> Row:
    return Row(
        jack, side, strand.state, strand.word, name, tuple(said), strand.is_powered, strand_words(strand)
    )


def _rest(sides: Sides, unit: Unit, inward: Sequence[Strand]) -> list[Row]:
    """How many of a hub's channels stay as they are; said once."""
    state = sides.state(unit.hub)
    wires = sides.after.hubs.get(state.new)
    if wires is None or (unit.part and not unit.part.startswith("1 ")):
        return []
    told = {each.channel for each in (*unit.strands, *inward) if each.state not in (WAS, GONE)}
    count = sum(row.wire.channel not in told for row in wires.rows) if not unit.part else 0
    if not count:
        return []
    words = f"… and {count} unchanged"
    return [Row("", "", SAME, "", "", (words,), False, words)]
