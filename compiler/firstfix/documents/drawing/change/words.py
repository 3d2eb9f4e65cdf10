"""The change in words: a sentence for each thing and for each hub, for who can't see the drawing."""

from collections.abc import Sequence

from firstfix.compare.changes import CHANGED, MOVED, SAME
from firstfix.documents.drawing.change.cards import WORDS
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.strands import Strand
from firstfix.documents.drawing.change.units import Unit


def strand_words(strand: Strand) -> str:
    return f"{strand.word or 'unchanged'}: jack {strand.jack} to {strand.far_shown}, {strand.said}"


def in_words(sides: Sides, chosen: Sequence[Unit]) -> str:
    """Every change that the picture shows, for who can't see it."""
    keys = dict.fromkeys(
        key for unit in chosen for each in unit.strands for key in (unit.hub, *each.through, each.far)
    )
    keys |= dict.fromkeys(unit.hub for unit in chosen)
    said = [thing_words(sides, key) for key in keys if sides.shape(key) != SAME]
    for unit in chosen:
        wires = "; ".join(strand_words(each) for each in unit.strands)
        said += [f"At {sides.name(unit.hub)}: {wires}."] if wires else []
    return " ".join(said)


def thing_words(sides: Sides, key: str) -> str:
    """ "New: cam-hives, in hive-stand." """
    state, known = sides.shape(key), sides.device(key)
    words = f"{WORDS[state].capitalize()}: {sides.name(key)}"
    part = f", {known.part.title}" if known else ""
    if state == MOVED:
        return f"{words}, from {sides.place(key, is_before=True)} to {sides.place(key)}."
    if state == CHANGED:
        return f"{words}, was {sides.part_was(key)}, is {known.part.title if known else 'not known'}."
    return f"{words}{part}, {sides.place(key)}."
