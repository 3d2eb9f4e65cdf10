"""install-checklist.md: the work in its order, a box to tick for each step, with what it must show and what can hurt.

Takes tasks in order and the build that they were made from; gives the file's text. It says nothing
about how long a step takes, which is a guess that the schedule makes, but of the author's own, of which the plan says it.
"""

from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import NamedTuple

from firstfix.build.hardware import Item
from firstfix.build.model import Build
from firstfix.build.working import OwnStep
from firstfix.documents.schedule.words import listed, time_words
from firstfix.documents.templates import render
from firstfix.purchase.lines import title_of
from firstfix.units import metres, number
from firstfix.work.model import Stage, Task
from firstfix.work.stage_rules import TITLES, rules_of

_SHOWN_PRECEDENCES = 4


class Step(NamedTuple):
    """One step in words. `number` is its place in this list; `id` stays when the list changes. `takes`: how long, where the plan says it."""

    number: int
    id: str
    title: str
    phase: str
    after: str
    parts: str
    tools: str
    checks: tuple[str, ...]
    cautions: tuple[str, ...]
    records: tuple[str, ...]
    is_done: bool
    takes: str = ""


class Place(NamedTuple):
    name: str
    steps: tuple[Step, ...]


class Section(NamedTuple):
    """Steps of one stage and phase that follow each other, by place. A stage that is taken up again has a further section."""

    title: str
    rules: tuple[str, ...]
    places: tuple[Place, ...]


def install_checklist_markdown(
    build: Build, ordered: tuple[Task, ...], done: frozenset[str] = frozenset()
) -> str:
    """Markdown with task lists (an extension); without it they read as a plain list that is ticked on paper.

    Steps whose ids are `done` have their box ticked.
    """
    return render(
        "install-checklist.md.jinja",
        name=build.name,
        totals=totals(build, ordered),
        tools=tools(ordered),
        sections=checklist_sections(build, ordered, done),
    )


def checklist_sections(
    build: Build, ordered: tuple[Task, ...], done: frozenset[str] = frozenset()
) -> tuple[Section, ...]:
    """The steps in words, numbered through; those whose ids are `done` say so."""
    numbers = {task.id: place for place, task in enumerate(ordered, start=1)}
    writer = _Writer(build, numbers, {item.id: item for item in build.items}, done)
    return tuple(writer.section(*key, list(group)) for key, group in groupby(ordered, _by_stage))


def tools(ordered: tuple[Task, ...]) -> tuple[str, ...]:
    """Every tool that a step names, each once."""
    return tuple(sorted({tool for task in ordered for tool in task.tools}))


def _by_stage(task: Task) -> tuple[str, Stage]:
    return task.phase, task.stage


def totals(build: Build, ordered: tuple[Task, ...]) -> tuple[str, ...]:
    """What the list adds up to."""
    by_verb: dict[str, int] = {}
    for task in ordered:
        verb = task.id.partition(":")[0]
        by_verb[verb] = by_verb.get(verb, 0) + 1
    taken = {item for task in ordered for item in task.parts}
    cable = sum(
        item.length * item.count for item in build.items if item.id in taken and item.for_id in build.pieces
    )
    counted = (
        (by_verb.get("pull", 0), f"runs to pull, {metres(cable)} of cable"),
        (by_verb.get("terminate", 0), "ends to terminate"),
        (by_verb.get("test", 0), "runs to test"),
        (by_verb.get("patch", 0), "cords to plug in"),
        (by_verb.get("power", 0), "things to power up"),
    )
    return (f"{len(ordered)} steps", *(f"{count} {what}" for count, what in counted if count))


def _again(caution: str, first: int) -> str:
    """
    >>> _again("Ladder: on firm ground, a second person to hold it.", 4)
    'Ladder: as at step 4.'
    """
    return f"{caution.partition(':')[0]}: as at step {first}."


def _takes(step: OwnStep) -> str:
    return f"{time_words(step.minutes)} of work" + ("" if step.crew else ", by others")


class _Writer:
    """Turns tasks into words, with the numbers that the steps have in this list."""

    def __init__(
        self, build: Build, numbers: Mapping[str, int], items: Mapping[str, Item], done: frozenset[str]
    ) -> None:
        self._build = build
        self._numbers = numbers
        self._items = items
        self._done = done
        self._takes = {step.id: _takes(step) for step in build.working.own if step.minutes}

    def section(self, phase: str, stage: Stage, tasks: list[Task]) -> Section:
        places = groupby(tasks, lambda task: (task.building, task.room))
        return Section(
            TITLES[stage] + (f" (phase {phase})" if phase else ""),
            rules_of(stage),
            tuple(Place(self._place(*key), self._steps(group)) for key, group in places),
        )

    def _steps(self, tasks: Iterable[Task]) -> tuple[Step, ...]:
        """What can hurt is said in full at the first step of a place, and named again at each that follows there."""
        first: dict[str, int] = {}
        steps = []
        for task in tasks:
            number = self._numbers[task.id]
            said = tuple(
                each if first.setdefault(each, number) == number else _again(each, first[each])
                for each in task.cautions
            )
            steps.append(self._step(task, said))
        return tuple(steps)

    def _place(self, building: str, room: str) -> str:
        if not room:
            return "Anywhere"
        several = len(self._build.buildings) > 1 and building in self._build.buildings
        name = self._build.rooms[room].name
        return f"{self._build.buildings[building].name}, {name}" if several else name

    def _step(self, task: Task, cautions: tuple[str, ...]) -> Step:
        return Step(
            self._numbers[task.id],
            task.id,
            task.title,
            task.phase,
            self._after(task),
            self._parts(task),
            ", ".join(task.tools),
            tuple(f"{check.what}: {check.expected}" for check in task.checks),
            cautions,
            task.records,
            task.id in self._done,
            self._takes.get(task.subject, ""),
        )

    def _after(self, task: Task) -> str:
        """ "3, 5 (the cabinet holds it); 8 (it must run)": steps with the same reason together, the latest reasons first."""
        by_why: dict[str, list[int]] = {}
        for each in task.after:
            by_why.setdefault(each.why, []).append(self._numbers[each.before])
        ranked = sorted(by_why.items(), key=lambda pair: -max(pair[1]))
        texts = [f"{listed(steps)} ({why})" for why, steps in ranked[:_SHOWN_PRECEDENCES]]
        left = sum(len(steps) for _, steps in ranked[_SHOWN_PRECEDENCES:])
        return "; ".join(texts) + (f"; and {left} further {'step' if left == 1 else 'steps'}" if left else "")

    def _parts(self, task: Task) -> str:
        counts: dict[str, float] = {}
        for item in (self._items[each] for each in task.parts):
            title = title_of(self._build.library.get(item.part), item.part)
            key = f"{title}, {metres(item.length)}" if item.length else title
            counts[key] = counts.get(key, 0) + item.count
        return "; ".join(f"{number(count)} × {title}" for title, count in sorted(counts.items()))
