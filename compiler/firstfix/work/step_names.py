"""A step by the name that people type: its id in the checklist, or shorter, without the kind of what it is about: `fit:core`.

Without `@rear`, too: a panel is terminated nowhere else.
"""

import re
from collections.abc import Iterable, Mapping

from firstfix.build import ids
from firstfix.build.ids import natural
from firstfix.source.nearest import nearest
from firstfix.work.model import Task

_MOST_NAMED = 6
_REAR = "@rear"


class StepNames:
    """Looks steps up; made once for all that are asked for."""

    def __init__(self, tasks: Iterable[Task]) -> None:
        self._known = {task.id: task for task in tasks}
        self._short: dict[str, list[str]] = {}
        for task in self._known.values():
            self._short.setdefault(short_name(task), []).append(task.id)
        for id_ in [*self._known]:
            # Whose cable comes in at the rear goes without saying.
            if id_.endswith(_REAR):
                self._short.setdefault(id_.removesuffix(_REAR), []).append(id_)

    def named(self, text: str) -> tuple[str, ...]:
        """Ids of the steps that `text` may mean: none, the one, or several of which one is to be written in full."""
        return (text,) if text in self._known else tuple(self._short.get(text, ()))

    def near(self, text: str) -> tuple[str, ...]:
        """Names of steps: the nearest by spelling, else every step about the thing that is named, or the like of it."""
        close = nearest(text, {*self._known, *self._short})
        if close:
            return (close,)
        thing = text.rpartition(":")[2]
        about = (task for task in self._known.values() if _is_about(ids.path(task.subject), thing))
        return tuple(sorted({short_name(each) for each in about}, key=natural)[:_MOST_NAMED])


def short_name(task: Task) -> str:
    return f"{task.id.partition(':')[0]}:{ids.path(task.subject).removesuffix(_REAR)}"


def short_names(tasks: Mapping[str, Task]) -> Mapping[str, str]:
    """By id the shortest name that means no other step."""
    count: dict[str, int] = {}
    for task in tasks.values():
        count[short_name(task)] = count.get(short_name(task), 0) + 1
    return {id_: short_name(task) if count[short_name(task)] == 1 else id_ for id_, task in tasks.items()}


def _is_about(path: str, thing: str) -> bool:
    """`out-desk/1@rear` and `core--out-desk/1` are about out-desk."""
    return bool(thing) and thing in (path, *re.split(r"/|--", path))
