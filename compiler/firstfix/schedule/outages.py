"""Which running service is interrupted by the work, and for how long: what is in use now and is moved, set up or plugged anew."""

from collections.abc import Iterable, Iterator, Mapping

from firstfix.build.model import Build
from firstfix.schedule.model import Outage, Planned
from firstfix.work.cautions import HOT_NETWORK
from firstfix.work.model import Task, task_id


def outages(build: Build, tasks: Iterable[Task], steps: Mapping[str, Planned]) -> Iterator[Outage]:
    """In the order in which they begin. What is moved is off until it is powered, and set up, in its new place."""
    found = []
    for task in tasks:
        if HOT_NETWORK in task.cautions:
            last = _back(task, steps)
            found.append(Outage(_names(build, task), task.id, last.id, steps[task.id].start, last.finish))
    yield from sorted(found, key=lambda each: (each.start, each.finish, each.since))


def _back(task: Task, steps: Mapping[str, Planned]) -> Planned:
    """The last step until it runs again."""
    after = [steps[task.id]]
    if task.id == task_id("fit", task.subject):
        again = (task_id(verb, task.subject) for verb in ("power", "set-up"))
        after += [steps[each] for each in again if each in steps]
    return max(after, key=lambda each: (each.finish, each.start, each.id))


def _names(build: Build, task: Task) -> tuple[str, ...]:
    """The device, or those devices at the ends of a cord that are owned already."""
    device = build.devices.get(task.subject)
    if device is not None:
        return (device.name,)
    piece = build.pieces.get(task.subject)
    jacks = piece.ends if piece is not None else (task.subject,)
    ends = (build.devices[build.jacks[each].device] for each in jacks if each in build.jacks)
    return tuple(sorted({device.name for device in ends if device.is_owned}))
