"""Nothing is unchecked: each row of each table has a literal that was typed in anew, each formula a second method or an outside library.

`literals/*.csv` hold one line for each row of each table: its key, its figures, and how we came by them: looked up (L), from memory (M),
or derived (D). They were typed from the notes on the standards, not copied from the tables. Compared both ways.
"""

import csv
import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import firstfix.physics
from firstfix.standards import catalogue
from firstfix.standards.table import SOURCE_COLUMNS, Record, read
from standards.formula_oracles import ORACLES

FOLDER = Path(__file__).parent / "literals"
MARKS = {"L": "looked up", "M": "from memory", "D": "derived"}
# How many of a table's first columns say which row it is; one where not named.
KEYS = {
    "temperature_derating": 2, "phy_reach": 5, "fixed_link_models": 2, "optical_reach": 4, "fibre_loss": 4,
    "separation_distance": 2, "bend_radius": 2, "mains_plugs": 2, "work_durations": 2,
}  # fmt: skip
PROSE = ("needs", "caveat")

Row = tuple[str, str]


def _of_table(table: str, record: Record) -> tuple[Row, tuple[list[float | str], str]]:
    columns = [name for name in record.cells if name not in (*SOURCE_COLUMNS, *PROSE)]
    cells = [record.cells[name] for name in columns]
    count = KEYS.get(table, 1)
    figures = " ".join(cell for cell in cells[count:] if cell)
    mark = next(letter for letter, words in MARKS.items() if record.note.startswith(words))
    return (table, " / ".join(cells[:count])), (_figures(figures), mark)


def _figures(text: str) -> list[float | str]:
    return [_figure(word) for word in text.split()]


def _figure(word: str) -> float | str:
    try:
        return float(word)
    except ValueError:
        return word


def _literals() -> Iterator[tuple[Row, tuple[list[float | str], str]]]:
    for path in sorted(FOLDER.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as lines:
            for line in csv.DictReader(lines, strict=True):
                yield (line["table"], line["key"]), (_figures(line["figures"]), line["mark"])


def test_no_literal_stands_twice() -> None:
    rows = [row for row, _ in _literals()]
    assert len(rows) == len(set(rows))


@pytest.mark.parametrize("table", catalogue.table_names())
def test_each_row_is_as_it_was_typed_anew(table: str) -> None:
    """No row without a literal, no literal without a row; the same figures; the same word on how we came by them."""
    typed = {row: said for row, said in _literals() if row[0] == table}
    assert dict(_of_table(table, record) for record in read(table)) == typed


def _formulas() -> Iterator[str]:
    """`module.function` of each public function of physics."""
    for found in pkgutil.iter_modules(firstfix.physics.__path__):
        module = importlib.import_module(f"firstfix.physics.{found.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield f"{found.name}.{name}"


def test_each_formula_has_a_second_method() -> None:
    assert set(ORACLES) == set(_formulas())


@pytest.mark.parametrize("formula", sorted(ORACLES))
def test_the_second_method_is_there(formula: str) -> None:
    """The test that it names exists, and the test itself (not only its module) calls the formula."""
    name = formula.rpartition(".")[2]
    for place in ORACLES[formula]:
        module_name, _, test = place.rpartition(".")
        found = getattr(importlib.import_module(module_name), test, None)
        assert found is not None, place
        source = inspect.getsource(inspect.unwrap(found))
        assert f"{name}(" in source or f"{name}," in source, place
