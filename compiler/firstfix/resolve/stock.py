"""What is at hand is used before anything is bought: items stand `in stock`, and what stays over is stated.

Counted things go to whoever needs them, in the order of items' ids. A cord serves where it is long enough and no longer than
the one that would be bought; where a colour is asked for, only that colour serves. Cable is cut so that the least is bought.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import NamedTuple

from firstfix.algorithms.cutting import Run, cut
from firstfix.build.cabling import Piece
from firstfix.build.hardware import IN_STOCK, TO_BUY, Item
from firstfix.build.ids import natural
from firstfix.build.stock import StockLot, Taken
from firstfix.parts.part import Library
from firstfix.plan.model import StockSpec
from firstfix.resolve.notes import Notes
from firstfix.units import number

_DUST = 1e-9


class Stocked(NamedTuple):
    """`pieces` differ from those given where a cord at hand has a length of its own."""

    items: tuple[Item, ...]
    pieces: Mapping[str, Piece]
    lots: tuple[StockLot, ...]


def take_from_stock(
    specs: tuple[StockSpec, ...],
    items: tuple[Item, ...],
    pieces: Mapping[str, Piece],
    library: Library,
    offered: Mapping[str, tuple[float, ...]],
    notes: Notes,
) -> Stocked:
    """`items` with their standing; the same where the plan has no stock. `offered`: lengths of cable that shops have, by part."""
    if not specs:
        return Stocked(items, pieces, ())
    wanted: defaultdict[str, list[Item]] = defaultdict(list)
    for item in items:
        if item.standing == TO_BUY:
            wanted[item.part].append(item)
    shelf = _Shelf(dict(pieces))
    for spec in specs:
        part = library.get(spec.part)
        if part is None:
            assert spec.written.key is not None
            notes.unknown_name("stock", spec.part, "part", library, spec.written.key.span)
        elif part.kind == "cable":
            sold = part.cable.lengths if part.cable else ()
            shelf.cut_cable(spec, wanted[spec.part], offered.get(spec.part, sold))
        elif part.kind == "cord":
            shelf.hand_out_cords(spec, wanted[spec.part])
        else:
            shelf.hand_out(spec, wanted[spec.part])
    changed = [each for item in items for each in shelf.replaced.get(item.id, (item,))]
    return Stocked(
        tuple(sorted(changed)), shelf.pieces, tuple(sorted(shelf.lots, key=lambda lot: natural(lot.id)))
    )


class _Shelf:
    """`replaced`: by an item's id, what stands in its place."""

    def __init__(self, pieces: dict[str, Piece]) -> None:
        self.pieces = pieces
        self.replaced: dict[str, tuple[Item, ...]] = {}
        self.lots: list[StockLot] = []

    def _take(self, item: Item, count: int) -> Taken:
        """`count` of the item from here, the rest bought."""
        if count == item.count:
            self.replaced[item.id] = (item._replace(standing=IN_STOCK),)
            return Taken(item.id, count)
        part = item._replace(id=f"{item.id}+in-stock", count=count, standing=IN_STOCK)
        self.replaced[item.id] = (item._replace(count=item.count - count), part)
        return Taken(part.id, count)

    def hand_out(self, spec: StockSpec, wanted: Iterable[Item]) -> None:
        left, taken = spec.count, list[Taken]()
        for item in sorted(wanted, key=lambda item: natural(item.id)):
            if left:
                taken.append(self._take(item, min(left, item.count)))
                left -= min(left, item.count)
        self._lot(spec.part, 0.0, "", spec.count, taken, left)

    def hand_out_cords(self, spec: StockSpec, wanted: Iterable[Item]) -> None:
        """The longest need first and the longest cord that serves it: needs and cords then meet as often as they can."""
        here = _by_length(spec)
        taken: defaultdict[tuple[float, str], list[Taken]] = defaultdict(list)
        cords = [(item, self.pieces[item.for_id]) for item in wanted if item.for_id in self.pieces]
        # Those that ask for a colour come first: the others take any.
        for item, piece in sorted(cords, key=lambda each: (each[1].colour == "", *_longest_first(each[1]))):
            lot = next((lot for lot in here if here[lot] > 0 and _serves(lot, piece)), None)
            if lot is not None:
                here[lot] -= 1
                taken[lot].append(self._take(item, 1))
                self.pieces[piece.id] = piece._replace(length=piece.length._replace(sold=lot[0]))
        counted = _by_length(spec)
        for lot, left in here.items():
            self._lot(spec.part, *lot, counted[lot], taken[lot], left)

    def cut_cable(self, spec: StockSpec, wanted: Iterable[Item], sold: tuple[float, ...]) -> None:
        coils = [(each.length, each.colour) for each in spec.lengths for _ in range(each.number)]
        coils.sort()
        taken: list[list[Taken]] = [[] for _ in coils]
        left = [length for length, _ in coils]
        items = {item.for_id: item for item in wanted if item.length > 0}
        # Those that ask for a colour come first: the others take any.
        for colour, runs in self._runs_by_colour(items):
            fitting = [index for index, coil in enumerate(coils) if not colour or coil[1] == colour]
            cutting = cut(runs, sold, [left[index] for index in fitting])
            for index, coil in zip(fitting, cutting.at_hand, strict=True):
                left[index] = coil.left
                for run in coil.runs:
                    self._take(items[run.id], 1)
                    taken[index].append(Taken(items[run.id].id, run.length))
        for index, (length, colour) in enumerate(coils):
            self._lot(spec.part, length, colour, 1, taken[index], left[index], f"#{index + 1}")

    def _runs_by_colour(self, items: Mapping[str, Item]) -> list[tuple[str, list[Run]]]:
        coloured = sorted((self.pieces[id_].colour, id_) for id_ in items if id_ in self.pieces)
        groups = [
            (colour, [Run(id_, items[id_].length) for _, id_ in found])
            for colour, found in groupby(coloured, key=lambda each: each[0])
        ]
        return sorted(groups, key=lambda group: (group[0] == "", group[0]))

    def _lot(
        self,
        part: str,
        length: float,
        colour: str,
        count: int,
        taken: list[Taken],
        left: float,
        ordinal: str = "",
    ) -> None:
        words = [f"{number(length, 3)} m"] if length else []
        name = "/".join([part, *words, *filter(None, [colour])])
        self.lots.append(
            StockLot(f"stock:{name}{ordinal}", part, length, colour, count, tuple(sorted(taken)), left)
        )


def _by_length(spec: StockSpec) -> dict[tuple[float, str], int]:
    """How many of each length and colour, the longest first, and colours before cords of which nobody said it."""
    found: defaultdict[tuple[float, str], int] = defaultdict(int)
    for each in spec.lengths:
        found[each.length, each.colour] += each.number
    return dict(sorted(found.items(), key=lambda lot: (-lot[0][0], lot[0][1] != "", lot[0][1])))


def _longest_first(piece: Piece) -> tuple[float, object]:
    return -_needed(piece), natural(piece.id)


def _needed(piece: Piece) -> float:
    return sum(term.value for term in piece.length.terms)


def _serves(lot: tuple[float, str], piece: Piece) -> bool:
    length, colour = lot
    # A piece for which no length is sold has its own finding; a cord that is long enough still serves it.
    most = piece.length.sold or length
    return _needed(piece) <= length + _DUST and length <= most + _DUST and piece.colour in ("", colour)
