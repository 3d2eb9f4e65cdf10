"""The card of a thing: what becomes of it, which part it is and where it stands; and of what has moved, the card of where it was."""

from collections.abc import Iterable

from firstfix.compare.changes import CHANGED, MOVED, SAME
from firstfix.documents.drawing.change.cards import WIDEST, Card, Row, make_card
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.strands import WAS
from firstfix.documents.drawing.kit import palette
from firstfix.parts.part import ACTIVE_KINDS


def card_of(
    sides: Sides, key: str, rows: Iterable[Row] = (), part: str = "", widest: float = WIDEST, width: int = 0
) -> Card:
    known = sides.device(key)
    was = sides.part_was(key)
    said = [known.part.title if known else "not in the plan", sides.place(key)]
    said += [f"part was: {was}"] if was else []
    name = f"{sides.name(key)} ({part})" if part else sides.name(key)
    state = sides.shape(key)
    word = ""
    if state == SAME:
        said = said[1:]
        if sides.state(key).state == MOVED:
            state, word = CHANGED, "moved in its cabinet"
            said.append(f"was: {sides.place(key, is_before=True)}")
    is_active = known is not None and known.part.kind in ACTIVE_KINDS
    tint = palette.BAND if is_active else palette.PASSIVE_BAND
    return make_card(name, state, tint, said, rows, width, widest, word)


def ghost_of(sides: Sides, key: str, width: int = 0) -> Card:
    was = sides.was(key)
    return make_card(
        was.name if was else sides.name(key),
        WAS,
        palette.PAPER,
        [sides.place(key, is_before=True)],
        (),
        width,
    )
