"""orders.md and orders/: one sheet for each shop (.md and .csv), what the order rests on, and the order for the next time.

Takes an order and the build that it is for; gives each file's text by its path.
"""

import json
from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.csv_table import Cell, csv_table
from firstfix.documents.order_words import (
    aim_words,
    bound_words,
    held_by_reason,
    lead_words,
    more_than_needed,
    one_shop_words,
    parcel_words,
    tax_words,
)
from firstfix.documents.stubs.text import folder_name
from firstfix.documents.templates import render
from firstfix.offers.model import LEAST_COST
from firstfix.purchase.lines import METRES
from firstfix.purchase.money import money, plain
from firstfix.purchase.order import Bought, Cuts, Order, Parcel
from firstfix.purchase.otherwise import one_shop_each, why_parcels
from firstfix.purchase.reasons import shown
from firstfix.units import metres, number

CSV_HEADER = (
    "line", "what", "packs", "in a pack", "unit", "price of a pack", "sum", "currency", "with tax", "lead in days", "note",
)  # fmt: skip


class Row(NamedTuple):
    packs: str
    of: str
    what: str
    each: str
    sum: str
    line: str
    note: str


def order_files(build: Build, order: Order) -> Iterator[tuple[str, str]]:
    """Path and text of each file, the overview first."""
    yield "orders.md", overview_markdown(build, order)
    for parcel in order.parcels:
        stem = f"orders/{folder_name(parcel.shop.name)}"
        yield f"{stem}.md", sheet_markdown(build, parcel)
        yield f"{stem}.csv", sheet_csv(build, parcel)
    if order.parcels:
        yield "order-before.yaml", before_yaml(order)


def sheet_markdown(build: Build, parcel: Parcel) -> str:
    """What to order at one shop, with sums as that shop will write them."""
    currency = build.currency
    return render(
        "order-sheet.md.jinja",
        plan=build.name,
        shop=parcel.shop.name,
        rows=[_row(each, currency) for each in parcel.lines],
        goods=money(parcel.goods, currency),
        postage=money(parcel.postage, currency) if parcel.postage else "free",
        tax=money(parcel.tax, currency) if parcel.shop.tax.is_added else "",
        paid=money(parcel.paid, currency),
        tax_words=tax_words(parcel, currency),
        lead=lead_words(parcel),
    )


def sheet_csv(build: Build, parcel: Parcel) -> str:
    """One row for each line, then postage and, where it is added, tax: the column of sums adds up to what is paid."""
    rows = [_csv_row(build, each) for each in parcel.lines]
    beside = [("postage", parcel.postage), *([("tax", parcel.tax)] if parcel.tax else [])]
    for what, amount in beside:
        sum_ = Decimal(plain(amount, build.currency))
        rows.append(("", what, "", "", "", "", sum_, build.currency, "", "", ""))
    return csv_table(CSV_HEADER, rows)


def overview_markdown(build: Build, order: Order) -> str:
    """The whole order: its parcels, how good it is, and what is not in it."""
    currency = build.currency
    return render(
        "orders.md.jinja",
        name=build.name,
        parcels=[
            (each.shop.name, len(each.lines), money(each.paid, currency), lead_words(each))
            for each in order.parcels
        ],
        paid=money(order.paid, currency),
        aim=aim_words(order, currency),
        bound=bound_words(order, currency) if order.aim == LEAST_COST and order.parcels else "",
        why=[parcel_words(each, currency) for each in why_parcels(order)] if order.parcels else [],
        one_shop=[one_shop_words(each, order, currency) for each in one_shop_each(order)],
        held=held_by_reason(order.held),
        already=order.already,
        more=more_than_needed(order),
        cuts=[_cut_words(build, each) for each in order.cuts],
    )


def before_yaml(order: Order) -> str:
    """The order as a file that a later plan may include, so that its own order keeps to it.

    JSON's quotes are YAML's too.
    """
    lines = [
        "# This order, for `include:` in a later plan with `purchase: {aim: least-change}`.",
        "purchase:",
        "  before:",
    ]
    for parcel in order.parcels:
        lines.append(f"    {json.dumps(parcel.shop.name)}:")
        packs: dict[str, list[Bought]] = {}
        for each in parcel.lines:
            packs.setdefault(each.offer.goods.name, []).append(each)
        for name, some in sorted(packs.items()):
            inner = ", ".join(f"{each.offer.pack}: {each.packs}" for each in some)
            lines.append(f"      {json.dumps(name)}: {{{inner}}}")
    return "\n".join(lines) + "\n"


def _row(each: Bought, currency: str) -> Row:
    note = "; ".join(
        filter(None, (each.offer.note, f"{each.offer.lead} days" if each.offer.lead is not None else ""))
    )
    return Row(
        str(each.packs), _pack(each), each.title, money(each.each, currency), money(each.written, currency), each.line, note
    )  # fmt: skip


def _pack(each: Bought) -> str:
    if each.unit == METRES:
        return metres(each.size)
    return "1 piece" if each.size == 1 else f"pack of {number(each.size)}"


def _csv_row(build: Build, each: Bought) -> tuple[Cell, ...]:
    currency = build.currency
    lead: Cell = each.offer.lead if each.offer.lead is not None else "not known"
    return (
        each.line, each.title, each.packs, Decimal(number(each.size, 3)), each.unit,
        Decimal(plain(each.each, currency)), Decimal(plain(each.written, currency)), currency,
        Decimal(plain(each.paid, currency)), lead, each.offer.note,
    )  # fmt: skip


def _cut_words(build: Build, cuts: Cuts) -> tuple[str, tuple[str, ...]]:
    coils = (
        f"{metres(coil.length)}: {', '.join(f'{shown(build, run.id)} {metres(run.length)}' for run in coil.runs) or 'nothing'};"
        f" {metres(coil.left)} left over"
        for coil in cuts.coils
    )
    return cuts.title, tuple(coils)
