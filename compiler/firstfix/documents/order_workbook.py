"""orders/SHOP.xlsx: what to order at one shop, with its sums as formulas."""

from decimal import Decimal

from firstfix.build.model import Build
from firstfix.documents.xlsx import Cell, Formula, Sheet, column, sum_of, workbook
from firstfix.offers.currency import decimals
from firstfix.purchase.money import plain
from firstfix.purchase.order import Bought, Parcel
from firstfix.units import number

_HEADER = ("line", "what", "packs", "in a pack", "unit", "price of a pack", "sum", "currency", "note")
_PACKS, _PRICE, _SUM = (_HEADER.index(each) for each in ("packs", "price of a pack", "sum"))


def order_sheet_xlsx(build: Build, parcel: Parcel) -> bytes:
    """A row for each line, then postage and, where it is added, tax: the sum is what is paid."""
    currency = build.currency
    rows = [_row(each, row, currency) for row, each in enumerate(parcel.lines, 2)]
    for what, amount in (("postage", parcel.postage), ("tax", parcel.tax)):
        if amount:
            rows.append(("", what, "", "", "", "", Decimal(plain(amount, currency)), currency, ""))
    total: list[Cell] = ["in all", *[""] * (len(_HEADER) - 1)]
    total[_SUM] = sum_of(_SUM, rows, Decimal(plain(parcel.paid, currency)))
    total[_HEADER.index("currency")] = currency
    return workbook([Sheet("Order", _HEADER, tuple(rows), (_PRICE, _SUM), decimals(currency), tuple(total))])


def _row(each: Bought, row: int, currency: str) -> tuple[Cell, ...]:
    sum_ = Formula(f"={column(_PACKS)}{row}*{column(_PRICE)}{row}", Decimal(plain(each.written, currency)))
    return (
        each.line, each.title, each.packs, Decimal(number(each.size, 3)), each.unit, Decimal(plain(each.each, currency)), sum_,
        currency, each.offer.note,
    )  # fmt: skip
