"""Which task takes which item: each thing that is not in place yet is in one hand at one step."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from firstfix.build.hardware import IN_PLACE, Item
from firstfix.work.model import Task, task_id
from firstfix.work.preparing import UNPACK
from firstfix.work.survey import Survey

# By the kind of the part, the verbs of the tasks that may take it, in order; the first that exists for
# its subject does.
_VERBS: Mapping[str, tuple[str, ...]] = {
    "cable": ("pull",),
    "cord": ("patch",),
    "label": ("pull", "patch", "fit"),
    "jack-module": ("terminate", "fit"),
    "plug": ("terminate", "fit"),
    "wall-box": ("box",),
    "power-cord": ("power", "fit"),
    "earth-kit": ("bond",),
    "transceiver": ("patch", "connect", "fit"),
    "tie": ("finish", "patch", "pull", "fit"),
    "cabinet": ("hang",),
    "pathway-material": ("prepare", "pull"),
}
_ANY = ("fit", "anchor", "hang", "pull", "patch", "terminate", "connect", "prepare", "power", "finish")


def with_parts(site: Survey, tasks: tuple[Task, ...]) -> tuple[Task, ...]:
    """The same tasks with the items that each takes. What no task asks for is at hand from unpacking on."""
    known = {task.id for task in tasks}
    taken: dict[str, list[str]] = {}
    for item in site.build.items:
        if item.standing != IN_PLACE:
            home = next((each for each in _homes(site, item) if each in known), UNPACK)
            taken.setdefault(home, []).append(item.id)
    return tuple(replace(task, parts=tuple(sorted(taken.get(task.id, ())))) for task in tasks)


def _homes(site: Survey, item: Item) -> Iterator[str]:
    part = site.part(item.part)
    verbs = (*_VERBS.get(part.kind if part else "", ()), *_ANY)
    for verb in verbs:
        yield task_id(verb, item.for_id)
        yield task_id(verb, f"{item.for_id}@rear")
    device = site.build.jacks[item.for_id].device if item.for_id in site.build.jacks else ""
    yield task_id("fit", device)
