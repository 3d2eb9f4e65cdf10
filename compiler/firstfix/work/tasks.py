"""All the work of a build, as tasks that know what must precede them. `order` then lines them up."""

from collections.abc import Iterable
from dataclasses import replace

from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.work.model import Task
from firstfix.work.mounting import mounting_tasks
from firstfix.work.own import own_tasks
from firstfix.work.parts_taken import with_parts
from firstfix.work.patching import patching_tasks
from firstfix.work.powering import powering_tasks
from firstfix.work.preparing import preparing_tasks
from firstfix.work.proving import proving_tasks
from firstfix.work.settings import settings_tasks
from firstfix.work.survey import survey
from firstfix.work.wanted import Woven, weave
from firstfix.work.wiring import wiring_tasks

_MAKERS = (
    preparing_tasks,
    mounting_tasks,
    wiring_tasks,
    patching_tasks,
    powering_tasks,
    settings_tasks,
    proving_tasks,
    own_tasks,
)


def tasks(build: Build) -> tuple[Task, ...]:
    """Every step, sorted by id. Each item that is not in place already is taken by exactly one of them."""
    return woven(build).tasks


def woven(build: Build) -> Woven:
    """The same, with what became of the order that the plan wants."""
    site = survey(build)
    made = sorted((task for make in _MAKERS for task in make(site)), key=lambda task: task.id)
    settled = with_parts(site, _settled(made, site.phase_key))
    return weave(settled, build.working.after, site.phase_key)


def _settled(made: Iterable[Task], phase_key: PhaseKey) -> tuple[Task, ...]:
    """Without precedences to steps that there are not: what is in place already was done before the plan.

    Nor does a step wait for one of a later phase: what is run behind a device next summer cannot hold it up now.
    """
    found = tuple(made)
    phase_of = {task.id: phase_key(task.phase) for task in found}

    def holds(task: Task, before: str) -> bool:
        return before in phase_of and before != task.id and phase_of[before] <= phase_of[task.id]

    return tuple(
        replace(task, after=tuple(each for each in task.after if holds(task, each.before))) for task in found
    )
