"""Tables as an Office Open XML workbook (ISO/IEC 29500), sums as formulas, the same bytes for the same tables.

Takes sheets of cells; a text is always text: what a spreadsheet could take for a formula is guarded as it is in CSV, links stay
words, digits in a text stay digits.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO
from typing import TYPE_CHECKING, Any, NamedTuple

from firstfix.documents.csv_table import guarded

if TYPE_CHECKING:
    from xlsxwriter import Workbook  # type: ignore[import-untyped]  # slow to import, so only where a workbook is written
    from xlsxwriter.worksheet import Worksheet  # type: ignore[import-untyped]

# A workbook bears a date of making; the core reads no clock, and a constant keeps the bytes the same.
_CREATED = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
# What a cell holds at the most: specification of the format's widest-used reader (from memory).
_MOST_LETTERS = 32_000
_WIDTHS = (6, 60)
_KINDS = ("plain", "money", "head", "total")


class Formula(NamedTuple):
    """`text` begins with "=" and is never of a plan's own words; `value` is what it comes to, for readers that do not reckon."""

    text: str
    value: int | Decimal


Cell = str | int | Decimal | Formula


class Sheet(NamedTuple):
    """`money`: the columns of amounts, `decimals` their digits after the point. A `total` row stands apart below the others."""

    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    money: tuple[int, ...] = ()
    decimals: int = 2
    total: tuple[Cell, ...] = ()


def column(index: int) -> str:
    """A column's letter; tables here have fewer than 26.

    >>> column(0), column(9)
    ('A', 'J')
    """
    return chr(ord("A") + index)


def workbook(sheets: Iterable[Sheet]) -> bytes:
    """The file's bytes. Raises ValueError where a row is not as long as the header: a fault of the caller."""
    import xlsxwriter

    out = BytesIO()
    made = xlsxwriter.Workbook(out, {"in_memory": True})
    made.set_properties({"created": _CREATED})
    for sheet in sheets:
        _write(made, sheet)
    made.close()
    return out.getvalue()


def _write(made: "Workbook", sheet: Sheet) -> None:
    page = made.add_worksheet(sheet.title)
    shapes = _shapes(made, sheet.decimals)
    lines = (sheet.header, *sheet.rows, *([sheet.total] if sheet.total else []))
    for row, cells in enumerate(lines):
        if len(cells) != len(sheet.header):
            raise ValueError(f"a row of {len(cells)} cells under {len(sheet.header)} columns")
        is_total = bool(sheet.total) and row == len(lines) - 1
        for place, cell in enumerate(cells):
            kind = (
                "head" if row == 0 else "total" if is_total else "money" if place in sheet.money else "plain"
            )
            _write_cell(page, row, place, cell, shapes[kind])
    for place in range(len(sheet.header)):
        page.set_column(place, place, _width(cells[place] for cells in lines))
    page.freeze_panes(1, 0)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    page.repeat_rows(0)


def _shapes(made: "Workbook", decimals: int) -> Mapping[str, Any]:
    amount = "#,##0" + ("." + "0" * decimals if decimals else "")
    looks = (
        {"valign": "top"},
        {"valign": "top", "num_format": amount},
        {"bold": True, "bottom": 1},
        {"bold": True, "top": 1, "num_format": amount},
    )
    return {kind: made.add_format(look) for kind, look in zip(_KINDS, looks, strict=True)}


def _write_cell(page: "Worksheet", row: int, place: int, cell: Cell, shape: Any) -> None:
    if isinstance(cell, Formula):
        page.write_formula(row, place, cell.text, shape, float(cell.value))
    elif isinstance(cell, str):
        page.write_string(row, place, guarded(cell)[:_MOST_LETTERS], shape)
    else:
        page.write_number(row, place, float(cell), shape)


def _width(cells: Iterable[Cell]) -> int:
    least, most = _WIDTHS
    texts = (str(cell.value) if isinstance(cell, Formula) else str(cell) for cell in cells)
    return min(most, max(least, *(len(text) + 2 for text in texts)))


def sum_of(column_: int, rows: Sequence[object], value: int | Decimal) -> Cell:
    """The sum of a column of so many rows below the header, as a formula; a plain number where there are none."""
    letter = column(column_)
    return Formula(f"=SUM({letter}2:{letter}{len(rows) + 1})", value) if rows else value
