"""Which task takes which item: each thing that is not in place yet is in one hand at one step."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from firstfix.build.hardware import IN_PLACE, Item
from firstfix.build.ids import natural
from firstfix.parts.part import ACTIVE_KINDS, TERMINATION_KINDS
from firstfix.work.model import Task, task_id
from firstfix.work.preparing import UNPACK
from firstfix.work.survey import Survey

# By the kind of the part, the verbs of the tasks that may take it, in order; the first that there is
# for its subject does.
_VERBS: Mapping[str, tuple[str, ...]] = {
    "cable": ("pull",),
    "cord": ("patch",),
    "label": ("pull", "patch", "hang"),
    "tie": ("finish",),
    "wall-box": ("box",),
    "power-cord": ("power",),
    "earth-kit": ("bond",),
    "transceiver": ("patch",),
    "cabinet": ("hang",),
    "pathway-material": ("prepare", "pull"),
    "consumable": ("close",),
    **dict.fromkeys(ACTIVE_KINDS, ("unbox",)),
}
_ANY = ("fit", "anchor", "hang", "pull", "patch", "prepare", "power")
# One of these goes on each end that is terminated. They come and are needed in the natural order of jacks.
_END_KINDS = ("jack-module", "plug")
# These name the end that they are for: item:core--desk/1@0+pigtail-lc-os2.
_FIBRE_KINDS = ("fibre-end", "consumable")


def with_parts(site: Survey, tasks: tuple[Task, ...]) -> tuple[Task, ...]:
    """The same tasks with the items that each takes. What no task asks for is at hand from unpacking on."""
    homes = _Homes(site, tasks)
    taken: dict[str, list[str]] = {}
    for item in sorted(site.build.items, key=lambda each: natural(each.id)):
        if item.standing != IN_PLACE:
            taken.setdefault(homes.of(item), []).append(item.id)
    return tuple(replace(task, parts=tuple(taken.get(task.id, ()))) for task in tasks)


class _Homes:
    """Finds tasks for items, and remembers which terminations have their jack module or plug already."""

    def __init__(self, site: Survey, tasks: Iterable[Task]) -> None:
        self._site = site
        self._phases = {task.id: task.phase for task in tasks}
        self._open_ends: dict[str, list[str]] = {}
        ends = ((end, piece) for piece in site.runs() for end in piece.ends)
        for end, piece in sorted(ends, key=lambda pair: natural(pair[0])):
            device = site.device_at(end)
            subject = device.id if device.part.kind in TERMINATION_KINDS else piece.id
            self._open_ends.setdefault(subject, []).append(task_id("terminate", end))

    def of(self, item: Item) -> str:
        first = ""
        for each in self._candidates(item):
            if each in self._phases:
                if self._is_in_time(each, item):
                    return each
                first = first or each
        return self._of_its_phase(item) or first or UNPACK

    def _is_in_time(self, task: str, item: Item) -> bool:
        """Whether the item has come by then."""
        key = self._site.phase_key
        return not item.phase or key(self._phases[task]) >= key(item.phase)

    def _of_its_phase(self, item: Item) -> str:
        """What a later phase adds to a thing that is there: taken at the first cable of the phase that it can be for."""
        if not item.phase:
            return ""
        made = (each for each in self._cabling_at(item.for_id) if self._phases.get(each) == item.phase)
        return min(made, key=natural, default="")

    def _cabling_at(self, subject: str) -> Iterator[str]:
        build = self._site.build
        for piece in build.pieces.values():
            if subject in piece.route:
                yield task_id("pull", piece.id)
        for piece in self._site.pieces_at.get(subject, ()):
            for end in piece.ends:
                if build.jacks[end].device == subject:
                    yield task_id("terminate", end)
        for device in build.devices.values() if subject in build.cabinets else ():
            if device.cabinet == subject:
                yield from (task_id("patch", piece.id) for piece in self._site.pieces_at.get(device.id, ()))

    def _candidates(self, item: Item) -> Iterator[str]:
        part = self._site.part(item.part)
        kind = part.kind if part else ""
        if kind in _END_KINDS:
            open_ends = self._open_ends.get(item.for_id, [])
            if item.count == 1 and open_ends:
                yield open_ends.pop(0)
        piece = self._site.build.pieces.get(item.for_id)
        if piece is not None and kind in _FIBRE_KINDS:
            yield task_id("terminate", piece.ends["@1+" in item.id])
        for verb in (*_VERBS.get(kind, ()), *_ANY):
            yield task_id(verb, item.for_id)
