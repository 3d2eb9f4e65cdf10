"""What an order costs, or what is needed without one, sorted by site, cabinet, VLAN, phase and shop. Each sorting adds up to the whole, to the last minor unit.

A line's money is shared out over the items it is bought for, by count or by length; the rest of a pack goes along with them.
Postage stands by itself, for nothing needs it more than another; by phase it goes with what is in the parcel, as budgets are judged.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Item
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.purchase.ask import typed
from firstfix.purchase.by_phase import phase_of, postage_by_phase
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.purchase.sharing import shared, weight

POSTAGE = "postage"
BY_PHASE = "phase"


class Share(NamedTuple):
    """`name` as the author calls it, "" for what belongs to none. Minor units, tax included."""

    name: str
    paid: int


class Tally(NamedTuple):
    by: str
    shares: tuple[Share, ...]


class Money(NamedTuple):
    """`whole` is what each of the tallies adds up to; `unpriced` lines are not in it.

    `stand_in`: what those of them that the part library gives a price for would come to by that. Tools are lent or bought beside it all.
    """

    tallies: tuple[Tally, ...]
    whole: int
    unpriced: int
    stand_in: int


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
        for item, part in zip(some, shared(paid, map(weight, some)), strict=True)
    ]
    goods = sum(paid for paid, _ in lines)
    whole = goods if order is None else order.paid
    tallies = [
        Tally(
            by, _sorted(build, by, _summed((key(build, item), part) for item, part in shares), whole - goods)
        )
        for by, key in _KEYS.items()
    ]
    if order is not None and build.phases:
        by_phase = [(phase_of(build, item), part) for item, part in shares]
        by_phase += postage_by_phase(build, needs, order).items()
        tallies[-1] = Tally(f"{BY_PHASE}, postage included", _sorted(build, BY_PHASE, _summed(by_phase), 0))
    if order is not None:
        by_shop = tuple(Share(parcel.shop.name, parcel.paid) for parcel in order.parcels)
        tallies.append(Tally("shop, postage included", by_shop))
    if order is None:
        return Money(tuple(tallies), whole, len(needs) - len(lines), 0)
    priced = {each.need for parcel in order.parcels for each in parcel.lines}
    without = [
        need.amount.price for need in needs if need.id not in priced and typed(need) not in order.already
    ]
    stand_in = sum(price for price in without if isinstance(price, int))
    return Money(tuple(tallies), whole, len(needs) - len(priced), stand_in)


def _ordered_lines(order: Order) -> Iterator[tuple[int, tuple[str, ...]]]:
    """What is paid for each need in all shops together: shared out once, it falls to the same phases as in the shopping list."""
    paid: dict[str, int] = {}
    for parcel in order.parcels:
        for bought in parcel.lines:
            paid[bought.need] = paid.get(bought.need, 0) + bought.paid
    return ((paid[need.id], need.items) for need in order.asked.needs if need.id in paid)


def _lines(needs: tuple[Need, ...]) -> Iterator[tuple[int, tuple[str, ...]]]:
    return ((price, need.items) for need in needs if isinstance(price := need.amount.price, int))


def _summed(shares: Iterable[tuple[str, int]]) -> Mapping[str, int]:
    found: dict[str, int] = {}
    for name, part in shares:
        found[name] = found.get(name, 0) + part
    return found


def _sorted(build: Build, by: str, found: Mapping[str, int], postage: int) -> tuple[Share, ...]:
    """What belongs to none comes last, then postage."""
    phase = PhaseKey(build.phases)
    names = sorted(filter(None, found), key=phase if by == BY_PHASE else natural)
    rest = [Share("", found[""])] if "" in found else []
    return (
        *(Share(name, found[name]) for name in names),
        *rest,
        *([Share(POSTAGE, postage)] if postage else []),
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


_KEYS: Mapping[str, Callable[[Build, Item], str]] = {
    "site": _site, "cabinet": _cabinet, "VLAN": _vlan, BY_PHASE: phase_of,
}  # fmt: skip
