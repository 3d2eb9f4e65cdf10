"""All the work of a build, as tasks that know what must precede them. `order` then lines them up."""

from collections.abc import Iterable
from dataclasses import replace

from firstfix.build.model import Build
from firstfix.work.model import Task
from firstfix.work.mounting import mounting_tasks
from firstfix.work.parts_taken import with_parts
from firstfix.work.patching import patching_tasks
from firstfix.work.powering import powering_tasks
from firstfix.work.preparing import preparing_tasks
from firstfix.work.proving import proving_tasks
from firstfix.work.settings import settings_tasks
from firstfix.work.survey import survey
from firstfix.work.wiring import wiring_tasks

_MAKERS = (
    preparing_tasks,
    mounting_tasks,
    wiring_tasks,
    patching_tasks,
    powering_tasks,
    settings_tasks,
    proving_tasks,
)


def tasks(build: Build) -> tuple[Task, ...]:
    """Every step, sorted by id. Each item that is not in place already is taken by exactly one of them."""
    site = survey(build)
    made = sorted((task for make in _MAKERS for task in make(site)), key=lambda task: task.id)
    return with_parts(site, _settled(made))


def _settled(made: Iterable[Task]) -> tuple[Task, ...]:
    """Without precedences to steps that there are not: what is in place already was done before the plan."""
    found = tuple(made)
    known = {task.id for task in found}
    return tuple(
        replace(
            task, after=tuple(each for each in task.after if each.before in known and each.before != task.id)
        )
        for task in found
    )
