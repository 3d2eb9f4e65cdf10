"""Steps that the author adds, and of which nothing is known but what the plan says of them: the plasterer, a visit, a holiday."""

from collections.abc import Iterator

from firstfix.work.model import Stage, Task, task_id
from firstfix.work.survey import Survey


def own_tasks(site: Survey) -> Iterator[Task]:
    for step in site.build.working.own:
        room = site.build.rooms.get(step.room)
        yield Task(
            task_id("own", step.id),
            Stage.OWN,
            step.id,
            step.does,
            room.building if room else "",
            step.room,
            0,
            step.phase,
            (),
            (),
            (),
            (),
            (),
            (),
        )
