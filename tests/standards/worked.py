"""Worked checks as data: reads the CSV files of worked/, compares what we compute with what was published."""

import csv
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

import pytest

FOLDER = Path(__file__).parent / "worked"
Value = float | str | bool
Calculations = Mapping[str, Callable[..., Value]]


class Check(NamedTuple):
    """One row: a figure to compute from `inputs`, what it must be, how closely, and on whose word."""

    number: int
    figure: str
    inputs: Mapping[str, Value]
    expected: str
    tolerance: str
    document: str
    clause: str
    note: str


def checks(topic: str) -> tuple[Check, ...]:
    with (FOLDER / f"{topic}.csv").open(encoding="utf-8", newline="") as lines:
        return tuple(
            Check(
                int(row["check"]), row["figure"], _inputs(row["inputs"]), row["expected"], row["tolerance"],
                row["document"], row["clause"], row["note"],
            )
            for row in csv.DictReader(lines, strict=True)
        )  # fmt: skip


def all_checks() -> tuple[Check, ...]:
    return tuple(check for path in sorted(FOLDER.glob("*.csv")) for check in checks(path.stem))


def parametrized(topic: str) -> pytest.MarkDecorator:
    """One test per row, named by its number and figure."""
    return pytest.mark.parametrize(
        "check", [pytest.param(check, id=f"{check.number}-{check.figure}") for check in checks(topic)]
    )


def verify(check: Check, calculations: Calculations) -> None:
    actual = calculations[check.figure](**check.inputs)
    if isinstance(actual, bool):
        assert check.expected == ("yes" if actual else "no")
    elif isinstance(actual, str):
        assert check.expected == actual
    else:
        tolerance = 0.0 if check.tolerance == "exact" else float(check.tolerance)
        assert abs(actual - float(check.expected)) <= tolerance, f"{actual} instead of {check.expected}"


def _inputs(cell: str) -> dict[str, Value]:
    pairs = (item.split("=", 1) for item in cell.split("; ") if item)
    return {name: _value(text) for name, text in pairs}


def _value(text: str) -> Value:
    if text in ("yes", "no"):
        return text == "yes"
    try:
        return int(text) if text.lstrip("-").isdigit() else float(text)
    except ValueError:
        return text
