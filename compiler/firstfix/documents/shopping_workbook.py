"""shopping-list.xlsx: the lines to buy with their sums as formulas, tools to borrow or buy, and what is there already.

Takes the results of purchase/ and work/ and the build that they were made from; gives the file's bytes.
"""

from collections.abc import Iterator
from decimal import Decimal

from firstfix.build.model import Build
from firstfix.documents.shopping_list import CSV_HEADER, TOOLS_HEADER, csv_rows, tool_rows
from firstfix.documents.xlsx import Cell, Formula, Sheet, column, sum_of, workbook
from firstfix.offers.currency import decimals
from firstfix.purchase.needs import Need
from firstfix.purchase.owned import Owned
from firstfix.purchase.reasons import in_full
from firstfix.work.tool_parts import ToolLine

_APART = "in all, if bought; not in the sum to buy"
_OWNED_HEADER = ("where", "what", "part", "how much", "unit", "for")


def shopping_list_xlsx(
    build: Build, needs: tuple[Need, ...], owned: tuple[Owned, ...], tools: tuple[ToolLine, ...]
) -> bytes:
    """Whoever changes a number of packs or a price sees the sums follow."""
    sheets = [_to_buy(build, needs), _tools(build, tools), _owned(owned)]
    return workbook(sheet for sheet in sheets if sheet.rows or sheet is sheets[0])


def _to_buy(build: Build, needs: tuple[Need, ...]) -> Sheet:
    packs, price, sum_ = (CSV_HEADER.index(each) for each in ("packs", "price of a pack", "sum"))
    rows = tuple(_reckoned((row for need in needs for row in csv_rows(build, need)), packs, price, sum_))
    return _with_total("To buy", CSV_HEADER, rows, (price, sum_), build.currency)


def _tools(build: Build, tools: tuple[ToolLine, ...]) -> Sheet:
    price = TOOLS_HEADER.index("price")
    return _with_total(
        "Tools, borrow or buy", TOOLS_HEADER, tool_rows(build, tools), (price,), build.currency, _APART
    )


def _owned(owned: tuple[Owned, ...]) -> Sheet:
    rows = (
        (each.standing, each.title, each.part, Decimal(str(each.quantity)), each.unit, in_full(each.reasons))
        for each in owned
    )
    return Sheet("Already there", _OWNED_HEADER, tuple(rows))


def _reckoned(
    rows: Iterator[tuple[Cell, ...]], packs: int, price: int, sum_: int
) -> Iterator[tuple[Cell, ...]]:
    """With each sum as packs times price, where both are numbers."""
    for number, row in enumerate(rows, 2):
        cells, value = list(row), row[sum_]
        if isinstance(value, Decimal):
            cells[sum_] = Formula(f"={column(packs)}{number}*{column(price)}{number}", value)
        yield tuple(cells)


def _with_total(
    title: str,
    header: tuple[str, ...],
    rows: tuple[tuple[Cell, ...], ...],
    money: tuple[int, ...],
    currency: str,
    label: str = "in all",
) -> Sheet:
    """The last of the columns of money is summed."""
    place = money[-1]
    total: list[Cell] = [label, *[""] * (len(header) - 1)]
    total[place] = sum_of(place, rows, sum((_value(row[place]) for row in rows), Decimal()))
    return Sheet(title, header, rows, money, decimals(currency), tuple(total))


def _value(cell: Cell) -> Decimal:
    cell = cell.value if isinstance(cell, Formula) else cell
    return Decimal(cell) if isinstance(cell, int | Decimal) else Decimal()
