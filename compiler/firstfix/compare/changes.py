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
    """How much more of a part the new build needs. `unit` is piece or m; `length` is a cord's, in metres, or 0."""

    part: str
    length: float
    amount: float
    unit: str


@dataclass(frozen=True, slots=True)
class Changes:
    """All of it in sorted order. `to_buy` is needed by the new build only; `no_longer_needed` by the old one only."""

    added: tuple[str, ...]
    removed: tuple[str, ...]
    changed: tuple[Changed, ...]
    to_buy: tuple[Quantity, ...]
    no_longer_needed: tuple[Quantity, ...]

    @property
    def is_empty(self) -> bool:
        return not (self.added or self.removed or self.changed or self.to_buy or self.no_longer_needed)


def compare(old: Build, new: Build) -> Changes:
    """The changes from `old` to `new`. Two plans that mean the same, however written, have none."""
    before, after = records(old), records(new)
    changed = [
        Changed(id_, attribute, before[id_].get(attribute, "none"), after[id_].get(attribute, "none"))
        for id_ in sorted(before.keys() & after.keys())
        for attribute in sorted(before[id_].keys() | after[id_].keys())
        if before[id_].get(attribute) != after[id_].get(attribute)
    ]
    bought_before, bought_after = _bought(old), _bought(new)
    return Changes(
        tuple(sorted(after.keys() - before.keys())),
        tuple(sorted(before.keys() - after.keys())),
        tuple(changed),
        _difference(bought_after, bought_before),
        _difference(bought_before, bought_after),
    )


_Key = tuple[str, float, str]


def _bought(build: Build) -> Counter[_Key]:
    """In pieces, and for cable in whole millimetres, so that sums are exact."""
    found: Counter[_Key] = Counter()
    for item in build.items:
        if item.standing != TO_BUY:
            continue
        if item.length:
            found[item.part, 0.0, "m"] += round(item.length * 1000)
        else:
            piece = build.pieces.get(item.for_id)
            is_cord = piece is not None and piece.part == item.part
            found[item.part, piece.length.sold if is_cord and piece is not None else 0.0, "piece"] += (
                item.count
            )
    return found


def _difference(more: Counter[_Key], less: Counter[_Key]) -> tuple[Quantity, ...]:
    return tuple(
        Quantity(part, length, amount / 1000 if unit == "m" else amount, unit)
        for (part, length, unit), amount in sorted((more - less).items())
    )
