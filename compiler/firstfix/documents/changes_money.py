"""What a change costs, in words: to buy, used again, into stock, and the order that covers it.

Takes Purchases; gives sections of plain lines.
"""

from collections.abc import Iterable, Iterator

from firstfix.build import ids
from firstfix.compare.values import OUSTED
from firstfix.documents.changes_words import Section
from firstfix.purchase.difference import Difference, Purchases
from firstfix.purchase.lines import METRES
from firstfix.purchase.money import money
from firstfix.purchase.needs import Pack
from firstfix.purchase.order import Order
from firstfix.purchase.used_again import Freed
from firstfix.source.node import clip
from firstfix.units import metres, number

_TO_BUY = "To buy beyond the old shopping list, as it is sold"
_MOST_NAMED = 4


def money_sections(bought: Purchases) -> list[Section]:
    currency = bought.currency
    # Counted things come free one by one, told below; of cable it is whole coils.
    coils = [each for each in bought.left_over if each.unit == METRES]
    sections = [
        Section(_TO_BUY, tuple(line_words(each, currency) for each in bought.to_buy)),
        Section("Freed, and used again", tuple(map(_again, bought.free.again))),
        Section("Freed, for the stock", tuple(map(_stocked, bought.free.stock))),
        Section(
            "Cable given up, which is not laid again",
            tuple(f"{metres(length)} of {clip(part)}" for part, length in bought.free.given_up),
        ),
        Section("Coils of the old list left over", tuple(line_words(each, currency) for each in coils)),
        Section("Cost", tuple(cost_lines(bought))),
    ]
    return [each for each in sections if each.lines]


def line_words(each: Difference, currency: str) -> str:
    packs = " + ".join(_packs(pack, each.unit) for pack in each.packs)
    price = money(each.price, currency) + (", an invented or typical price" if each.is_typical_price else "")
    words = [f"{packs or '?'}: {clip(each.title, 100)} ({clip(each.line, 100)})", price]
    return ", ".join([*words, *(f"to settle: {why}" for why in each.unsettled)])


def _packs(pack: Pack, unit: str) -> str:
    if unit == METRES:
        return f"{pack.number} × {metres(pack.size)}"
    if pack.size == 1:
        return str(pack.number)
    return f"{pack.number} {'pack' if pack.number == 1 else 'packs'} of {number(pack.size)}"


def _again(each: Freed) -> str:
    return f"{each.count}: {clip(each.title, 100)}, of {_named(each.was_for)}, now for {_named(each.now_for)}"


def _stocked(each: Freed) -> str:
    return f"{each.count}: {clip(each.title, 100)}, of {_named(each.was_for)}"


def _named(given: Iterable[str]) -> str:
    named = [clip(ids.path(each).removesuffix(OUSTED), 60) for each in given]
    more = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    return ", ".join(named[:_MOST_NAMED]) + more


def cost_lines(bought: Purchases) -> Iterator[str]:
    """By the shops where there are any, else by the parts; what has no price is said."""
    if not bought.to_buy:
        return
    if bought.order is not None:
        yield from _ordered(bought.order, bought.currency)
        return
    prices = [each.price for each in bought.to_buy]
    known = [price for price in prices if isinstance(price, int)]
    without = len(prices) - len(known)
    missing = f"; {without} {'line has' if without == 1 else 'lines have'} no price" if without else ""
    yield f"What is to buy comes to {money(sum(known), bought.currency)} by the prices of the parts{missing}."


def _ordered(order: Order, currency: str) -> Iterator[str]:
    proven = ", which is the least that it can cost" if order.is_proven else ""
    yield f"Ordered from the shops it comes to {money(order.paid, currency)}, tax and postage included{proven}."
    for parcel in order.parcels:
        count = len(parcel.lines)
        yield f"from {clip(parcel.shop.name)}: {count} {'line' if count == 1 else 'lines'}, {money(parcel.paid, currency)}"
    for held in order.held:
        yield f"not ordered: {clip(held.title, 100)}: {held.why}"
