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
    """Where one person goes in one day; `who` is "" if there is only one, and "others" for what others do.

    A step of two people is in the rounds of both.
    """

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
    """Every day on which there is work. What takes longer than a day stands in each that it goes on in."""
    helped = frozenset(schedule.helped)
    on: dict[int, list[Planned]] = {}
    for step in schedule.steps:
        for index in range(schedule.first_day(step.start), _last_day(schedule, step) + 1):
            on.setdefault(index, []).append(step)
    return tuple(
        DayOfWork(
            schedule.days[index],
            day_words(schedule.days[index]),
            time_words(sum(_minutes_on(schedule, step, index) for step in steps if step.people)),
            tuple(_rounds(build, schedule, steps, numbers)),
            listed(numbers[step.id] for step in steps if step.id in helped),
        )
        for index, steps in sorted(on.items())
    )


def _last_day(schedule: Schedule, step: Planned) -> int:
    return max(schedule.first_day(step.start), schedule.last_day(step.finish))


def _minutes_on(schedule: Schedule, step: Planned, index: int) -> int:
    begin = index * schedule.day
    return max(0, min(step.finish, begin + schedule.day) - max(step.start, begin))


def _rounds(
    build: Build, schedule: Schedule, steps: Sequence[Planned], numbers: Mapping[str, int]
) -> Iterator[Round]:
    for person in sorted({who for step in steps for who in step.who}):
        mine = [step for step in steps if person in step.who]
        yield Round(f"person {person + 1}" if schedule.crew > 1 else "", tuple(_stays(build, mine, numbers)))
    others = [step for step in steps if not step.people]
    if others:
        yield Round("others", tuple(_stays(build, others, numbers)))


def _stays(build: Build, steps: Sequence[Planned], numbers: Mapping[str, int]) -> Iterator[Stay]:
    for room, group in groupby(steps, lambda step: step.room):
        found = [numbers[step.id] for step in group]
        name = build.rooms[room].name if room in build.rooms else "anywhere"
        yield Stay(name, listed(found), len(found) > 1)
