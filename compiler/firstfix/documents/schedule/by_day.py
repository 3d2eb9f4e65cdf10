"""What is done on each day, room by room, in the numbers that the steps have in the checklist."""

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.schedule.words import day_words, listed, time_words
from firstfix.schedule.days import Day
from firstfix.schedule.model import Planned, Schedule
from firstfix.work.model import Task


class Stay(NamedTuple):
    """Work in one room without leaving it; with several people, others may be elsewhere meanwhile."""

    room: str
    steps: str
    ids: tuple[str, ...]


class DayOfWork(NamedTuple):
    day: Day
    name: str
    work: str
    stays: tuple[Stay, ...]
    help_at: str


def numbers_of(ordered: Sequence[Task]) -> Mapping[str, int]:
    """The number that each step has in the checklist."""
    return {task.id: number for number, task in enumerate(ordered, 1)}


def days_of_work(build: Build, schedule: Schedule, numbers: Mapping[str, int]) -> tuple[DayOfWork, ...]:
    """Every day on which a step begins."""
    helped = frozenset(schedule.helped)
    found = []
    for index, group in groupby(schedule.steps, lambda step: schedule.first_day(step.start)):
        steps = list(group)
        day = schedule.days[index]
        found.append(
            DayOfWork(
                day,
                day_words(day),
                time_words(sum(step.minutes for step in steps)),
                tuple(_stays(build, steps, numbers)),
                listed(numbers[step.id] for step in steps if step.id in helped),
            )
        )
    return tuple(found)


def _stays(build: Build, steps: Sequence[Planned], numbers: Mapping[str, int]) -> list[Stay]:
    stays = []
    for room, group in groupby(steps, lambda step: step.room):
        ids = tuple(step.id for step in group)
        name = build.rooms[room].name if room in build.rooms else "anywhere"
        stays.append(Stay(name, listed(numbers[each] for each in ids), ids))
    return stays
