"""How long a step of the work is reckoned to take. No standard says it: every row is common practice, and a plan may say otherwise."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import keyed, read


class WorkDuration(NamedTuple):
    """Minutes for a step of this kind, more for each metre and for each thing it counts.

    `of`: the medium of a cable or the kind of a way, "" for any other.
    """

    step: str
    of: str
    minutes: float
    per_m: float
    each: float
    basis: Basis
    note: str


@cache
def work_durations() -> Mapping[tuple[str, str], WorkDuration]:
    """By kind of step and what it is about: ("pull", "fibre"); every kind has a row for ""."""
    rows = (
        WorkDuration(
            row.text("step"),
            row.text("of"),
            row.number("minutes"),
            row.number("minutes_per_m"),
            row.number("minutes_each"),
            row.basis,
            row.note,
        )
        for row in read("work_durations")
    )
    return keyed(rows, lambda row: (row.step, row.of))


def kinds_of_step() -> tuple[str, ...]:
    """Every kind of step that there is, in the order of the table."""
    return tuple(step for step, of in work_durations() if not of)


@cache
def changeover_durations() -> Mapping[str, WorkDuration]:
    """By kind of step, of what is done only in a network that is there already."""
    rows = (
        WorkDuration(row.text("step"), "", row.number("minutes"), 0.0, 0.0, row.basis, row.note)
        for row in read("changeover_durations")
    )
    return keyed(rows, lambda row: row.step)
