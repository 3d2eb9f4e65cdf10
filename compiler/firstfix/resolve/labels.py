"""Each thing's own part of its identifier: as the author wrote it, as kept, or the next that is free.

Simple identifiers are the plan's names, so nothing is chosen for them. By ANSI/TIA-606 (formats from memory) a space is a floor and a
letter, and a cabinet a row and a position: those are choices, kept like others, so that what is added renumbers nothing.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import count
from string import ascii_uppercase

from firstfix.build import ids
from firstfix.build.administration import SIMPLE, TIA_606, Administration
from firstfix.build.ids import natural
from firstfix.plan.model import Plan
from firstfix.resolve.equipment import Equipment
from firstfix.resolve.kept import Kept
from firstfix.resolve.notes import Notes
from firstfix.resolve.places import Places

BY = "labels"
# I and O are read as 1 and 0: common practice, no source.
_LETTERS = [letter for letter in ascii_uppercase if letter not in "IO"]
_MOST_IN_ROW = 99


def resolve_labels(
    plan: Plan, places: Places, equipment: Equipment, kept: Kept, notes: Notes
) -> Administration:
    """Costs nothing where the plan says nothing of labels."""
    written = dict(_written(plan))
    if plan.labels.scheme != TIA_606:
        return Administration(SIMPLE, plan.labels.sheets, written)
    choosing = _Choosing(written, kept, notes)
    used = {device.room for device in equipment.devices.values()}
    used.update(cabinet.room for cabinet in equipment.cabinets.values())
    choosing.all("site", places.sites, lambda _: "", lambda id_: _short_words(ids.path(id_)))
    choosing.all(
        "building", places.buildings, lambda id_: places.buildings[id_].site, _short_words_of_building
    )
    rooms = {id_: room for id_, room in places.rooms.items() if id_ in used}
    choosing.all("room", rooms, lambda id_: rooms[id_].building, lambda id_: _on_floor(rooms[id_].floor))
    choosing.all(
        "cabinet", equipment.cabinets, lambda id_: equipment.cabinets[id_].room, lambda _: _positions()
    )
    return Administration(TIA_606, plan.labels.sheets, dict(sorted(choosing.own.items())))


def _written(plan: Plan) -> Iterator[tuple[str, str]]:
    """The ids that the author wrote something for, with what is written."""
    for site in plan.sites:
        if site.label:
            yield ids.site(site.name), site.label
        for building in site.buildings:
            if building.label:
                yield ids.building(site.name, building.name), building.label
            yield from ((ids.room(site.name, room.name), room.label) for room in building.rooms if room.label)
    yield from ((ids.cabinet(each.name), each.label) for each in plan.cabinets if each.label)
    yield from ((ids.device(each.name), each.label) for each in plan.devices if each.label)


class _Choosing:
    """Own parts of one kind of thing after the other; within one holder, each part once."""

    def __init__(self, written: dict[str, str], kept: Kept, notes: Notes) -> None:
        self.own = dict(written)
        self._kept = kept
        self._notes = notes

    def all(
        self,
        kind: str,
        things: Iterable[str],
        holder: Callable[[str], str],
        candidates: Callable[[str], Iterator[str]],
    ) -> None:
        """What is written comes first, then what is kept, then what is new: in the order of names."""
        ordered = sorted(things, key=natural)
        taken = {(holder(each), self.own[each]) for each in ordered if each in self.own}
        open_ = [each for each in ordered if each not in self.own]
        for each in open_:
            self._keep(kind, each, holder(each), taken)
        for each in open_:
            if each not in self.own:
                own = next(one for one in candidates(each) if (holder(each), one) not in taken)
                taken.add((holder(each), own))
                self.own[each] = own
                self._notes.decide(each, "label", own, BY, "the first that is free in its place")

    def _keep(self, kind: str, id_: str, holder: str, taken: set[tuple[str, str]]) -> None:
        choice = self._kept.label(kind, ids.path(id_))
        if choice is None:
            return
        if (holder, choice.label) in taken:
            self._kept.impossible(
                choice, f"the {choice.about} was kept as {choice.label}, and that is taken now"
            )
            return
        taken.add((holder, choice.label))
        self.own[id_] = choice.label
        self._notes.keep(id_, "label", choice.label, BY)


def _short_words(name: str) -> Iterator[str]:
    """HB for honey-barn, then HO, HON, …, then with a number."""
    words = [each.upper() for each in re.findall(r"[a-z0-9]+", name.lower())] or ["X"]
    whole = "".join(words)
    yield "".join(word[0] for word in words)
    yield from (whole[:length] for length in range(2, len(whole) + 1))
    yield from (f"{whole}{number}" for number in count(2))


def _short_words_of_building(id_: str) -> Iterator[str]:
    return _short_words(ids.path(id_).rpartition("/")[2])


def _on_floor(floor: int) -> Iterator[str]:
    """The floor as the plan counts it, B1 for the first below ground, then a letter; after Z comes AA."""
    shown = str(floor) if floor >= 0 else f"B{-floor}"
    for letters in count(1):
        yield from (shown + each for each in _letters(letters))


def _letters(length: int) -> Iterator[str]:
    if length == 0:
        yield ""
        return
    for first in _LETTERS:
        yield from (first + rest for rest in _letters(length - 1))


def _positions() -> Iterator[str]:
    """A01, A02, …, B01: a row of cabinets and the place in it. A floor's grid is the author's to write, as AD02."""
    for row in count(1):
        for letters in _letters(row):
            yield from (f"{letters}{place:02}" for place in range(1, _MOST_IN_ROW + 1))
