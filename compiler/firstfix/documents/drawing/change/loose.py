"""Devices that change and that no changed channel leads to: cards side by side, the former place of what has moved beside it."""

from collections.abc import Collection

from firstfix.build import ids
from firstfix.compare.changes import SAME
from firstfix.documents.drawing.change.cards import SAMPLES, Card, draw_card
from firstfix.documents.drawing.change.sides import Sides, key_of
from firstfix.documents.drawing.change.things import card_of, ghost_of
from firstfix.documents.drawing.change.words import thing_words
from firstfix.documents.drawing.kit import palette, svg
from firstfix.documents.drawing.kit.marks import arrow_head
from firstfix.documents.drawing.kit.palette import MOVED_STROKE, NAME_SIZE, QUIET
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.numbered import Block

_WIDTH, _GAP = 164, 22.0
_COLUMNS = int((palette.SHEET_INNER + _GAP) // (_WIDTH + _GAP))
_HEAD = 15.0
_TITLE = "What else comes, goes, moves or is another part"


def loose_blocks(sides: Sides, drawn: Collection[str]) -> list[Block]:
    """One for each line of cards."""
    keys = sorted(
        (
            key
            for state in sides.changes.states
            if (state.new or state.old).startswith("device:")
            and (key := key_of(state)) not in drawn
            and sides.shape(key) != SAME
        ),
        key=lambda key: (sides.building(key), ids.natural(key)),
    )
    lines: list[list[str]] = [[]]
    taken = 0
    for key in keys:
        needed = 1 + sides.has_moved(key)
        if taken + needed > _COLUMNS:
            lines.append([])
            taken = 0
        lines[-1].append(key)
        taken += needed
    return [_line(sides, line, number == 0) for number, line in enumerate(lines) if line]


def _line(sides: Sides, keys: list[str], is_first: bool) -> Block:
    cards: list[Card] = []
    arrows: list[int] = []
    for key in keys:
        if sides.has_moved(key):
            arrows.append(len(cards))
            cards.append(ghost_of(sides, key, _WIDTH))
        cards.append(card_of(sides, key, width=_WIDTH))
    top = _HEAD if is_first else 1.0
    parts = [svg.text(0, 9, _TITLE, NAME_SIZE, is_bold=True, colour=QUIET)] if is_first else []
    parts += [draw_card(card, 1 + place * (_WIDTH + _GAP), top) for place, card in enumerate(cards)]
    for place in arrows:
        x, y = 1 + place * (_WIDTH + _GAP) + _WIDTH, top + 11
        parts += [svg.line(x, y, x + _GAP - 4, y, MOVED_STROKE), arrow_head(x + _GAP, y)]
    height = top + max(card.height for card in cards) + 1
    return Block(
        Picture("".join(parts), palette.SHEET_INNER, height, samples=samples_of(cards)),
        " ".join(thing_words(sides, key) for key in keys),
    )


def samples_of(cards: list[Card]) -> tuple[tuple[str, float, str], ...]:
    states = {card.state for card in cards}
    return tuple(sample for state, sample in SAMPLES.items() if state in states)
