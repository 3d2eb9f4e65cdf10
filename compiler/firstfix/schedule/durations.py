"""How many minutes a step takes: as the plan says for its kind, else as the table of usual durations reckons it."""

import math

from firstfix.build.model import Build
from firstfix.parts.facts import Fact
from firstfix.standards.work import WorkDuration, work_durations
from firstfix.work.model import Task
from firstfix.work.preparing import DIRECT_BURIAL, is_dug


class Durations:
    """`without_length`: steps reckoned without their length, which is not known; grows as steps are asked for."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._said = dict(build.working.takes)
        self._own = {step.id: step.minutes for step in build.working.own}
        self._rows = work_durations()
        self._run_at = {end: piece for piece in build.pieces.values() for end in piece.ends}
        self.without_length: list[str] = []

    def minutes(self, task: Task) -> int:
        if task.subject in self._own:
            return self._own[task.subject]
        verb = task.id.partition(":")[0]
        if verb in self._said:
            return self._said[verb]
        row = self._rows.get((verb, self._about(task))) or self._rows[verb, ""]
        return math.ceil(row.minutes + self._by_length(task, row) + row.each * len(task.checks))

    def _about(self, task: Task) -> str:
        """The medium of a cable, the kind of a way."""
        way = self._build.ways.get(task.subject)
        if way is not None:
            # A duct that is bought takes a trench, as cable in the ground does.
            return DIRECT_BURIAL if is_dug(way) else way.kind
        piece = self._build.pieces.get(task.subject) or self._run_at.get(task.subject)
        part = self._build.library.get(piece.part) if piece is not None else None
        return part.cable.medium if part is not None and part.cable is not None else ""

    def _by_length(self, task: Task, row: WorkDuration) -> float:
        if not row.per_m:
            return 0.0
        way, piece = self._build.ways.get(task.subject), self._build.pieces.get(task.subject)
        figure = (
            way.length if way is not None else piece.length.as_planned.figure if piece is not None else None
        )
        if isinstance(figure, Fact):
            return figure.typical * row.per_m
        self.without_length.append(task.id)
        return 0.0
