"""What an order costs, or what is needed without one, sorted by site, cabinet, VLAN, phase and shop. Each sorting adds up to the whole, to the last minor unit.

A line's money is shared out over the items it is bought for, by count or by length; the rest of a pack goes along with them.
Postage stands by itself, for nothing needs it more than another.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Item
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order

POSTAGE = "postage"


class Share(NamedTuple):
    """`name` as the author calls it, "" for what belongs to none. Minor units, tax included."""

    name: str
    paid: int


class Tally(NamedTuple):
    by: str
    shares: tuple[Share, ...]


class Money(NamedTuple):
    """`whole` is what each of the tallies adds up to; `unpriced` lines are not in it. `tools` are
    part of the whole, not beside it: what is still there when the work is done and may be lent or borrowed."""

    tallies: tuple[Tally, ...]
    tools: int
    whole: int
    unpriced: int


def money_of(build: Build, needs: tuple[Need, ...], order: Order | None) -> Money:
    """Of what is ordered; without shops, of the needs by the prices of their parts."""
    items = {item.id: item for item in build.items}
    lines = [
        (paid, [items[each] for each in served])
        for paid, served in (_lines(needs) if order is None else _ordered_lines(order))
    ]
    shares = [
        (item, part)
        for paid, some in lines
        for item, part in zip(some, shared(paid, map(_weight, some)), strict=True)
    ]
    goods = sum(paid for paid, _ in lines)
    whole = goods if order is None else order.paid
    tallies = [
        Tally(
            by, _sorted(build, by, _summed((key(build, item), part) for item, part in shares), whole - goods)
        )
        for by, key in _KEYS.items()
    ]
    if order is not None:
        by_shop = tuple(Share(parcel.shop.name, parcel.paid) for parcel in order.parcels)
        tallies.append(Tally("shop, postage included", by_shop))
    priced = len({each.need for parcel in order.parcels for each in parcel.lines}) if order else len(lines)
    return Money(tuple(tallies), _tools(build, shares), whole, len(needs) - priced)


def shared(paid: int, weights: Iterable[float]) -> list[int]:
    """`paid` in whole parts as `weights` are; what is left over goes to the largest remainders, the first of equals first."""
    given = list(weights)
    whole = sum(given)
    exact = [paid * each / whole if whole else paid / len(given) for each in given]
    parts = [int(each) for each in exact]
    order = sorted(range(len(given)), key=lambda place: (parts[place] - exact[place], place))
    for place in order[: paid - sum(parts)]:
        parts[place] += 1
    return parts


def _ordered_lines(order: Order) -> Iterator[tuple[int, tuple[str, ...]]]:
    needs = {need.id: need for need in order.asked.needs}
    return ((bought.paid, needs[bought.need].items) for parcel in order.parcels for bought in parcel.lines)


def _lines(needs: tuple[Need, ...]) -> Iterator[tuple[int, tuple[str, ...]]]:
    return ((price, need.items) for need in needs if isinstance(price := need.amount.price, int))


def _weight(item: Item) -> float:
    return item.count * (item.length or 1.0)


def _summed(shares: Iterable[tuple[str, int]]) -> Mapping[str, int]:
    found: dict[str, int] = {}
    for name, part in shares:
        found[name] = found.get(name, 0) + part
    return found


def _sorted(build: Build, by: str, found: Mapping[str, int], postage: int) -> tuple[Share, ...]:
    """What belongs to none comes last, then postage."""
    phase = PhaseKey(build.phases)
    names = sorted(filter(None, found), key=phase if by == "phase" else natural)
    rest = [Share("", found[""])] if "" in found else []
    return (
        *(Share(name, found[name]) for name in names),
        *rest,
        *([Share(POSTAGE, postage)] if postage else []),
    )


def _tools(build: Build, shares: Iterable[tuple[Item, int]]) -> int:
    return sum(
        part
        for item, part in shares
        if (held := build.library.get(item.part)) is not None and held.kind == "tool"
    )


def _site(build: Build, item: Item) -> str:
    room = build.rooms.get(item.place)
    return ids.path(room.site) if room is not None else ""


def _cabinet(build: Build, item: Item) -> str:
    if item.for_id in build.cabinets:
        return ids.path(item.for_id)
    thing = build.devices.get(item.for_id) or build.fittings.get(item.for_id)
    return ids.path(thing.cabinet) if thing is not None and thing.cabinet else ""


def _vlan(build: Build, item: Item) -> str:
    """Of a device the VLAN it is in, of a cable that of either end; what carries or serves several belongs to none."""
    piece = build.pieces.get(item.for_id)
    if piece is None:
        return _of_device(build, item.for_id)
    hops = build.links[piece.link].hops if piece.link in build.links else ()
    ends = {_of_device(build, hop) for hop in (hops[:1] + hops[-1:])} - {""}
    return ends.pop() if len(ends) == 1 else ""


def _of_device(build: Build, device: str) -> str:
    untagged, *tagged = build.memberships.get(device, ("",))
    return ids.path(untagged) if untagged and not tagged else ""


def _phase(_: Build, item: Item) -> str:
    return item.phase


_KEYS: Mapping[str, Callable[[Build, Item], str]] = {
    "site": _site, "cabinet": _cabinet, "VLAN": _vlan, "phase": _phase,
}  # fmt: skip
