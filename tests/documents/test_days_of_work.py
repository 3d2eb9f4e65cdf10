"""The work of each day in words: nobody works longer than a day has, and what goes on for days stands in each of them."""

import re

import pytest

from firstfix.build.model import Build
from firstfix.documents.schedule.by_day import DayOfWork, days_of_work, numbers_of
from firstfix.schedule.model import Schedule
from schedule.planned import compiled, lined_up, schedule_of

OWN = "own: {plaster: {does: The plasterer closes the wall, takes: 2 days, crew: 0}}"


def days(build: Build) -> tuple[Schedule, tuple[DayOfWork, ...]]:
    schedule = schedule_of(build)
    return schedule, days_of_work(build, schedule, numbers_of(lined_up(build)))


def minutes(text: str) -> int:
    hours, left = (re.search(rf"(\d+) {unit}\b", text) for unit in ("h", "min"))
    return 60 * int(hours[1] if hours else 0) + int(left[1] if left else 0)


@pytest.mark.parametrize("crew", [1, 2])
@pytest.mark.parametrize("more", ["takes: {prepare: 20 h}", "hours: 1 h", OWN])
def test_all_work_once_and_no_day_longer_than_it_is(more: str, crew: int) -> None:
    schedule, found = days(compiled(f"work: {{crew: {crew}, {more}}}"))
    assert all(minutes(each.work) <= crew * schedule.day for each in found)
    total = sum(step.minutes for step in schedule.steps if step.people)
    assert sum(minutes(each.work) for each in found) == total


def test_what_takes_twenty_hours_stands_in_three_days() -> None:
    build = compiled("work: {takes: {prepare: 20 h}}")
    number = str(numbers_of(lined_up(build))["prepare:way/shaft"])
    _, found = days(build)
    shown = [
        number in re.findall(r"\d+", " ".join(stay.steps for each in day.rounds for stay in each.stays))
        for day in found
    ]
    assert sum(shown) >= 3


def test_what_others_do_is_theirs() -> None:
    _, found = days(compiled(f"work: {{{OWN}}}"))
    others = [
        (each.day.number, stay.steps)
        for each in found
        for round_ in each.rounds
        if round_.who == "others"
        for stay in round_.stays
    ]
    assert [day for day, _ in others] == [1, 2]
