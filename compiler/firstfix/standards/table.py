"""Reads the tables of this folder: a name in, rows out, each with its basis. Refuses a row without a source.

Takes CSV text whose columns carry their unit in their name (`length_m`); the last four are always document,
edition, clause and note. Gives `Record`s; each table family makes its own typed rows of them.
"""

import csv
import math
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import NamedTuple, TypeVar

from firstfix.finding.model import COMMON_PRACTICE, Basis

FOLDER = Path(__file__).parent / "tables"
SOURCE_COLUMNS = ("document", "edition", "clause", "note")
HOW_OBTAINED = ("looked up", "from memory", "derived")

# The unit that a column's last word stands for; a column of `Limit`s must end in one of these.
UNITS: Mapping[str, str] = {
    "m": "m", "mm": "mm", "ohm": "Ω", "w": "W", "v": "V", "a": "A", "ma": "mA", "n": "N", "s": "s", "k": "K",
    "c": "°C", "count": "", "fraction": "", "ft": "kcmil/ft",
    "deg": "°",
}  # fmt: skip

RowT = TypeVar("RowT")
KeyT = TypeVar("KeyT")


class TableError(Exception):
    """A table of ours is broken: a fault in the compiler, never in the plan."""


class Record(NamedTuple):
    """One row as read: its cells by column, the basis of a finding that rests on it, how we came by it."""

    place: str
    cells: Mapping[str, str]
    basis: Basis
    note: str

    def text(self, column: str) -> str:
        try:
            return self.cells[column]
        except KeyError:
            raise TableError(f"{self.place}: no column {column!r}") from None

    def number(self, column: str) -> float:
        try:
            value = float(self.text(column))
        except ValueError:
            raise TableError(f"{self.place}: {column} is no number") from None
        if not math.isfinite(value):
            raise TableError(f"{self.place}: {column} is not finite")
        return value

    def number_or_none(self, column: str) -> float | None:
        return self.number(column) if self.text(column) else None

    def whole(self, column: str) -> int:
        value = self.number(column)
        if value != int(value):
            raise TableError(f"{self.place}: {column} is no whole number")
        return int(value)

    def flag(self, column: str) -> bool:
        word = self.text(column)
        if word not in ("yes", "no"):
            raise TableError(f"{self.place}: {column} is neither yes nor no")
        return word == "yes"


class Limit(NamedTuple):
    """One published figure that stands alone, with its unit and its source."""

    value: float
    unit: str
    basis: Basis
    note: str


def read(table: str) -> tuple[Record, ...]:
    """The rows of `tables/<table>.csv`, in file order."""
    return parse((FOLDER / f"{table}.csv").read_text(encoding="utf-8"), table)


def parse(text: str, table: str) -> tuple[Record, ...]:
    """The rows of CSV `text`; `table` names it in faults.

    Raises TableError where a row has too few or too many cells, or does not say where its fact is from.
    """
    lines = csv.reader(text.splitlines(), strict=True)
    header = next(lines, [])
    if tuple(header[-4:]) != SOURCE_COLUMNS:
        raise TableError(f"{table}: the last columns are not {', '.join(SOURCE_COLUMNS)}")
    return tuple(_record(header, cells, f"{table}:{lines.line_num}") for cells in lines)


def _record(header: list[str], cells: list[str], place: str) -> Record:
    if len(cells) != len(header):
        raise TableError(f"{place}: {len(cells)} cells under {len(header)} columns")
    document, edition, clause, note = cells[-4:]
    if not document:
        raise TableError(f"{place}: no source")
    if not note.startswith(HOW_OBTAINED):
        raise TableError(f"{place}: the note does not begin with one of {', '.join(HOW_OBTAINED)}")
    if not (edition or clause or document == COMMON_PRACTICE.document):
        raise TableError(f"{place}: neither edition nor clause of {document}")
    basis = Basis(f"{document} ({edition})" if edition else document, clause)
    return Record(place, dict(zip(header, cells, strict=True)), basis, note)


def keyed(rows: Iterable[RowT], key: Callable[[RowT], KeyT]) -> dict[KeyT, RowT]:
    """The rows by key; a key that stands twice is a TableError."""
    found: dict[KeyT, RowT] = {}
    for row in rows:
        if key(row) in found:
            raise TableError(f"{key(row)!r} stands twice")
        found[key(row)] = row
    return found


def limits(table: str, shape: Callable[..., RowT]) -> RowT:
    """A table of single figures as the NamedTuple `shape`: row "cord-formula" is its field `cord_formula`.

    Raises TableError where rows and fields differ, or a row does not hold exactly one figure.
    """
    found = keyed(
        ((row.text("limit").replace("-", "_"), _limit(row)) for row in read(table)), lambda pair: pair[0]
    )
    try:
        return shape(**dict(found.values()))
    except TypeError as error:
        raise TableError(f"{table}: {error}") from error


def _limit(row: Record) -> Limit:
    columns = [
        name for name in row.cells if name != "limit" and name not in SOURCE_COLUMNS and row.cells[name]
    ]
    if len(columns) != 1:
        raise TableError(f"{row.place}: {len(columns)} figures in one row")
    unit = UNITS.get(columns[0].rpartition("_")[2])
    if unit is None:
        raise TableError(f"{row.place}: {columns[0]} ends in no known unit")
    return Limit(row.number(columns[0]), unit, row.basis, row.note)
