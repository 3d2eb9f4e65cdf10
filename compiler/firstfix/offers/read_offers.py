"""One shop as a plan writes it: a table of its terms, and of its offers by what they are offers of."""

import datetime
import re
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.finding.collector import Collector
from firstfix.offers.currency import decimals, is_whole, minor
from firstfix.offers.model import Goods, Offer, Price, Shop, Tax
from firstfix.source.fields import Fields, as_integer
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe
from firstfix.units import DURATION, LENGTH, QuantityFault, parse_quantity

SHOP_KEYS = ("postage", "free-from", "least-order", "lead", "tax", "currency", "offers", "note")
OFFER_KEYS = ("price", "pack", "from", "most", "lead", "note")
_MOST_MONEY = 999_999
_MOST_PACKS = 100_000
# A year, beyond which nobody waits.
_MOST_DAYS = 366
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_TAX = re.compile(r"([0-9]{1,2}(?:\.[0-9]{1,2})?)\s*%\s+(included|added)")
_TAX_FORMS = "'20 % included', '20 % added', 'included' or 'none'"


class Placed(NamedTuple):
    """An offer and where it is written."""

    offer: Offer
    key: Scalar
    node: Node


class ShopReader:
    """Reads shops of a plan with this `currency` and this day of its `start`, or ""."""

    def __init__(self, currency: str, start: str, faults: Collector) -> None:
        self._currency = currency
        self._start = start
        self._faults = faults

    def shop(self, name: str, node: Node) -> tuple[Shop, tuple[Placed, ...]]:
        fields = Fields(node, self._faults, f"the shop '{clip(name)}'", SHOP_KEYS)
        currency = fields.text("currency") or self._currency
        if re.fullmatch(r"[A-Z]{3}", currency) is None:
            _refuse(fields, "currency", "'currency' is a code of three letters of ISO 4217 such as EUR")
            currency = self._currency
        lead = self._lead(fields, None)
        offers = tuple(self._offers(fields, name, currency, lead))
        shop = Shop(
            name,
            currency,
            _money(fields, "postage", currency),
            _money(fields, "free-from", currency),
            _money(fields, "least-order", currency) or 0,
            _tax(fields),
            tuple(each.offer for each in offers),
        )
        return shop, offers

    def _offers(self, fields: Fields, shop: str, currency: str, lead: int | None) -> Iterator[Placed]:
        for text, key, value in fields.table("offers"):
            goods = read_goods(fields, text, key)
            if goods is None:
                continue
            for node in value.items if isinstance(value, Sequence) else (value,):
                offer = self._offer(
                    goods, f"the offer of '{clip(text)}' at '{clip(shop)}'", node, currency, lead
                )
                if offer is not None:
                    yield Placed(offer, key, node)

    def _offer(self, goods: Goods, what: str, node: Node, currency: str, lead: int | None) -> Offer | None:
        if isinstance(node, Scalar):
            fields = Fields(_table("price", node, node), self._faults, what, OFFER_KEYS)
        else:
            fields = Fields(node, self._faults, what, OFFER_KEYS)
        if not fields.require("price"):
            return None
        first = _price(fields, "price", currency)
        pack = fields.integer("pack", 1, _MOST_PACKS)
        if first is None or (pack is None and fields.value("pack") is not None):
            return None
        return Offer(
            goods,
            pack or 0,
            (Price(1, first), *self._further(fields, first, currency)),
            fields.integer("most", 0, _MOST_PACKS),
            self._lead(fields, lead),
            fields.text("note") or "",
        )

    def _further(self, fields: Fields, first: int, currency: str) -> Iterator[Price]:
        """`from: {10: 2.10, 50: 1.90}`, each price below the one before."""
        found = []
        for text, key, node in fields.table("from"):
            packs = as_integer(key, self._faults, "what stands in 'from'", 2, _MOST_PACKS)
            inner = Fields(_table(text, key, node), self._faults, "'from'", (text,))
            amount = _price(inner, text, currency)
            if packs is not None and amount is not None:
                found.append((packs, amount, node))
        before = first
        for packs, amount, node in sorted(found, key=lambda each: each[0]):
            if amount >= before:
                fields.wrong(
                    node,
                    f"from {packs:,} packs on, each costs no less than before: a price for many is a lower one",
                )
                continue
            before = amount
            yield Price(packs, amount)

    def _lead(self, fields: Fields, otherwise: int | None) -> int | None:
        """Days: `lead: 3 days`, or the day on which it comes, counted from the plan's start."""
        node = fields.value("lead")
        if node is None:
            return otherwise
        if isinstance(node, Scalar) and _DAY.fullmatch(node.text):
            return self._days_until(fields, node)
        seconds = fields.quantity("lead", DURATION, 0, _MOST_DAYS * 86_400)
        return None if seconds is None else -int(-seconds // 86_400)

    def _days_until(self, fields: Fields, node: Scalar) -> int | None:
        try:
            day = datetime.date.fromisoformat(node.text)
        except ValueError:
            fields.wrong(node, f"'lead' of '{clip(node.text)}' is no day of any year")
            return None
        if not self._start:
            fields.wrong(node, f"'lead' of '{node.text}' counts from the plan's 'start', which is not said")
            return None
        days = (day - datetime.date.fromisoformat(self._start)).days
        if not 0 <= days <= _MOST_DAYS:
            side = (
                f"before the plan starts ({self._start})"
                if days < 0
                else "more than a year after the plan starts"
            )
            fields.wrong(
                node, f"'lead' of '{node.text}' is {side}; write the day on which it comes, or '3 days'"
            )
            return None
        return days


def read_goods(fields: Fields, text: str, key: Node) -> Goods | None:
    """`cord-cat6/1m/green`: a part, then a length of cords and boxes, then a colour. Whether there is such a part is resolved later."""
    part, *rest = (each.strip() for each in text.split("/"))
    length, colour = 0.0, ""
    if rest and rest[0][:1].isdigit():
        measured = parse_quantity(rest.pop(0), LENGTH)
        if isinstance(measured, QuantityFault) or not 0 < measured <= 20_000:
            fields.wrong(
                key, f"'{clip(text)}' is no length of '{clip(part)}'; write it such as '{clip(part)}/1m'"
            )
            return None
        length = measured
    if rest:
        colour = rest.pop(0)
    if rest or not part:
        fields.wrong(
            key,
            f"'{clip(text)}' is no line; it is a part, its length, its colour, such as 'cord-cat6/1m/green'",
        )
        return None
    return Goods(part, length, colour)


def _table(name: str, key: Scalar, value: Node) -> Mapping:
    """A table of one value that is written without one."""
    made = Mapping(value.file, value.line, value.column)
    made.end_line, made.end_column = value.end_line, value.end_column
    made.entries[name] = (key, value)
    return made


def _refuse(fields: Fields, key: str, message: str) -> None:
    node = fields.value(key)
    assert node is not None
    fields.wrong(node, f"{message}, not {describe(node)}")


def _money(fields: Fields, key: str, currency: str) -> int | None:
    amount = fields.number(key, 0, _MOST_MONEY)
    return None if amount is None else minor(amount, currency)


def _price(fields: Fields, key: str, currency: str) -> int | None:
    """More than nothing: what has no price yet is left out. Nothing smaller than can be paid, for it would be rounded."""
    amount = fields.number(key, 10.0 ** -decimals(currency), _MOST_MONEY)
    if amount is None:
        return None
    if not is_whole(amount, currency):
        _refuse(
            fields,
            key,
            f"a price in {currency} has at most {decimals(currency)} decimals; write that of a larger 'pack'",
        )
        return None
    return minor(amount, currency)


def _tax(fields: Fields) -> Tax:
    text = fields.text("tax")
    if text is None:
        return Tax()
    if text in ("included", "none"):
        return Tax(0 if text == "none" else None, is_said=True)
    found = _TAX.fullmatch(text)
    if found is None:
        _refuse(fields, "tax", f"'tax' is {_TAX_FORMS}")
        return Tax()
    return Tax(round(float(found[1]) * 100), found[2] == "added", is_said=True)
