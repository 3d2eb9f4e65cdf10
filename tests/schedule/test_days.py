"""Working days against a plain walk through the calendar, one day after the other."""

import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.build.working import Working
from firstfix.schedule.days import Day, Days

START = datetime.date(2027, 3, 1)
_WEEKDAYS = st.sets(st.integers(0, 6), min_size=1).map(lambda days: tuple(sorted(days)))
_CLOSED = st.sets(st.integers(0, 40), max_size=12)


def _walked(start: datetime.date, working: Working, most: int) -> list[int]:
    """Offsets of the first working days."""
    found: list[int] = []
    offset = 0
    while len(found) < most:
        day = start + datetime.timedelta(days=offset)
        if day.weekday() in working.days and day.isoformat() not in working.closed:
            found.append(offset)
        offset += 1
    return found


@given(st.integers(0, 6), _WEEKDAYS, _CLOSED)
@settings(derandomize=True, deadline=None, max_examples=300)
def test_the_calendar_walked_through(later: int, weekdays: tuple[int, ...], closed: set[int]) -> None:
    start = START + datetime.timedelta(days=later)
    off = tuple(sorted((start + datetime.timedelta(days=each)).isoformat() for each in closed))
    working = Working(days=weekdays, closed=off)
    days, walked = Days(start.isoformat(), working), _walked(start, working, 25)
    for index, offset in enumerate(walked):
        date = start + datetime.timedelta(days=offset)
        assert days[index] == Day(index + 1, offset, date.isoformat(), date.weekday())
    for offset in range(walked[-1] + 1):
        assert days.on_or_after(offset) == next(index for index, each in enumerate(walked) if each >= offset)
        assert days.date_at(offset) == (start + datetime.timedelta(days=offset)).isoformat()


def test_without_a_start_days_are_numbered_from_the_first_of_the_week() -> None:
    days = Days("", Working(days=(5, 6)))
    assert [(days[index].offset, days[index].date) for index in range(4)] == [
        (0, ""),
        (1, ""),
        (7, ""),
        (8, ""),
    ]
    assert days.on_or_after(3) == 2
    assert days.date_at(3) == ""


def test_beyond_the_calendar_nothing_breaks() -> None:
    days = Days("9999-12-30", Working(days=(0,)))
    assert days[0].date == "after the year 9999"
    assert days[10**9].date == "after the year 9999"


@pytest.mark.parametrize("closed", [("2027-03-06", "2027-03-07"), ("2027-02-01",)])
def test_a_closed_day_that_nobody_works_on_changes_nothing(closed: tuple[str, ...]) -> None:
    with_closed, plain = Days("2027-03-01", Working(closed=closed)), Days("2027-03-01", Working())
    assert [with_closed[index] for index in range(20)] == [plain[index] for index in range(20)]
