"""What differs between two builds, each change with its sort, and the state of everything on both sides, for whoever draws it."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.build.hardware import TO_BUY
from firstfix.build.model import Build
from firstfix.build.renames import backwards, renamed
from firstfix.compare.categories import ADDED, CATEGORIES, RELABELLED, REMOVED, category
from firstfix.compare.delta import Delta, delta
from firstfix.compare.following import follow, named
from firstfix.compare.records import records
from firstfix.compare.values import shown, shown_attribute

# States of a thing, for drawings. What is moved may have changed in other ways, too.
NEW, GONE, MOVED, CHANGED, SAME = "new", "gone", "moved", "changed", "same"


class Changed(NamedTuple):
    """One attribute of one thing, by its new id. A value that one side lacks is "none". `category`: what sort of change it is."""

    id: str
    attribute: str
    old: str
    new: str
    category: str


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
    """A thing of the old build that the new one calls otherwise; ids. `is_guess`: nobody said so, it only looks like it."""

    old: str
    new: str
    is_guess: bool = False


class State(NamedTuple):
    """One thing: its id in the old build, "" if new; in the new one, "" if gone; its state; the sorts of what changed in it."""

    old: str
    new: str
    state: str
    categories: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Changes:
    """All of it in sorted order. `to_buy` is needed by the new build only; `no_longer_needed` by the old one only.

    What was renamed is compared with itself, under its new name. `strangers`: said to have had a name that the old build does
    not know. `removed` has old ids, all else new ones. `delta` holds the same as values, to be applied or turned round.
    """

    renamed: tuple[Renamed, ...]
    strangers: tuple[Renamed, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]
    changed: tuple[Changed, ...]
    to_buy: tuple[Quantity, ...]
    no_longer_needed: tuple[Quantity, ...]
    delta: Delta
    _back: Mapping[str, str]
    _in_old: Mapping[str, State]
    _in_new: Mapping[str, State]

    @property
    def states(self) -> tuple[State, ...]:
        """Of everything that is not the same: first what was there, by its old id, then what is new."""
        return (*self._in_old.values(), *(each for each in self._in_new.values() if not each.old))

    @property
    def is_empty(self) -> bool:
        return not (
            self.renamed or self.added or self.removed or self.changed or self.to_buy or self.no_longer_needed
        )

    def in_old(self, id_: str) -> State:
        """What becomes of a thing of the old build, by its id there: gone, moved, changed or the same."""
        now = renamed(id_, self.delta.names)
        return self._in_old.get(id_) or State(id_, now, SAME, ())

    def in_new(self, id_: str) -> State:
        """How a thing of the new build came about, by its id there: new, moved, changed or the same."""
        was = renamed(id_, self._back)
        return self._in_new.get(id_) or State(was, id_, SAME, ())

    def of(self, wanted: str) -> tuple[Changed, ...]:
        """The changes of one sort."""
        return tuple(each for each in self.changed if each.category == wanted)


def compare(old: Build, new: Build) -> Changes:
    """The changes from `old` to `new`. Two plans that mean the same, however written, have none."""
    before, after = records(old), records(new)
    followed = follow(old, new, before, after)
    found = delta(before, after, followed.names)
    changed = tuple(_changed(found, new))
    renames = [Renamed(was, now) for was, now in followed.said.items()]
    renames += [Renamed(was, now, is_guess=True) for was, now in followed.guessed.items()]
    known = named(before)
    states = tuple(_states(found, changed, renames))
    bought_before, bought_after = _bought(old), _bought(new)
    return Changes(
        tuple(sorted(renames)),
        tuple(sorted(Renamed(was, now) for now, was in new.renames.items() if not known & {was, now})),
        tuple(sorted(found.new)),
        tuple(sorted(found.gone)),
        changed,
        _difference(bought_after, bought_before),
        _difference(bought_before, bought_after),
        found,
        backwards(followed.names),
        {each.old: each for each in sorted(states) if each.old},
        {each.new: each for each in sorted(states) if each.new},
    )


def _changed(found: Delta, new: Build) -> Iterator[Changed]:
    for slot, turn in found.turned.items():
        piece = new.pieces.get(slot.id)
        yield Changed(
            slot.id,
            shown_attribute(slot.attribute),
            "none" if turn.old is None else shown(turn.old),
            "none" if turn.new is None else shown(turn.new),
            category(slot, turn, piece.kind if piece is not None else ""),
        )


def _states(found: Delta, changed: tuple[Changed, ...], renames: list[Renamed]) -> Iterator[State]:
    """Of everything that is not the same."""
    yield from (State(id_, "", GONE, (REMOVED,)) for id_ in found.gone)
    yield from (State("", id_, NEW, (ADDED,)) for id_ in found.new)
    sorts: defaultdict[str, set[str]] = defaultdict(set)
    for change in changed:
        sorts[change.id].add(change.category)
    for each in renames:
        sorts[each.new].add(RELABELLED)
    back = backwards(found.names)
    for id_, each_sort in sorted(sorts.items()):
        categories = tuple(each for each in CATEGORIES if each in each_sort)
        yield State(renamed(id_, back), id_, MOVED if MOVED in each_sort else CHANGED, categories)


_Key = tuple[str, float, str, str]


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
