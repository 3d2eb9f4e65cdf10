"""What differs between two builds: things added, removed and changed, and what there is to buy or is left over because of it."""

from collections import Counter
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.build.hardware import TO_BUY
from firstfix.build.model import Build
from firstfix.compare.records import records


class Changed(NamedTuple):
    """One attribute of one thing. A value that one side lacks is "none"."""

    id: str
    attribute: str
    old: str
    new: str


class Quantity(NamedTuple):
    """How much more of a part the new build needs. `unit` is piece or m; `length` is a cord's, in metres, or 0;
    `colour` is "" where any will do.
    """

    part: str
    length: float
    amount: float
    unit: str
    colour: str = ""


class Renamed(NamedTuple):
    """A thing of the old build that the new one calls otherwise; ids."""

    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Changes:
    """All of it in sorted order. `to_buy` is needed by the new build only; `no_longer_needed` by the old one only.

    What was renamed is compared with itself, under its new name. `strangers`: said to have had a name that the old build does
    not know.
    """

    renamed: tuple[Renamed, ...]
    strangers: tuple[Renamed, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]
    changed: tuple[Changed, ...]
    to_buy: tuple[Quantity, ...]
    no_longer_needed: tuple[Quantity, ...]

    @property
    def is_empty(self) -> bool:
        return not (
            self.renamed or self.added or self.removed or self.changed or self.to_buy or self.no_longer_needed
        )


def compare(old: Build, new: Build) -> Changes:
    """The changes from `old` to `new`. Two plans that mean the same, however written, have none."""
    names = _followed(old, new)
    before, after = records(old, names), records(new)
    changed = [
        Changed(id_, attribute, before[id_].get(attribute, "none"), after[id_].get(attribute, "none"))
        for id_ in sorted(before.keys() & after.keys())
        for attribute in sorted(before[id_].keys() | after[id_].keys())
        if before[id_].get(attribute) != after[id_].get(attribute)
    ]
    bought_before, bought_after = _bought(old), _bought(new)
    known = _named(old)
    return Changes(
        tuple(sorted(Renamed(was, now) for was, now in names.items())),
        tuple(sorted(Renamed(was, now) for now, was in new.renames.items() if not known & {was, now})),
        tuple(sorted(after.keys() - before.keys())),
        tuple(sorted(before.keys() - after.keys())),
        tuple(changed),
        _difference(bought_after, bought_before),
        _difference(bought_before, bought_after),
    )


_Key = tuple[str, float, str, str]


def _followed(old: Build, new: Build) -> dict[str, str]:
    """Old id to new id, of what the old build has under its old name.

    A `was:` may stay in a plan: once both builds have the new name, it says nothing. Two things may have swapped names.
    """
    known = _named(old)
    met = {was: now for now, was in new.renames.items() if was in known}
    return {was: now for was, now in met.items() if now not in known or now in met}


def _named(build: Build) -> frozenset[str]:
    """The ids of all things whose name is the author's."""
    things = (
        build.sites,
        build.buildings,
        build.rooms,
        build.ways,
        build.cabinets,
        build.devices,
        build.vlans,
    )
    return frozenset(id_ for each in things for id_ in each) | {
        f"wifi:{each.name}" for each in build.wireless
    }


def _bought(build: Build) -> Counter[_Key]:
    """In pieces, and for cable in whole millimetres, so that sums are exact."""
    found: Counter[_Key] = Counter()
    for item in build.items:
        if item.standing != TO_BUY:
            continue
        piece = build.pieces.get(item.for_id)
        is_piece = piece is not None and piece.part == item.part
        # Only mains cords have a length and are no piece.
        length, colour = (
            (piece.length.sold, piece.colour) if piece is not None and is_piece else (item.length, "")
        )
        if item.length and is_piece:
            found[item.part, 0.0, colour, "m"] += round(item.length * 1000)
        else:
            found[item.part, length, colour, "piece"] += item.count
    return found


def _difference(more: Counter[_Key], less: Counter[_Key]) -> tuple[Quantity, ...]:
    return tuple(
        Quantity(part, length, amount / 1000 if unit == "m" else amount, unit, colour)
        for (part, length, colour, unit), amount in sorted((more - less).items())
    )
