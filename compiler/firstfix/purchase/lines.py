"""Which items make one line: same part, and of cords and cable the same colour and, of cords, the same length."""

from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build.hardware import Item
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.parts.part import Part
from firstfix.purchase.sections import SECTIONS, section_of
from firstfix.units import metres

PIECES = "pieces"
METRES = "m"


class Lot(NamedTuple):
    """What is bought as one: a part, a cord's length as sold in metres, else 0, and a colour, "" where any will do."""

    part: str
    length: float
    colour: str


class Line(NamedTuple):
    """`length` in metres is a cord's as sold, else 0. `part` is None where the library does not hold it.

    `colour` is "" where any will do.
    """

    name: str
    length: float
    part: Part | None
    items: tuple[Item, ...]
    colour: str = ""

    @property
    def id(self) -> str:
        length = f"/{metres(self.length)}" if self.length else ""
        return f"need:{self.name}{length}" + (f"/{self.colour}" if self.colour else "")

    @property
    def cable(self) -> Part | None:
        """The part, if it is cut from boxes or reels; None for whatever is counted."""
        return self.part if self.part is not None and self.part.kind == "cable" else None

    @property
    def section(self) -> str:
        return section_of(self.part.kind if self.part else "")

    @property
    def title(self) -> str:
        title = title_of(self.part, self.name)
        length = [metres(self.length)] if self.length else []
        return ", ".join([title, *length, *filter(None, [self.colour])])


def title_of(part: Part | None, name: str) -> str:
    """What a part is called where its number stands beside it: "cage nuts", not "cage nuts, pack of 20"."""
    return part.title.removesuffix(f", pack of {part.pack}") if part else name


def lines(build: Build, items: Iterable[Item]) -> tuple[Line, ...]:
    """`items` grouped, each in exactly one line; by section, then title, then length."""
    groups: dict[Lot, list[Item]] = {}
    for item in items:
        groups.setdefault(lot_of(build, item), []).append(item)
    found = (
        Line(lot.part, lot.length, build.library.get(lot.part), tuple(sorted(group)), lot.colour)
        for lot, group in groups.items()
    )
    return tuple(sorted(found, key=_order))


def lot_of(build: Build, item: Item) -> Lot:
    """The length is 0 for anything but a cord, and for a cord of unknown length."""
    piece = build.pieces.get(item.for_id)
    if piece is None or piece.part != item.part:
        # Only mains cords have a length and are no piece.
        return Lot(item.part, item.length, "")
    return Lot(item.part, piece.length.sold, piece.colour)


def _order(line: Line) -> tuple[int, object, float, str, str]:
    return (
        SECTIONS.index(line.section), natural(line.title.casefold()), line.length, line.name, line.colour
    )  # fmt: skip
