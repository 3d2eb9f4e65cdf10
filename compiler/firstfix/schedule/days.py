"""Working time to days and back. Without a `start` the days have numbers, and the first is the first of the week that is worked on."""

import datetime
from bisect import bisect_left, bisect_right
from typing import NamedTuple

from firstfix.build.working import Working

# A Monday. It stands for the week in which work begins, where no plan says which.
_SOME_MONDAY = datetime.date(2001, 1, 1).toordinal()
_LAST = datetime.date.max.toordinal()


class Day(NamedTuple):
    """The `number`-th working day, from 1; `offset` days after the start; `date` as text, or "" without a start.

    `weekday`: Monday is 0.
    """

    number: int
    offset: int
    date: str
    weekday: int


class Days:
    """The working days of one plan."""

    def __init__(self, start: str, working: Working) -> None:
        self._is_dated = bool(start)
        self._weekdays = working.days
        begin = datetime.date.fromisoformat(start).toordinal() if start else _SOME_MONDAY + min(working.days)
        self._start = begin
        self._first = self._at_or_after(begin)
        closed = (
            {datetime.date.fromisoformat(each).toordinal() for each in working.closed} if start else set()
        )
        worked = (each for each in closed if (each - 1) % 7 in self._weekdays and each >= begin)
        self._closed = sorted(map(self._at_or_after, worked))

    def __getitem__(self, index: int) -> Day:
        """The day at `index`, from 0."""
        # Each closed day that is passed moves the day on by one, which may pass further ones.
        passed, place = -1, self._first + index
        while bisect_right(self._closed, place) != passed:
            passed = bisect_right(self._closed, place)
            place = self._first + index + passed
        week, weekday = divmod(place, len(self._weekdays))
        ordinal = week * 7 + 1 + self._weekdays[weekday]
        return Day(index + 1, ordinal - self._start, self._text(ordinal), (ordinal - 1) % 7)

    def on_or_after(self, offset: int) -> int:
        """The index of the first working day that is at least `offset` days after the start."""
        place = self._at_or_after(self._start + offset)
        return place - self._first - bisect_left(self._closed, place)

    def date_at(self, offset: int) -> str:
        """The date `offset` days after the start, "" without a start."""
        return self._text(self._start + offset)

    def _at_or_after(self, ordinal: int) -> int:
        """The first day of the working week, closed or not, from this one on, as a count from the first of the calendar."""
        week, weekday = divmod(ordinal - 1, 7)
        return week * len(self._weekdays) + bisect_left(self._weekdays, weekday)

    def _text(self, ordinal: int) -> str:
        if not self._is_dated:
            return ""
        return datetime.date.fromordinal(ordinal).isoformat() if ordinal <= _LAST else "after the year 9999"
