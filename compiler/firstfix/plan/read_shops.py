"""`shops:` and `purchase:`: who offers what on which terms, and how the author wishes to buy."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.offers.model import AIMS, LEAST_CHANGE, LEAST_COST, NO_WISH, Before, Goods, Wish
from firstfix.plan.model import ShopSpec, WishSpec, Written
from firstfix.source.fields import Fields, as_integer, as_quantity, as_text, check_name
from firstfix.source.node import Mapping, Node, Sequence, clip, describe, is_null
from firstfix.span import Span
from firstfix.units import DURATION

PURCHASE_KEYS = ("aim", "before", "instead", "energy-price", "sold-out", "runs", "note")
# Each is a build of its own.
_MOST_INSTEAD = 20
_MOST_PACKS = 100_000


def read_shops(fields: Fields, currency: str, start: str, faults: Collector) -> Iterator[ShopSpec]:
    """`{north: {postage: 5.90, free-from: 60, lead: 3 days, offers: {cord-cat6/1m: 2.40}}}`"""
    if "shops" not in fields:
        return
    # Few plans have shops, and none is to start slower for it.
    from firstfix.offers.read_offers import ShopReader

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
    instead = tuple(_instead(wish, faults))
    if len(instead) > _MOST_INSTEAD:
        value = wish.value("instead")
        assert value is not None
        wish.wrong(value, f"'instead' names {len(instead):,} other parts; at most {_MOST_INSTEAD} are tried")
        instead = ()
    sold_out = dict(wish.texts("sold-out"))
    runs = {name: (seconds / 3600, span) for name, seconds, span in _runs(wish, faults)}
    return WishSpec(
        Wish(
            aim or LEAST_COST,
            before,
            wish.number("energy-price", 0, 1000),
            tuple(pair for pair, _ in instead),
            tuple(sorted(sold_out)),
            tuple((name, hours) for name, (hours, _) in sorted(runs.items())),
        ),
        Written(None, node),
        tuple(span for _, span in instead),
        {part: each.span for part, each in sorted(sold_out.items())},
        {name: span for name, (_, span) in sorted(runs.items())},
    )


def _instead(wish: Fields, faults: Collector) -> Iterator[tuple[tuple[str, str], Span]]:
    """`{core: [switch-24-poe, switch-16-managed]}`"""
    for device, _, value in wish.table("instead"):
        what = f"what could take the place of '{clip(device)}'"
        if isinstance(value, Mapping):
            wish.wrong(value, f"{what} is a part or a list of parts, not {describe(value)}")
            continue
        for node in value.items if isinstance(value, Sequence) else (value,):
            part = None if node is value and is_null(node) else as_text(node, faults, what)
            if part is not None:
                yield (device, part), node.span


def _runs(wish: Fields, faults: Collector) -> Iterator[tuple[str, float, Span]]:
    """`{computer: 8 h, screen-large: 6 h}`: so long a day."""
    for name, key, node in wish.table("runs"):
        what = f"how long '{clip(name)}' runs a day"
        seconds = None if is_null(node) else as_quantity(node, faults, DURATION, what, 0, 86_400)
        if seconds is not None:
            yield name, seconds, key.span


def _before(wish: Fields, faults: Collector) -> Iterator[Before]:
    from firstfix.offers.read_offers import read_goods

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
