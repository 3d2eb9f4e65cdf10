"""Differences between two sets of records as a value: found, applied, turned round, and joined one to the next.

Takes records (compare.records) and the names that things bear on both sides. The laws, which are tested:
`applied(delta(a, b), a) == b`; the delta of equals is empty; `inverse` undoes; `composed` goes on.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from firstfix.build.renames import backwards, renamed
from firstfix.compare.values import Record, Value, attribute_with_names, record_with_names, with_names

Records = Mapping[str, Record]


class Slot(NamedTuple):
    """One attribute of one thing, by its new id."""

    id: str
    attribute: str


class Turn(NamedTuple):
    """What a slot held and holds, both in the new names; None where the thing had no such attribute."""

    old: Value | None
    new: Value | None


@dataclass(frozen=True, slots=True)
class Delta:
    """`names`: old id to new one, of what goes by another. `gone` in old ids and names, `new` and `turned` in new ones.

    An id that both sides have and no name speaks of is the same thing.
    """

    names: Mapping[str, str] = field(default_factory=dict)
    gone: Records = field(default_factory=dict)
    new: Records = field(default_factory=dict)
    turned: Mapping[Slot, Turn] = field(default_factory=dict)

    @property
    def is_empty(self) -> bool:
        return not (self.names or self.gone or self.new or self.turned)


def delta(old: Records, new: Records, names: Mapping[str, str] | None = None) -> Delta:
    """`names` must not take two ids to one, nor one to an id that another keeps."""
    names = names or {}
    gone, turned, met = dict[str, Record](), dict[Slot, Turn](), set[str]()
    for id_, record in old.items():
        now = renamed(id_, names)
        if now not in new:
            gone[id_] = record
            continue
        met.add(now)
        turned |= _turned(now, record_with_names(record, names), new[now])
    added = {id_: record for id_, record in new.items() if id_ not in met}
    return Delta(dict(names), gone, added, dict(sorted(turned.items())))


def _turned(id_: str, before: Record, after: Record) -> dict[Slot, Turn]:
    return {
        Slot(id_, attribute): Turn(before.get(attribute), after.get(attribute))
        for attribute in before.keys() | after.keys()
        if before.get(attribute) != after.get(attribute)
    }


def applied(change: Delta, old: Records) -> dict[str, Record]:
    """The records after the change. Raises ValueError where `old` are not those that it was found on."""
    found = {
        renamed(id_, change.names): record_with_names(record, change.names)
        for id_, record in old.items()
        if id_ not in change.gone
    }
    for slot, turn in change.turned.items():
        if slot.id not in found or found[slot.id].get(slot.attribute) != turn.old:
            raise ValueError(f"{slot.id} has no such {slot.attribute}")
        _put(found[slot.id], slot.attribute, turn.new)
    if not found.keys().isdisjoint(change.new) or not old.keys() >= change.gone.keys():
        raise ValueError("what is to come is there already, or what is to go is not")
    return dict(sorted({**found, **change.new}.items()))


def inverse(change: Delta) -> Delta:
    """From new to old."""
    back = backwards(change.names)
    turned = {
        _slot(slot, back): Turn(_named(turn.new, back), _named(turn.old, back))
        for slot, turn in change.turned.items()
    }
    return Delta(back, change.new, change.gone, dict(sorted(turned.items())))


def composed(first: Delta, second: Delta) -> Delta:
    """One after the other. What comes and goes again leaves no trace; what goes and comes back has only changed."""
    names, on = _joined_names(first, second), second.names
    turned, gone = dict[Slot, Turn](), dict(first.gone)
    for slot, turn in first.turned.items():
        if slot.id not in second.gone:
            turned[_slot(slot, on)] = Turn(_named(turn.old, on), _named(turn.new, on))
    stayed = {id_: record for id_, record in first.new.items() if id_ not in second.gone}
    new = {renamed(id_, on): record_with_names(record, on) for id_, record in stayed.items()}
    for slot, turn in second.turned.items():
        if slot.id in new:
            _put(new[slot.id], slot.attribute, turn.new)
        else:
            turned[slot] = Turn(turned[slot].old if slot in turned else turn.old, turn.new)
    gone |= _as_before(first, {id_: each for id_, each in second.gone.items() if id_ not in first.new})
    new |= {id_: dict(record) for id_, record in second.new.items()}
    for id_ in sorted(gone):
        now = renamed(id_, names)
        if now in new:
            turned |= _turned(now, record_with_names(gone.pop(id_), names), new.pop(now))
    kept = {slot: turn for slot, turn in sorted(turned.items()) if turn.old != turn.new}
    return Delta(names, dict(sorted(gone.items())), dict(sorted(new.items())), kept)


def _joined_names(first: Delta, second: Delta) -> dict[str, str]:
    """From the first names to the last; what came in between has none of the first."""
    back, middle = backwards(first.names), frozenset(first.names.values())
    names = {old: renamed(now, second.names) for old, now in first.names.items()}
    for id_, now in second.names.items():
        if id_ not in middle and id_ not in first.names and id_ not in first.new:
            names[renamed(id_, back)] = now
    return {old: names[old] for old in sorted(names) if _says_something(old, names)}


def _says_something(old: str, names: Mapping[str, str]) -> bool:
    """Whether it would not follow from the other names."""
    others = {each: now for each, now in names.items() if each != old}
    return renamed(old, others) != names[old]


def _as_before(first: Delta, later: Records) -> dict[str, Record]:
    """Records of the middle as they were at the beginning."""
    undone = {id_: dict(record) for id_, record in later.items()}
    for slot, turn in first.turned.items():
        if slot.id in undone:
            _put(undone[slot.id], slot.attribute, turn.old)
    back = backwards(first.names)
    return {renamed(id_, back): record_with_names(record, back) for id_, record in undone.items()}


def _put(record: Record, attribute: str, value: Value | None) -> None:
    if value is None:
        record.pop(attribute, None)
    else:
        record[attribute] = value


def _slot(slot: Slot, names: Mapping[str, str]) -> Slot:
    return Slot(renamed(slot.id, names), attribute_with_names(slot.attribute, names))


def _named(value: Value | None, names: Mapping[str, str]) -> Value | None:
    return None if value is None else with_names(value, names)
