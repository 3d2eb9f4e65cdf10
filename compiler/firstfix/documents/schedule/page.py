"""install-checklist.html: the work to tick off, on a screen or on paper, with its days. It needs no script and no other file."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from markupsafe import Markup

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.install_checklist import checklist_sections, tools, totals
from firstfix.documents.schedule.by_day import days_of_work
from firstfix.documents.schedule.words import (
    after_start,
    begins,
    counted,
    day_words,
    ends,
    hands,
    listed,
    time_words,
)
from firstfix.documents.stubs.text import visible
from firstfix.documents.templates import render
from firstfix.finding.model import COMMON_PRACTICE
from firstfix.schedule.model import Planned, Schedule
from firstfix.work.model import Task

TEMPLATE = "install-checklist.html.jinja"
# More sheets than this are only named: nobody scrolls past them to the first step.
_MOST_SHEETS = 4
_CARRY = ("switch", "gateway", "access-point")
_NAME_SPACE = ' xmlns="http://www.w3.org/2000/svg"'


class When(NamedTuple):
    """A step's day and time in words. `waits`: for its parts; `decides`: it is in the longest chain. `float`: how late it may be."""

    day: str
    takes: str
    people: str
    waits: bool
    decides: bool
    float: str


class Row(NamedTuple):
    cells: tuple[str, ...]


def checklist_page(
    build: Build,
    ordered: tuple[Task, ...],
    schedule: Schedule,
    sheets: tuple[Drawing, ...],
    done: frozenset[str],
    draft: str,
) -> str:
    """`draft`: why nothing may be built from it, or "". What the plan says is escaped; what cannot be seen is shown by its code."""
    numbers = {task.id: number for number, task in enumerate(ordered, 1)}
    text = render(
        TEMPLATE,
        name=build.name or "Network",
        draft=draft,
        totals=totals(build, ordered),
        tools=tools(ordered),
        sentences=tuple(_sentences(schedule, numbers)),
        days=days_of_work(build, schedule, numbers),
        orders=tuple(_orders(schedule, numbers)),
        outages=tuple(_outages(build, schedule, numbers)),
        phases=tuple(_phases(schedule)),
        sheets=tuple(Markup(each.svg.replace(_NAME_SPACE, "", 1)) for each in sheets[:_MOST_SHEETS]),  # noqa: S704  # our own
        more_sheets=max(0, len(sheets) - _MOST_SHEETS),
        sections=checklist_sections(build, ordered, done),
        when=_when(schedule),
        done=counted(len(done & numbers.keys()), "step"),
        has_done=bool(done & numbers.keys()),
    )
    return "\n".join(line if line.isprintable() else visible(line) for line in text.split("\n"))


def _sentences(schedule: Schedule, numbers: Mapping[str, int]) -> Iterator[str]:
    """When all is done, how sure that is, and what it rests on."""
    if not schedule.steps:
        yield "All steps are done."
        return
    if len(schedule.steps) < len(numbers):
        first, done = schedule.days[0], len(numbers) - len(schedule.steps)
        yield (
            f"{counted(done, 'step')} {'is' if done == 1 else 'are'} done. What remains is reckoned from {day_words(first)} on: the "
            "plan's 'start', or the day after the last that is recorded. If work goes on later, write a later 'start'."
        )
    last = schedule.days[schedule.last_day(schedule.finish)]
    count = f", the {_ordinal(last.number)} day of work" if last.date else ""
    yield f"With {hands(schedule)}, all is done on {day_words(last)}{count}."
    if schedule.is_soonest:
        yield "No order of these steps is done on an earlier day."
    else:
        yield f"Whether another order is done sooner is not known; none is before {ends(schedule, schedule.bound)}."
    fewest = ", and no order has fewer" if schedule.is_fewest else ""
    yield f"It takes {counted(schedule.walks, 'walk')} from room to room{fewest}."
    said = ", ".join(f"{verb} {time_words(minutes)}" for verb, minutes in sorted(schedule.said.items()))
    own = f"; the plan says otherwise for {said}" if said else ""
    yield f"How long a step takes is {COMMON_PRACTICE.document}{own}. Take it as a first guess, and write your own under 'work'."
    chain = sum(step.minutes for step in schedule.steps if step.id in frozenset(schedule.chain))
    steps = listed(numbers[each] for each in schedule.chain)
    yield f"With hands enough, what decides is the longest chain of steps that wait for each other: {steps}, {time_words(chain)} of work."
    if any(step.dates.total_float for step in schedule.steps):
        yield (
            "Float is by how much a step may be late, in hours of work and with hands enough, before all is done later; "
            "free is how much of it makes no other step begin later."
        )
    if schedule.without_length:
        steps = counted(len(schedule.without_length), "step")
        yield f"{steps} {'is' if len(schedule.without_length) == 1 else 'are'} reckoned too short: how long the way is, is not known."
    if any(order.lead is None for order in schedule.orders):
        yield "How long some parts take to come is not said; they are reckoned to be there at the start."


