"""install.ics: the days of work, and by when to order, for any calendar that reads RFC 5545.

All are whole days, for no plan says when a day's work begins. A uid stays as long as what it stands for stays: the third day of
work moves when the schedule does, and is not there twice. DTSTAMP is the plan's start, since nothing here reads a clock.
"""

import datetime
import hashlib
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.schedule.by_day import DayOfWork, days_of_work
from firstfix.documents.stubs.text import visible
from firstfix.schedule.model import Schedule

# RFC 5545, 3.1: lines of at most 75 octets, without the line break.
_LONGEST_LINE = 75
# A description is to be read on a telephone.
_MOST_STAYS = 40


class Event(NamedTuple):
    """`key` makes the uid. `date` as text; whole days. `is_busy`: whether somebody is at work."""

    key: str
    date: str
    title: str
    words: str
    is_busy: bool


def calendar(build: Build, schedule: Schedule, numbers: Mapping[str, int], is_draft: bool) -> str:
    """The file's text, with its CRLF. `build` has a start."""
    events = sorted(_events(build, schedule, numbers, is_draft), key=lambda each: (each.date, each.key))
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//firstfix//install calendar//EN",
        "CALSCALE:GREGORIAN",
        *_property("NAME", f"{build.name or 'Network'}: installing"),
    ]
    for event in events:
        lines += _event(build, event)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


def _events(build: Build, schedule: Schedule, numbers: Mapping[str, int], is_draft: bool) -> Iterator[Event]:
    mark = "DRAFT, not to be built from: " if is_draft else ""
    days = days_of_work(build, schedule, numbers)
    for number, day in enumerate(days, 1):
        words = f"{_day_words(day)}\nThe numbers are those of install-checklist.html."
        yield Event(
            f"day {number}",
            day.day.date,
            f"{mark}Install day {number} of {len(days)}",
            words,
            True,
        )
    for order in (each for each in schedule.orders if each.by is not None):
        where = f"at {order.shop}" if order.shop else "what no shop is named for"
        first = f"Step {numbers[order.first]}" if order.first in numbers else "The work"
        words = f"{first} needs it first, on {schedule.days.date_at(order.needed)}. It comes within {order.lead} days."
        if order.unheld:
            words += f" Steps wait for it: for none to wait, it should have been ordered by {schedule.days.date_at(order.unheld)}."
        by = schedule.days.date_at(order.by or 0)
        yield Event(f"order {order.shop}", by, f"{mark}Order {where}, today at the latest", words, False)
    for phase in schedule.phases:
        if phase.by:
            late = " It is planned to be done later." if phase.is_late else ""
            title = f"{mark}Phase {phase.name} is to be done today"
            yield Event(f"phase {phase.name}", phase.by, title, f"As the plan says.{late}", False)


def _day_words(day: DayOfWork) -> str:
    lines = [
        f"{f'{each.who}, ' if each.who else ''}{stay.room}: {'steps' if stay.is_several else 'step'} {stay.steps}"
        for each in day.rounds
        for stay in each.stays
    ]
    left = len(lines) - _MOST_STAYS
    shown = "\n".join(lines[:_MOST_STAYS]) + (f"\nand {left} more" if left > 0 else "")
    helped = f"\nA second person is needed for {day.help_at}." if day.help_at else ""
    return f"{day.work} of work.\n{shown}{helped}"


def _event(build: Build, event: Event) -> Iterator[str]:
    day = _day(event.date)
    if day is None:
        return
    yield "BEGIN:VEVENT"
    yield f"UID:{_uid(build, event.key)}"
    yield f"DTSTAMP:{build.start.replace('-', '')}T000000Z"
    yield f"DTSTART;VALUE=DATE:{day:%Y%m%d}"
    # The day after the last one (RFC 5545, 3.6.1).
    yield f"DTEND;VALUE=DATE:{day + datetime.timedelta(days=1):%Y%m%d}"
    yield from _property("SUMMARY", event.title)
    yield from _property("DESCRIPTION", event.words)
    yield f"TRANSP:{'OPAQUE' if event.is_busy else 'TRANSPARENT'}"
    yield "END:VEVENT"


def _day(text: str) -> datetime.date | None:
    """None for what lies beyond all calendars."""
    try:
        day = datetime.date.fromisoformat(text)
    except ValueError:
        return None
    return day if day < datetime.date.max else None


def _uid(build: Build, key: str) -> str:
    """RFC 7986, 5.3: a value that says nothing of who made it."""
    return hashlib.sha256(f"{build.name}\n{key}".encode(errors="surrogatepass")).hexdigest()[:32]


def _property(name: str, text: str) -> Iterator[str]:
    """RFC 5545, 3.3.11: backslash, semicolon, comma and line break are escaped; no other control character is text."""
    lines = (visible(line) for line in text.split("\n"))
    escaped = "\\n".join(line.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,") for line in lines)
    yield f"{name}:{escaped}"


def _folded(line: str) -> Iterator[str]:
    """In lines of at most 75 octets, no character cut in two; each but the first begins with a space."""
    left, room, mark = "", _LONGEST_LINE, ""
    for character in line:
        size = len(character.encode(errors="surrogatepass"))
        if size > room:
            yield mark + left
            left, room, mark = "", _LONGEST_LINE - 1, " "
        left, room = left + character, room - size
    yield mark + left
