"""What is there already (in place, in stock, in a box), listed apart so that nothing is bought twice."""

from typing import NamedTuple

from firstfix.build.hardware import IN_A_BOX, IN_PLACE, IN_STOCK
from firstfix.build.model import Build
from firstfix.purchase.lines import METRES, PIECES, Line, lines
from firstfix.purchase.reasons import Reason, reasons

STANDINGS = (IN_PLACE, IN_STOCK, IN_A_BOX)


class Owned(NamedTuple):
    """One line of what is there: `quantity` pieces or metres (`unit`), and where it is (`standing`)."""

    standing: str
    part: str
    title: str
    unit: str
    quantity: float
    items: tuple[str, ...]
    reasons: tuple[Reason, ...]


def already_there(build: Build) -> tuple[Owned, ...]:
    """By standing, then sorted as the shopping list is. Each item not to buy is in exactly one line."""
    return tuple(
        _owned(build, standing, line)
        for standing in STANDINGS
        for line in lines(build, (item for item in build.items if item.standing == standing))
    )


def _owned(build: Build, standing: str, line: Line) -> Owned:
    quantity = sum(item.count * (item.length if line.cable else 1) for item in line.items)
    return Owned(
        standing,
        line.name,
        line.title,
        METRES if line.cable else PIECES,
        round(quantity, 6),
        tuple(item.id for item in line.items),
        reasons(build, line.items),
    )
