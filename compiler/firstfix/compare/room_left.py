"""Headroom before and after: which rows changed, and which of what is left is tightest.

Takes the headroom of two builds and the names that things bear; gives rows in pairs.
"""

from collections.abc import Mapping
from typing import NamedTuple

from firstfix.build.renames import renamed
from firstfix.graphs.headroom import WHAT, Headroom

# How many of the tightest are shown although they stayed as they were.
MOST_TIGHT = 3
# Floating-point dust in sums that come in another order is no change.
_DIGITS = 6

_Key = tuple[str, str, str]


class RoomLeft(NamedTuple):
    """One row on both sides, by its new id; None where the thing is not there. `is_tight`: among the least left of their limit."""

    what: str
    id: str
    of: str
    unit: str
    old: Headroom | None
    new: Headroom | None
    is_changed: bool
    is_tight: bool


def room_left(
    old: tuple[Headroom, ...], new: tuple[Headroom, ...], names: Mapping[str, str]
) -> tuple[RoomLeft, ...]:
    """What changed, and the tightest of the new build, in the order of kinds and ids; nothing where nothing changed."""
    before = {(each.what, renamed(each.id, names), each.of): each for each in old}
    after = {(each.what, each.id, each.of): each for each in new}
    tight = _tightest(after)
    found = []
    for key in sorted(before.keys() | after.keys(), key=lambda each: (WHAT.index(each[0]), *each[1:])):
        was, now = before.get(key), after.get(key)
        is_changed = _said(was) != _said(now)
        if is_changed or key in tight:
            unit = (now or was or _NOTHING).unit
            found.append(RoomLeft(*key, unit, was, now, is_changed, key in tight))
    return tuple(found) if any(each.is_changed for each in found) else ()


_NOTHING = Headroom("", "", "", "", None, None)


def _said(row: Headroom | None) -> tuple[object, ...] | None:
    if row is None:
        return None
    return tuple(None if each is None else round(each, _DIGITS) for each in (row.used, row.limit))


def _tightest(rows: Mapping[_Key, Headroom]) -> frozenset[_Key]:
    known = [(share, key) for key, row in rows.items() if (share := row.left_share) is not None]
    return frozenset(key for _, key in sorted(known)[:MOST_TIGHT])
