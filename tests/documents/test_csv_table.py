"""CSV that reads back, and that no spreadsheet takes for a formula."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.hostile_texts import HOSTILE
from firstfix.documents.csv_table import csv_table, guarded


@pytest.mark.parametrize("start", list("=+-@\t\r"))
def test_what_starts_a_formula_is_guarded(start: str) -> None:
    assert guarded(f"{start}1+1") == f"'{start}1+1"
    assert guarded(f"  {start}1+1").startswith("'")


@pytest.mark.parametrize("text", ["", "core", "10.0.0.1", "a=b", "'quoted'"])
def test_other_text_is_left_alone(text: str) -> None:
    assert guarded(text) == text


@given(st.lists(st.tuples(st.text(max_size=12), st.integers(0, 10**6)), max_size=5))
@settings(derandomize=True, deadline=None)
def test_rows_read_back(rows: list[tuple[str, int]]) -> None:
    text = csv_table(("name", "count"), rows)
    back = list(csv.reader(io.StringIO(text, newline="")))
    assert back == [["name", "count"], *([guarded(name), str(count)] for name, count in rows)]


def test_the_form_is_that_of_rfc_4180() -> None:
    text = csv_table(("a", "b"), [('say "no"', Decimal("1.50")), ("two\nlines", 3)])
    assert text == '"a","b"\r\n"say ""no""",1.50\r\n"two\nlines",3\r\n'


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("separator", [",", ";"])
def test_no_cell_starts_a_formula_whichever_separator_is_expected(text: str, separator: str) -> None:
    """A spreadsheet set to semicolons splits at these; quoted text stays whole even then."""
    for row in csv.reader(io.StringIO(csv_table(("a", "b"), [(text, 1)]), newline=""), delimiter=separator):
        for cell in row:
            assert cell.lstrip(" ")[:1] not in set("=+-@\t\r＝＋－＠")


def test_a_row_of_another_length_is_our_fault() -> None:
    with pytest.raises(ValueError, match="a row of 1 cells under 2 columns"):
        csv_table(("a", "b"), [("x",)])
