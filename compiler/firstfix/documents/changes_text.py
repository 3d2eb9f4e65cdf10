"""A comparison as text for people and as data for programs."""

from typing import Any

from firstfix.build import ids
from firstfix.compare.changes import Changes, Quantity
from firstfix.purchase.difference import Difference, Purchases
from firstfix.purchase.lines import METRES
from firstfix.purchase.money import money, plain
from firstfix.purchase.needs import Pack
from firstfix.source.node import clip
from firstfix.units import metres, number

_SUPPOSED = "as sold, if all of the old shopping list is bought and nothing of it is cut"


def changes_text(changes: Changes, purchases: Purchases) -> str:
    """Sections that have something in them, one line a change; "" when nothing changed."""
    currency = purchases.currency
    sections = (
        ("Renamed", [f"{_thing(each.old)} → {clip(ids.path(each.new), 100)}" for each in changes.renamed]),
        (
            "Not in the old plan under the name that `was:` gives",
            [f"{_thing(each.new)}: {clip(ids.path(each.old), 100)}" for each in changes.strangers],
        ),
        ("Added", [_thing(each) for each in changes.added]),
        ("Removed", [_thing(each) for each in changes.removed]),
        (
            "Changed",
            [
                f"{_thing(each.id)}: {each.attribute} {clip(each.old)} → {clip(each.new)}"
                for each in changes.changed
            ],
        ),
        ("Needed more", [_quantity(each) for each in changes.to_buy]),
        ("Needed no longer", [_quantity(each) for each in changes.no_longer_needed]),
        (f"To buy, {_SUPPOSED}", [_bought(each, currency) for each in purchases.to_buy]),
        ("Left over of the old shopping list", [_bought(each, currency) for each in purchases.left_over]),
    )
    blocks = [
        "\n".join([f"{title} ({len(lines)})", *(f"  {line}" for line in lines)])
        for title, lines in sections
        if lines
    ]
    return "\n\n".join([*blocks, *_in_all(purchases)]) + "\n" if blocks else ""


def _in_all(purchases: Purchases) -> list[str]:
    if not purchases.to_buy:
        return []
    prices = [each.price for each in purchases.to_buy]
    known = [price for price in prices if isinstance(price, int)]
    without = len(prices) - len(known)
    missing = f"; {without} {'line has' if without == 1 else 'lines have'} no price" if without else ""
    return [
        f"What is to buy comes to {money(sum(known), purchases.currency)} by the prices of the parts{missing}."
    ]


def changes_data(changes: Changes, purchases: Purchases) -> dict[str, Any]:
    """The same as plain data: ids as they are in build.json, units in the names."""
    return {
        "renamed": [each._asdict() for each in changes.renamed],
        "unknown_old_names": [each._asdict() for each in changes.strangers],
        "added": list(changes.added),
        "removed": list(changes.removed),
        "changed": [each._asdict() for each in changes.changed],
        "needed_more": [_quantity_data(each) for each in changes.to_buy],
        "needed_no_longer": [_quantity_data(each) for each in changes.no_longer_needed],
        "to_buy": [_bought_data(each, purchases.currency) for each in purchases.to_buy],
        "left_over": [_bought_data(each, purchases.currency) for each in purchases.left_over],
        "currency": purchases.currency,
    }


def _bought(each: Difference, currency: str) -> str:
    packs = " + ".join(_packs(pack, each.unit) for pack in each.packs)
    words = [f"{packs or '?'}: {clip(each.title, 100)} ({clip(each.line, 100)})", money(each.price, currency)]
    return ", ".join([*words, *(f"to settle: {why}" for why in each.unsettled)])


def _packs(pack: Pack, unit: str) -> str:
    if unit == METRES:
        return f"{pack.number} × {metres(pack.size)}"
    if pack.size == 1:
        return str(pack.number)
    return f"{pack.number} {'pack' if pack.number == 1 else 'packs'} of {number(pack.size)}"


def _bought_data(each: Difference, currency: str) -> dict[str, Any]:
    packs = [
        {
            "number": pack.number,
            "size": pack.size,
            "price": plain(pack.price, currency) if isinstance(pack.price, int) else None,
        }
        for pack in each.packs
    ]
    price = plain(each.price, currency) if isinstance(each.price, int) else None
    return {
        "line": each.line,
        "part": each.part,
        "unit": each.unit,
        "packs": packs,
        "price": price,
        "to_settle": list(each.unsettled),
    }


def _thing(id_: str) -> str:
    kind, path = ids.kind(id_), clip(ids.path(id_), 100)
    return f"{kind} {path}".strip()


def _quantity(each: Quantity) -> str:
    colour = f", {each.colour}" if each.colour else ""
    if each.unit == "m":
        return f"{metres(each.amount)} of {clip(each.part)}{colour}"
    length = f", {metres(each.length)} long" if each.length else ""
    return f"{number(each.amount)} × {clip(each.part)}{length}{colour}"


def _quantity_data(each: Quantity) -> dict[str, Any]:
    return {
        "part": each.part,
        "cord_length_m": each.length,
        "colour": each.colour,
        "amount": each.amount,
        "unit": each.unit,
    }
