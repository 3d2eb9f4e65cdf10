"""`work:`: on which days, for how many hours and by how many people the work is done, and what takes longer than usual."""

import datetime
import re
from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import AfterSpec, OwnStepSpec, WorkSpec, Written
from firstfix.source.fields import Fields, as_quantity, as_text, check_name
from firstfix.source.nearest import nearest_word
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, is_null
from firstfix.units import DURATION

DAY_NAMES = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
WORK_KEYS = ("days", "hours", "crew", "closed", "takes", "lead", "own", "after", "note")
OWN_KEYS = ("does", "room", "phase", "takes", "crew", "note")
_MINUTE, _HOUR, _DAY = 60.0, 3600.0, 86_400.0
# Shorter than the shortest step is no day's work; a step of more than a month is a fault of typing.
_SHORTEST_DAY = 0.5 * _HOUR
_LONGEST_STEP = 31 * _DAY
# A year, beyond which nobody waits.
_LONGEST_LEAD = 366 * _DAY
_MOST_PEOPLE = 100
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def read_work(fields: Fields, start: str, faults: Collector) -> WorkSpec | None:
    """`{days: [sat, sun], hours: 6 h, crew: 2, closed: [2027-04-05], takes: {pull: 25 min}, lead: 10 days,
    after: {close:stair-void: {test:core--desk: the carpet layer comes only once}}}`
    """
    node = fields.value("work")
    if node is None:
        return None
    work = Fields(node, faults, "'work'", WORK_KEYS)
    hours = work.quantity("hours", DURATION, _SHORTEST_DAY, _DAY)
    lead = work.quantity("lead", DURATION, 0, _LONGEST_LEAD)
    return WorkSpec(
        days=tuple(sorted(_days(work))),
        minutes=None if hours is None else round(hours / _MINUTE),
        crew=work.integer("crew", 1, _MOST_PEOPLE),
        closed=tuple(sorted(_closed(work, start, faults))),
        takes=tuple(sorted(_takes(work, faults))),
        lead=None if lead is None else -int(-lead // _DAY),
        written=Written(None, node),
        own=tuple(_own(work, faults)),
        after=tuple(sorted(set(_after(work, faults)))),
    )


def _days(work: Fields) -> Iterator[int]:
    """Days of the week, each once."""
    seen: set[int] = set()
    for text, node in work.texts("days"):
        if text not in DAY_NAMES:
            near = _short(text)
            hint = f"; write '{near}'" if near else ""
            listed = ", ".join(f"'{each}'" for each in DAY_NAMES)
            work.wrong(node, f"a day of 'days' is one of {listed}, not '{clip(text)}'{hint}", near)
        elif DAY_NAMES.index(text) in seen:
            work.wrong(node, f"'{text}' stands twice in 'days'")
        else:
            seen.add(DAY_NAMES.index(text))
            yield DAY_NAMES.index(text)


def _short(text: str) -> str:
    long = nearest_word(text, _WEEKDAYS)
    return long[:3] if long else nearest_word(text, DAY_NAMES)


def _closed(work: Fields, start: str, faults: Collector) -> Iterator[str]:
    """Days without work. They need to be in the time of the work, so the plan says when it starts."""
    seen: set[str] = set()
    for node in work.items("closed"):
        text = as_text(node, faults, "a day of 'closed'")
        if text is None:
            continue
        fault = _fault_of_day(text, start, seen)
        if fault:
            work.wrong(node, fault)
        else:
            seen.add(text)
            yield text


def _fault_of_day(text: str, start: str, seen: set[str]) -> str:
    if not _is_day(text):
        return f"a day of 'closed' is a date such as 2027-04-05 (year-month-day), not '{clip(text)}'"
    if text in seen:
        return f"'{text}' stands twice in 'closed'"
    if not start:
        return f"'{text}' says nothing without the plan's 'start': days are then numbered, not dated"
    if text < start:
        return f"'{text}' lies before the plan's 'start' ({start}), when nothing is done yet"
    return ""


def _is_day(text: str) -> bool:
    if not _ISO_DAY.fullmatch(text):
        return False
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _takes(work: Fields, faults: Collector) -> Iterator[tuple[str, int]]:
    """Minutes by kind of step."""
    for text, key, value in work.table("takes"):
        if _is_kind_of_step(work, text, key):
            seconds = as_quantity(value, faults, DURATION, f"what '{clip(text)}' takes", 0, _LONGEST_STEP)
            if seconds is not None:
                yield text, -int(-seconds // _MINUTE)


def _own(work: Fields, faults: Collector) -> Iterator[OwnStepSpec]:
    """`{plaster: {does: the plasterer closes the wall, room: loft, takes: 2 days, crew: 0}}`"""
    for name, key, node in work.table("own"):
        is_name = check_name(name, key, faults)
        step = Fields(node, faults, f"the step '{clip(name)}'", OWN_KEYS)
        needed = [step.require(each) for each in ("does", "takes")]
        does, takes = step.text("does"), step.quantity("takes", DURATION, _MINUTE, _LONGEST_STEP)
        room, phase, crew = step.text("room"), step.text("phase"), step.integer("crew", 0, _MOST_PEOPLE)
        if is_name and all(needed) and does is not None and takes is not None:
            yield OwnStepSpec(name, does, room or "", phase or "", takes, crew, Written(key, node))


def _after(work: Fields, faults: Collector) -> Iterator[AfterSpec]:
    """Steps that there are only once the build is made, so none is known here to be wrong."""
    for step, _, node in work.table("after"):
        if isinstance(node, Mapping):
            for before, (key, value) in node.entries.items():
                if not before.startswith("x-"):
                    yield AfterSpec(step, before, _reason(key, value, faults))
        else:
            items = node.items if isinstance(node, Sequence) else (node,)
            texts = (as_text(item, faults, f"what '{clip(step)}' comes after") for item in items)
            yield from (AfterSpec(step, text, "") for text in texts if text is not None)


def _reason(step: Scalar, node: Node, faults: Collector) -> str:
    if is_null(node):
        return ""
    return as_text(node, faults, f"why '{clip(step.text)}' comes first") or ""


def _is_kind_of_step(work: Fields, text: str, key: Node) -> bool:
    from firstfix.standards.work import kinds_of_step

    kinds = kinds_of_step()
    if text in kinds:
        return True
    near = nearest_word(text, kinds)
    hint = f"; did you mean '{near}'?" if near else f"; there are {', '.join(kinds)}"
    work.wrong(key, f"'{clip(text)}' is no kind of step{hint}", near)
    return False
