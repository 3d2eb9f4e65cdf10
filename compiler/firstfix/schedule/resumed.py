"""What is left to schedule once work has begun: steps that are done take no time, and the others go on after the last day recorded."""

import datetime
from collections.abc import Iterable, Sequence
from collections.abc import Set as Ids
from dataclasses import replace

from firstfix.build.model import Build
from firstfix.progress.model import Progress
from firstfix.work.model import Task


def still_open(ordered: Sequence[Task], done: Ids[str]) -> tuple[Task, ...]:
    """The steps that are not done, each after those of them that it waits for; in the same order."""
    if not done:
        return tuple(ordered)
    return tuple(
        replace(task, after=tuple(each for each in task.after if each.before not in done))
        for task in ordered
        if task.id not in done
    )


def resumed(build: Build, progress: Progress) -> Build:
    """The build with its start on the day after the last step that was done, where that is later. No clock is asked."""
    last = max(_days(progress), default="")
    if not build.start or last < build.start:
        return build
    next_day = datetime.date.fromisoformat(last).toordinal() + 1
    if next_day > datetime.date.max.toordinal():
        return build
    return replace(build, start=datetime.date.fromordinal(next_day).isoformat())


def _days(progress: Progress) -> Iterable[str]:
    """Days are texts as ISO 8601 writes them, which sort as days do."""
    yield from (step.on for step in progress.done.values() if step.on)
    yield from (run.on for run in progress.measured.values() if run.on)
