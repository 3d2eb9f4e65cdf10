"""Which items make one line: same part and, for cords, same length."""

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


class Line(NamedTuple):
    """`length` in metres is a cord's as sold, else 0. `part` is None where the library does not hold it."""

    name: str
    length: float
    part: Part | None
    items: tuple[Item, ...]

    @property
    def id(self) -> str:
        return f"need:{self.name}" + (f"/{metres(self.length)}" if self.length else "")

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
        return f"{title}, {metres(self.length)}" if self.length else title


def title_of(part: Part | None, name: str) -> str:
    """What a part is called where its number stands beside it: "cage nuts", not "cage nuts, pack of 20"."""
    return part.title.removesuffix(f", pack of {part.pack}") if part else name


def lines(build: Build, items: Iterable[Item]) -> tuple[Line, ...]:
    """`items` grouped, each in exactly one line; by section, then title, then length."""
    groups: dict[tuple[str, float], list[Item]] = {}
    for item in items:
        groups.setdefault((item.part, cord_length(build, item)), []).append(item)
    found = (
        Line(name, length, build.library.get(name), tuple(sorted(group)))
        for (name, length), group in groups.items()
    )
    return tuple(sorted(found, key=_order))


def cord_length(build: Build, item: Item) -> float:
    """The sold length of a cord in metres; 0 for anything else, and for a cord of unknown length."""
    piece = build.pieces.get(item.for_id)
    return piece.length.sold if piece is not None and piece.part == item.part else 0.0


def _order(line: Line) -> tuple[int, object, float, str]:
    return (SECTIONS.index(line.section), natural(line.title.casefold()), line.length, line.name)
