"""Rows as a CSV file that spreadsheets open without running anything. RFC 4180: CRLF, quotes doubled.

Text is always quoted, numbers never: then a separator in a text splits no cell, whichever separator the
reader expects.
"""

import csv
import io
from collections.abc import Iterable, Sequence
from decimal import Decimal

Cell = str | int | Decimal

# What makes a spreadsheet read a cell as a formula. The full-width forms and the line feed count for some
# of them. OWASP, "CSV Injection" (from memory).
_FORMULA_STARTS = "=+-@\t\r\n＝＋－＠"


def csv_table(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    """The file's text. Raises ValueError where a row is not as long as the header: a fault of the caller."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n", quoting=csv.QUOTE_NONNUMERIC)
    for row in (header, *rows):
        if len(row) != len(header):
            raise ValueError(f"a row of {len(row)} cells under {len(header)} columns")
        writer.writerow([guarded(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue()


def guarded(text: str) -> str:
    """`text`, with an apostrophe before it if a spreadsheet could take it for a formula, even after spaces.

    >>> guarded("=1+1"), guarded("core")
    ("'=1+1", 'core')
    """
    return f"'{text}" if text.lstrip(" ")[:1] and text.lstrip(" ")[0] in _FORMULA_STARTS else text
