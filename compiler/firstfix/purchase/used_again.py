"""What a change sets free, what of it is used again in another place, and what of it goes into the drawer.

Takes two builds and the names that things bear; looks at single items, by what needs them. What is crimped, glued or tied is not
set free, and cable that is pulled out is not laid again: common practice, no source.
"""

from collections import Counter, defaultdict
from collections.abc import Mapping
from typing import NamedTuple

from firstfix.build.hardware import TO_BUY, Item
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.renames import renamed
from firstfix.purchase.lines import Lot, lot_of, title_of
from firstfix.units import metres

_USED_UP = frozenset(("cable", "plug", "fibre-end", "label", "tie", "consumable", "tool", "pathway-material"))


class Freed(NamedTuple):
    """`count` equal things. `was_for`: old ids of what had them; `now_for`: new ids of what gets them, none where they go into stock.

    `bought`: how many of them were on the old shopping list; the others were there before it.
    """

    part: str
    title: str
    count: int  # type: ignore[assignment]  # what it is; tuple.count is not used
    was_for: tuple[str, ...]
    now_for: tuple[str, ...]
    bought: int
    lot: Lot


class SetFree(NamedTuple):
    """Both sorted by title. `given_up`: metres of cable by part that lie idle or are pulled out."""

    again: tuple[Freed, ...]
    stock: tuple[Freed, ...]
    given_up: tuple[tuple[str, float], ...]


def set_free(old: Build, new: Build, names: Mapping[str, str]) -> SetFree:
    """Items of `old` that `new` has not where they were, matched to those that it has to buy elsewhere."""
    before, after = _by_lot(old, names), _by_lot(new, {})
    again, stock = list[Freed](), list[Freed]()
    for lot, items in before.items():
        free = _more(items, after.get(lot, {}))
        wanted = _to_buy(_more(after.get(lot, {}), items))
        given, taken = _dealt(free, wanted)
        again += _freed(old, lot, given, names, taken)
        stock += _freed(old, lot, _less(free, given), names, ())
    return SetFree(
        tuple(sorted(again, key=_order)), tuple(sorted(stock, key=_order)), _given_up(old, new, names)
    )


class _Held(NamedTuple):
    """How many of one lot are there for one thing, and how many of those are to buy."""

    count: int  # type: ignore[assignment]  # what it is; tuple.count is not used
    to_buy: int


_Holders = dict[str, _Held]


def _by_lot(build: Build, names: Mapping[str, str]) -> dict[Lot, _Holders]:
    """Lot to what needs it, in the new names."""
    found: defaultdict[Lot, _Holders] = defaultdict(dict)
    for item in build.items:
        part = build.library.get(item.part)
        if part is None or part.kind in _USED_UP:
            continue
        holders, holder = found[lot_of(build, item)], renamed(item.for_id, names)
        had = holders.get(holder, _Held(0, 0))
        bought = item.count if item.standing == TO_BUY else 0
        holders[holder] = _Held(had.count + item.count, had.to_buy + bought)
    return found


def _more(one: Mapping[str, _Held], other: Mapping[str, _Held]) -> _Holders:
    """What `one` has beyond `other`. What was there before the list is what stays."""
    found = {}
    for holder, held in sorted(one.items(), key=lambda each: natural(each[0])):
        count = held.count - other.get(holder, _Held(0, 0)).count
        if count > 0:
            found[holder] = _Held(count, min(count, held.to_buy))
    return found


def _to_buy(holders: _Holders) -> _Holders:
    return {holder: _Held(held.to_buy, held.to_buy) for holder, held in holders.items() if held.to_buy}


def _dealt(free: _Holders, wanted: _Holders) -> tuple[_Holders, tuple[str, ...]]:
    """As many as both sides have, in natural order; and who gets them."""
    left = min(sum(each.count for each in free.values()), sum(each.count for each in wanted.values()))
    return _first(free, left), tuple(_first(wanted, left))


def _first(holders: _Holders, number: int) -> _Holders:
    found: _Holders = {}
    for holder, held in holders.items():
        count = min(held.count, number)
        if count:
            found[holder] = _Held(count, min(count, held.to_buy))
            number -= count
    return found


def _less(free: _Holders, given: _Holders) -> _Holders:
    nothing = _Held(0, 0)
    left = {
        holder: _Held(
            held.count - given.get(holder, nothing).count, held.to_buy - given.get(holder, nothing).to_buy
        )
        for holder, held in free.items()
    }
    return {holder: held for holder, held in left.items() if held.count}


def _freed(
    old: Build, lot: Lot, holders: _Holders, names: Mapping[str, str], now_for: tuple[str, ...]
) -> list[Freed]:
    if not holders:
        return []
    back = {now: was for was, now in names.items()}
    words = [title_of(old.library.get(lot.part), lot.part)]
    words += [metres(lot.length)] if lot.length else []
    words += [lot.colour] if lot.colour else []
    return [
        Freed(
            lot.part,
            ", ".join(words),
            sum(each.count for each in holders.values()),
            tuple(renamed(each, back) for each in holders),
            now_for,
            sum(each.to_buy for each in holders.values()),
            lot,
        )
    ]


def _order(freed: Freed) -> tuple[object, Lot]:
    return natural(freed.title.casefold()), freed.lot


def _given_up(old: Build, new: Build, names: Mapping[str, str]) -> tuple[tuple[str, float], ...]:
    """Runs of the old build that are not in the new one at that length."""
    left: Counter[str] = Counter()
    kept = {(item.for_id, item.part, item.length) for item in new.items if _is_run(new, item)}
    for item in old.items:
        if _is_run(old, item) and (renamed(item.for_id, names), item.part, item.length) not in kept:
            left[item.part] += round(item.length * 1000) * item.count
    return tuple((part, amount / 1000) for part, amount in sorted(left.items()))


def _is_run(build: Build, item: Item) -> bool:
    part = build.library.get(item.part)
    return bool(item.length) and part is not None and part.kind == "cable"
