"""what-remains.md: what is still to order, to come, to read, to do; and what was measured against what was planned.

Takes a Remaining and gives the file's text, and the same rows for report.html.
"""

from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.templates import render
from firstfix.parts.facts import Fact
from firstfix.purchase.lines import METRES
from firstfix.remaining.model import LineStanding, OpenStep, Remaining, RunStanding
from firstfix.units import metres, number

# A step that waits for many is not helped by all of them: the first ones have to be done before anyway.
_SHOWN_WAITS = 4


class StepRow(NamedTuple):
    id: str
    title: str
    place: str
    phase: str
    waits_for: str


class LineRow(NamedTuple):
    id: str
    title: str
    amount: str
    of: str


class RunRow(NamedTuple):
    run: str
    name: str
    planned: str
    measured: str
    verdict: str


class WhatRemains(NamedTuple):
    """`sentences` sum it up. `to_come`: ordered and not here yet."""

    sentences: tuple[str, ...]
    to_order: tuple[LineRow, ...]
    to_come: tuple[LineRow, ...]
    unread: tuple[str, ...]
    now: tuple[StepRow, ...]
    later: tuple[StepRow, ...]
    runs: tuple[RunRow, ...]


def what_remains_markdown(build: Build, found: Remaining) -> str:
    return render("what-remains.md.jinja", name=build.name, left=what_remains(found))


def what_remains(found: Remaining) -> WhatRemains:
    """What is left, in words."""
    return WhatRemains(
        tuple(sentences(found)),
        tuple(_row(line, line.to_order) for line in found.lines if line.to_order),
        tuple(_row(line, line.to_come) for line in found.lines if line.to_come),
        found.unread,
        tuple(_step(step) for step in found.steps if step.is_free),
        tuple(_step(step) for step in found.steps if not step.is_free),
        tuple(_run(run) for run in found.runs if run.measured or run.verdict),
    )


def sentences(found: Remaining) -> Iterable[str]:
    """Where the build stands, a sentence for each kind of thing."""
    if found.is_nothing:
        yield "Nothing remains: all is bought, done and read."
    here = sum(line.is_here for line in found.lines)
    coming = sum(line.to_come > 0 for line in found.lines)
    open_lines = sum(line.to_order > 0 for line in found.lines)
    yield f"{len(found.done)} of {found.all_steps} steps are done, {_now(found)} can be done now."
    yield f"Of {len(found.lines)} lines to buy {here} have arrived, {coming} are on their way, {open_lines} are still to order."
    measured = sum(run.measured > 0 for run in found.runs)
    unread = f"; {len(found.unread)} MAC addresses are still to be read" if found.unread else ""
    yield f"{measured} of {len(found.runs)} installed runs are measured{unread}."


def _now(found: Remaining) -> int:
    return sum(step.is_free for step in found.steps)


def _row(line: LineStanding, amount: float) -> LineRow:
    return LineRow(line.id, line.title, _amount(amount, line.unit), _amount(line.wanted, line.unit))


def _amount(amount: float, unit: str) -> str:
    return metres(amount) if unit == METRES else number(amount)


def _step(step: OpenStep) -> StepRow:
    more = len(step.waits_for) - _SHOWN_WAITS
    shown = ", ".join(step.waits_for[:_SHOWN_WAITS]) + (f" and {more} more" if more > 0 else "")
    if step.waits_for_parts:
        parts = f"the arrival of {', '.join(step.waits_for_parts)}"
        shown = f"{shown}; {parts}" if shown else parts
    return StepRow(step.id, step.title, step.place, step.phase, shown)


def _run(run: RunStanding) -> RunRow:
    planned = metres(run.planned.typical) if isinstance(run.planned, Fact) else "not known"
    return RunRow(run.run, run.name, planned, metres(run.measured) if run.measured else "", run.verdict)
