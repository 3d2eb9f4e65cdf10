"""What is done on each day, room by room, in the numbers that the steps have in the checklist."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.schedule.words import day_words, listed, time_words
from firstfix.schedule.days import Day
from firstfix.schedule.model import Planned, Schedule
from firstfix.work.model import Task


class Stay(NamedTuple):
    """Work in one room without leaving it."""

    room: str
    steps: str
    is_several: bool


class Round(NamedTuple):
    """Where one person goes in one day; `who` is "" if there is only one. A step of two people is in the rounds of both."""

    who: str
    stays: tuple[Stay, ...]


class DayOfWork(NamedTuple):
    day: Day
    name: str
    work: str
    rounds: tuple[Round, ...]
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
                tuple(_rounds(build, schedule, steps, numbers)),
                listed(numbers[step.id] for step in steps if step.id in helped),
            )
        )
    return tuple(found)


def _rounds(
    build: Build, schedule: Schedule, steps: Sequence[Planned], numbers: Mapping[str, int]
) -> Iterator[Round]:
    for person in sorted({who for step in steps for who in step.who}):
        mine = [step for step in steps if person in step.who]
        yield Round(f"person {person + 1}" if schedule.crew > 1 else "", tuple(_stays(build, mine, numbers)))


def _stays(build: Build, steps: Sequence[Planned], numbers: Mapping[str, int]) -> Iterator[Stay]:
    for room, group in groupby(steps, lambda step: step.room):
        found = [numbers[step.id] for step in group]
        name = build.rooms[room].name if room in build.rooms else "anywhere"
        yield Stay(name, listed(found), len(found) > 1)
