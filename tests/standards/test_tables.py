"""The tables as data: a source on every row, keys once, figures plausible."""

import inspect
import tracemalloc
from collections.abc import Callable
from types import ModuleType
from typing import NamedTuple

import pytest

from firstfix.finding.model import COMMON_PRACTICE, Basis
from firstfix.standards import (
    addresses,
    cabinet,
    cabling,
    catalogue,
    copper,
    installation,
    layer2,
    mains,
    optical,
    poe,
    table,
    thermal,
    twisted_pair,
    work,
)
from firstfix.standards.table import Limit, Record, TableError, keyed, limits, parse, read

FAMILIES = (
    addresses,
    cabinet,
    cabling,
    copper,
    installation,
    layer2,
    mains,
    optical,
    poe,
    thermal,
    twisted_pair,
    work,
)
HEADER = "cord_awg,factor,document,edition,clause,note\n"


def loaders(module: ModuleType) -> list[Callable[[], object]]:
    """The cached functions without arguments that a family module defines."""
    cached = [item for item in vars(module).values() if hasattr(item, "cache_info")]
    return [
        each
        for each in cached
        if each.__module__ == module.__name__ and not inspect.signature(each).parameters
    ]


@pytest.mark.parametrize("module", FAMILIES, ids=lambda module: module.__name__.rpartition(".")[2])
def test_every_loader_loads_and_its_rows_carry_a_basis(module: ModuleType) -> None:
    assert loaders(module)
    for load in loaders(module):
        loaded = load()
        rows = list(loaded.values()) if isinstance(loaded, dict) else list(loaded)  # type: ignore[call-overload]
        assert rows, load
        for row in rows:
            assert isinstance(row.basis, Basis), row
            assert row.basis.document, row
            assert row.note.startswith(table.HOW_OBTAINED), row
        assert load() is loaded, "a loader reads its file once"


def test_every_table_is_read_by_some_loader(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: set[str] = set()

    def noted(name: str) -> tuple[Record, ...]:
        seen.add(name)
        return read(name)

    monkeypatch.setattr(table, "read", noted)
    for module in FAMILIES:
        monkeypatch.setattr(module, "read", noted, raising=False)
        for load in loaders(module):
            load.__wrapped__()  # type: ignore[attr-defined]
    assert seen == set(catalogue.table_names())


def test_a_row_has_no_blank_edges_and_no_private_document() -> None:
    for record in catalogue.all_records():
        for column, cell in record.cells.items():
            assert cell == cell.strip(), (record.place, column)
        edition_or_clause = record.cells["edition"] or record.cells["clause"]
        assert edition_or_clause or record.basis == COMMON_PRACTICE, record.place


def test_figures_are_not_negative() -> None:
    for record in catalogue.all_records():
        for column in record.cells:
            unit = column.rpartition("_")[2]
            # Degrees Celsius go below zero out of doors.
            if unit in {*table.UNITS, "km", "mbps", "ohm", "db"} - {"c"} and record.cells[column]:
                assert record.number(column) >= 0, (record.place, column)


def test_common_practice_is_the_basis_that_findings_know() -> None:
    assert COMMON_PRACTICE in catalogue.all_bases()
    assert mains.mains_limits().leakage_advised.basis == COMMON_PRACTICE


def test_a_basis_reads_as_document_edition_clause() -> None:
    basis = cabling.cabling_limits().permanent_link.basis
    assert str(basis) == "ANSI/TIA-568.2-D (2018), permanent link length"


@pytest.mark.parametrize(
    ("row", "complaint"),
    [
        ("24,1.2,,,,from memory", "no source"),
        ("24,1.2,ANSI/TIA-568.2-D,2018,cords,", "the note does not begin"),
        ("24,1.2,ANSI/TIA-568.2-D,2018,cords,I believe", "the note does not begin"),
        ("24,1.2,ANSI/TIA-568.2-D,,,from memory", "neither edition nor clause"),
        ("24,1.2,ANSI/TIA-568.2-D,2018,cords", "5 cells under 6 columns"),
        ("24,1.2,ANSI/TIA-568.2-D,2018,cords,from memory,more", "7 cells under 6 columns"),
    ],
)
def test_a_row_without_a_source_is_refused(row: str, complaint: str) -> None:
    with pytest.raises(TableError, match=f"cords:2: {complaint}"):
        parse(HEADER + row, "cords")


def test_a_table_without_source_columns_is_refused() -> None:
    for text in ("", "cord_awg,factor\n24,1.2\n"):
        with pytest.raises(TableError, match="the last columns"):
            parse(text, "cords")


def test_a_cell_of_the_wrong_kind_is_refused() -> None:
    (row,) = parse("a,b,c,document,edition,clause,note\n1.5,inf,maybe,RFC 1,1969,all,derived\n", "odd")
    assert row.number("a") == 1.5
    for ask in (
        lambda: row.whole("a"),
        lambda: row.number("b"),
        lambda: row.number("c"),
        lambda: row.flag("c"),
        lambda: row.text("d"),
    ):
        with pytest.raises(TableError, match="odd:2"):
            ask()


def test_a_key_that_stands_twice_is_refused() -> None:
    with pytest.raises(TableError, match="'a' stands twice"):
        keyed(["a", "b", "a"], lambda row: row)


class One(NamedTuple):
    only: Limit


@pytest.mark.parametrize(
    "rows",
    [
        "limit,length_m,count\nonly,,",
        "limit,length_m,count\nonly,1,2",
        "limit,length_m\nother,1",
        "limit,length_m\nonly,1\nmore,2",
        "limit,length_m\nonly,1\nonly,2",
        "limit,length_furlong\nonly,1",
    ],
)
def test_a_table_of_limits_that_does_not_fit_is_refused(rows: str, monkeypatch: pytest.MonkeyPatch) -> None:
    header, *lines = rows.split("\n")
    text = "\n".join(
        [f"{header},document,edition,clause,note", *(f"{line},RFC 1,1969,all,derived" for line in lines)]
    )
    monkeypatch.setattr(table, "read", lambda name: parse(text, name))
    with pytest.raises(TableError):
        limits("ones", One)


def test_tables_stay_small_in_memory() -> None:
    """All tables together are kept for the life of a run; a megabyte would be a mistake."""
    tracemalloc.start()
    try:
        kept = catalogue.all_records()
        size, _ = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert kept
    assert size < 1_000_000
