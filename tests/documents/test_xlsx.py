"""Workbooks, read back by another library: texts are texts whatever they say, sums follow their figures, bytes stay the same."""

import io
import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.hostile_texts import HOSTILE
from firstfix.build.model import Build
from firstfix.documents.csv_table import guarded
from firstfix.documents.order_workbook import order_sheet_xlsx
from firstfix.documents.shopping_list import CSV_HEADER
from firstfix.documents.shopping_workbook import shopping_list_xlsx
from firstfix.documents.xlsx import Formula, Sheet, sum_of, workbook
from firstfix.purchase.needs import needs, total
from firstfix.purchase.owned import already_there
from firstfix.work.tasks import tasks
from firstfix.work.tool_parts import tool_lines
from purchase.sample import PARTS, sample, with_parts
from purchase.shopping import farm, ordered


def shopping(build: Build) -> bytes:
    return shopping_list_xlsx(build, needs(build), already_there(build), tool_lines(build, tasks(build)))


def pages(given_: bytes, cached: bool = False) -> dict[str, list[tuple[Any, ...]]]:
    book = openpyxl.load_workbook(io.BytesIO(given_), data_only=cached)
    return {page.title: list(page.iter_rows(values_only=True)) for page in book}


def unescaped(text: str) -> str:
    """What cannot stand in XML is written by its number: ISO/IEC 29500-1, ST_Xstring; the reader leaves that to us."""
    return re.sub("_x([0-9A-F]{4})_", lambda found: chr(int(found[1], 16)), text)


def reckoned(rows: list[tuple[Any, ...]]) -> list[list[Any]]:
    """Every formula worked out here, from the cells alone: products of two cells, and sums of a column."""
    table: list[list[Any]] = [list(row) for row in rows]

    def at(letter: str, row: str) -> Any:
        return value(table[int(row) - 1]["ABCDEFGHIJKLMNOPQRSTUVWXYZ".index(letter)])

    def value(cell: Any) -> Any:
        if not (isinstance(cell, str) and cell.startswith("=")):
            return cell
        if product := re.fullmatch(r"=([A-Z])(\d+)\*([A-Z])(\d+)", cell):
            return exact(at(product[1], product[2])) * exact(at(product[3], product[4]))
        summed = re.fullmatch(r"=SUM\(([A-Z])(\d+):\1(\d+)\)", cell)
        assert summed is not None
        cells = (at(summed[1], str(row)) for row in range(int(summed[2]), int(summed[3]) + 1))
        return sum((exact(each) for each in cells if not isinstance(each, str)), Decimal())

    return [[value(cell) for cell in row] for row in table]


def exact(number: float) -> Decimal:
    return Decimal(str(number))


@pytest.mark.parametrize("build", [sample(), farm()], ids=lambda build: build.name)
def test_the_sums_reckon_to_the_total(build: Build) -> None:
    rows = pages(shopping(build))["To buy"]
    place = CSV_HEADER.index("sum")
    worked = reckoned(rows)
    assert worked[-1][place] == Decimal(total(needs(build)).known) / 100
    assert sum(str(row[place]).startswith("=") for row in rows) > 5


@pytest.mark.parametrize("build", [sample(), farm()], ids=lambda build: build.name)
def test_readers_that_do_not_reckon_see_the_same(build: Build) -> None:
    made = shopping(build)
    for title, rows in pages(made).items():
        seen = pages(made, cached=True)[title]
        for row, others in zip(reckoned(rows), seen, strict=True):
            for cell, other in zip(row, others, strict=True):
                assert cell == (exact(other) if isinstance(cell, Decimal) else other)


def test_a_line_without_a_price_is_no_nought() -> None:
    rows = pages(shopping(sample()))["To buy"]
    sums = {row[CSV_HEADER.index("what")]: row[CSV_HEADER.index("sum")] for row in rows}
    assert sums["shelf, 1U"] == "no price"


def test_a_plan_that_buys_nothing_has_a_sum_of_nought() -> None:
    build = replace(sample(), items=())
    (header, all_) = pages(shopping_list_xlsx(build, (), (), ()))["To buy"]
    assert header == CSV_HEADER
    assert all_[CSV_HEADER.index("sum")] == 0


@pytest.mark.parametrize("text", HOSTILE)
def test_a_plans_words_are_texts(text: str) -> None:
    parts = (replace(PARTS[name], title=text) for name in ("poe-switch", "indoor-cable", "router"))
    book = openpyxl.load_workbook(io.BytesIO(shopping(replace(with_parts(sample(), *parts), name=text))))
    found = [cell for page in book for row in page.iter_rows() for cell in row]
    words = [str(cell.value) for cell in found if cell.data_type in ("s", "str", "inlineStr") and cell.value]
    assert not [word for word in words if word.lstrip(" ")[:1] in set("=+-@\t\r＝＋－＠")]
    assert not [cell.value for cell in found if cell.hyperlink]
    for cell in found:
        if cell.data_type == "f":
            assert re.fullmatch(r"=[A-Z]\d+\*[A-Z]\d+|=SUM\([A-Z]\d+:[A-Z]\d+\)", str(cell.value))
    assert guarded(text) in {unescaped(word) for word in words}


@given(st.text(st.characters(codec="utf-8", exclude_characters="\ufffe\uffff"), max_size=30))
@settings(derandomize=True, deadline=None, max_examples=60)
def test_texts_read_back(text: str) -> None:
    rows = pages(workbook([Sheet("One", ("text", "end"), ((text, "."),))]))["One"]
    assert unescaped(rows[1][0] or "") == guarded(text)


def test_numbers_in_texts_stay_texts_and_long_texts_are_clipped() -> None:
    rows = pages(workbook([Sheet("One", ("a", "b", "c"), (("007", "1e5", "x" * 40_000),))]))["One"]
    assert rows[1][:2] == ("007", "1e5")
    assert len(rows[1][2]) == 32_000


def test_a_row_of_another_length_is_our_fault() -> None:
    with pytest.raises(ValueError, match="a row of 1 cells under 2 columns"):
        workbook([Sheet("One", ("a", "b"), (("x",),))])


def test_a_sum_of_no_rows_is_a_number() -> None:
    assert sum_of(2, (), 0) == 0
    assert sum_of(2, ("x", "y"), 3) == Formula("=SUM(C2:C3)", 3)


def test_same_build_same_bytes() -> None:
    build = sample()
    assert shopping(replace(build, items=build.items[::-1])) == shopping(build)


def test_an_order_reckons_to_what_is_paid() -> None:
    build = farm()
    _, order = ordered(build)
    assert order.parcels
    for parcel in order.parcels:
        rows = reckoned(pages(order_sheet_xlsx(build, parcel))["Order"])
        assert rows[-1][rows[0].index("sum")] == Decimal(parcel.paid) / 100
        lines = [row for row in rows[1:-1] if row[0]]
        assert [row[0] for row in lines] == [each.line for each in parcel.lines]
        assert order_sheet_xlsx(build, parcel) == order_sheet_xlsx(build, parcel)