def _ordinal(number: int) -> str:
    """
    >>> [_ordinal(each) for each in (1, 2, 3, 11, 21, 112)]
    ['1st', '2nd', '3rd', '11th', '21st', '112th']
    """
    ending = "th" if number // 10 % 10 == 1 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number:,}{ending}"


def _orders(schedule: Schedule, numbers: Mapping[str, int]) -> Iterator[Row]:
    for order in schedule.orders:
        lead = "not said" if order.lead is None else counted(order.lead, "day")
        step = f" (step {numbers[order.first]})" if order.first in numbers else ""
        by = "cannot tell" if order.by is None else after_start(schedule, order.by)
        if order.unheld:
            by = f"{by}, and steps wait for it; for none to wait, {after_start(schedule, order.unheld)}"
        needed = f"{after_start(schedule, order.needed)}{step}"
        yield Row((order.shop or "all that no shop is named for", lead, by, needed))


def _outages(build: Build, schedule: Schedule, numbers: Mapping[str, int]) -> Iterator[Row]:
    """What forwards others' traffic takes them with it, but for a cord more in one of its jacks."""
    carries = {device.name for device in build.devices.values() if device.part.kind in _CARRY}
    for outage in schedule.outages:
        first, last = schedule.first_day(outage.start), schedule.last_day(outage.finish)
        night = "" if first == last else f", over {counted(last - first, 'night')}"
        to = f" to {numbers[outage.until]}" if outage.until != outage.since else ""
        long = f"{time_words(outage.finish - outage.start)} of work{night}"
        is_cord = outage.since.startswith(("patch:", "connect:"))
        others = ", and all that hangs on it" if not is_cord and carries.intersection(outage.names) else ""
        names = (", ".join(outage.names) or "what hangs on it") + others
        yield Row((names, begins(schedule, outage.start), f"{numbers[outage.since]}{to}", long))


def _phases(schedule: Schedule) -> Iterator[Row]:
    if len(schedule.phases) == 1 and not schedule.phases[0].name:
        return
    verdicts = {True: "late", False: "in time", None: "cannot tell"}
    for phase in schedule.phases:
        by = phase.by or "not said"
        verdict = verdicts[phase.is_late] if phase.by else ""
        name = phase.name or "before all phases"
        yield Row((name, begins(schedule, phase.start), ends(schedule, phase.finish), by, verdict))


def _when(schedule: Schedule) -> Mapping[str, When]:
    helped, chain = frozenset(schedule.helped), frozenset(schedule.chain)
    return {
        step.id: When(
            begins(schedule, step.start),
            time_words(step.minutes),
            _people(step, step.id in helped),
            step.waits_for_parts,
            step.id in chain,
            _float(step),
        )
        for step in schedule.steps
    }


def _float(step: Planned) -> str:
    """Total float, and of it what is free: textbook words, explained at the head of the page."""
    total, free = step.dates.total_float, step.dates.free_float
    if not total:
        return ""
    return f"float {time_words(total)}" + (f", free {time_words(free)}" if free != total else ", all free")


def _people(step: Planned, is_helped: bool) -> str:
    if step.people == 1:
        return ""
    if not step.people:
        return "done by others"
    return f"{step.people} people" + (": more than the crew" if is_helped else "")
