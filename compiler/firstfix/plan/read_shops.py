"""`shops:` and `purchase:`: who offers what on which terms, and how the author wishes to buy."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.offers.model import AIMS, LEAST_CHANGE, LEAST_COST, NO_WISH, Before, Goods, Wish
from firstfix.offers.read_offers import ShopReader, read_goods
from firstfix.plan.model import ShopSpec, WishSpec, Written
from firstfix.source.fields import Fields, as_integer, check_name
from firstfix.source.node import Mapping, Node, clip

PURCHASE_KEYS = ("aim", "before", "energy-price", "note")
_MOST_PACKS = 100_000


def read_shops(fields: Fields, currency: str, start: str, faults: Collector) -> Iterator[ShopSpec]:
    """`{north: {postage: 5.90, free-from: 60, lead: 3 days, offers: {cord-cat6/1m: 2.40}}}`"""
    if "shops" not in fields:
        return
    reader = ShopReader(currency, start, faults)
    for name, key, node in fields.table("shops"):
        if check_name(name, key, faults):
            shop, offers = reader.shop(name, node)
            yield ShopSpec(shop, tuple(Written(each.key, each.node) for each in offers), Written(key, node))


def read_wish(fields: Fields, faults: Collector) -> WishSpec:
    """`{aim: least-cost, energy-price: 0.30, before: {north: {cord-cat6/1m: 4}}}`"""
    node = fields.value("purchase")
    if node is None:
        return WishSpec(NO_WISH)
    wish = Fields(node, faults, "'purchase'", PURCHASE_KEYS)
    before = tuple(_before(wish, faults))
    aim = wish.choice("aim", AIMS)
    if aim == LEAST_CHANGE and not before:
        value = wish.value("aim")
        assert value is not None
        wish.wrong(
            value,
            "'least-change' keeps to an earlier order, which stands under 'before'; none is written there",
        )
        aim = None
    return WishSpec(
        Wish(aim or LEAST_COST, before, wish.number("energy-price", 0, 1000)),
        Written(None, node),
    )


def _before(wish: Fields, faults: Collector) -> Iterator[Before]:
    for shop, _, lines in wish.table("before"):
        entries = Fields(
            lines,
            faults,
            f"the earlier order at '{clip(shop)}'",
            lines.entries if isinstance(lines, Mapping) else (),
        )
        for text, (key, value) in entries.entries.items():
            goods = read_goods(entries, text, key)
            if goods is not None:
                yield from _packs(shop, goods, text, value, faults)


def _packs(shop: str, goods: Goods, text: str, value: Node, faults: Collector) -> Iterator[Before]:
    """`4` packs, or `{10: 4}`: four packs of ten."""
    what = f"how many packs of '{clip(text)}' were ordered"
    if not isinstance(value, Mapping):
        packs = as_integer(value, faults, what, 0, _MOST_PACKS)
        if packs:
            yield Before(shop, goods, 0, packs)
        return
    for key, node in value.entries.values():
        size = as_integer(key, faults, f"the pack of '{clip(text)}'", 1, _MOST_PACKS)
        packs = as_integer(node, faults, what, 0, _MOST_PACKS)
        if size and packs:
            yield Before(shop, goods, size, packs)
