"""What changes, hub by hub: which strands belong together on a sheet, and what of the unchanged is needed to see where they hang."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from firstfix.build import ids
from firstfix.compare.changes import SAME
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.strands import Strand


class Unit(NamedTuple):
    """One hub with strands of it: all that change, or, if they are too many for a sheet, the `part` ("2 of 3") of them."""

    hub: str
    strands: tuple[Strand, ...]
    part: str = ""


def units(sides: Sides, strands: Sequence[Strand]) -> tuple[Unit, ...]:
    """Hubs that anything changes at, building by building."""
    by_hub: defaultdict[str, list[Strand]] = defaultdict(list)
    for strand in strands:
        by_hub[strand.near].append(strand)
        if sides.is_hub(strand.far):
            by_hub[strand.far]
    order = sorted(by_hub, key=lambda key: (sides.building(key), ids.natural(key)))
    return tuple(Unit(key, tuple(by_hub[key])) for key in order)


def together(sides: Sides, strands: Sequence[Strand]) -> tuple[Strand, ...]:
    """What leads to the same card stands together; else in the order of jacks."""

    def target(strand: Strand) -> str:
        return next((key for key in strand.through if sides.shape(key) != SAME), strand.far)

    first: dict[str, int] = {}
    for place, strand in enumerate(strands):
        first.setdefault(target(strand), place)
    return tuple(sorted(strands, key=lambda each: first[target(each)]))


def shown_strands(sides: Sides, strands: Iterable[Strand]) -> tuple[Strand, ...]:
    """What changes; and for what is changed itself but hangs where it hung, how it hangs."""
    strands = tuple(strands)
    touched = {key for each in strands if each.state != SAME for key in (each.near, each.far, *each.through)}
    found = []
    for each in strands:
        loose = [key for key in (each.far, *each.through) if key not in touched]
        if each.state != SAME or any(sides.shape(key) != SAME for key in loose):
            found.append(each)
    return tuple(found)
