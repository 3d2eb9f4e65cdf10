"""Which steps wait for parts: what they take has not arrived, or others that are done have used up what did.

Told only where arrivals are recorded at all: who records none is not told what of it is missing.
"""

from collections.abc import Iterable, Mapping

from firstfix.build.model import Build
from firstfix.progress.model import Progress
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need
from firstfix.remaining.model import LineStanding
from firstfix.work.model import Task
from firstfix.work.preparing import UNPACK

_DUST = 1e-6


class PartsHere:
    """Looks a step's parts up; made once for all steps."""

    def __init__(
        self,
        build: Build,
        needs: Iterable[Need],
        lines: Iterable[LineStanding],
        progress: Progress,
        done: Iterable[Task],
    ) -> None:
        self._short = {
            need.id: (need, line)
            for need, line in zip(needs, lines, strict=True)
            if progress.bought and not line.is_here
        }
        self._line_of = {item: need.id for need, _ in self._short.values() for item in need.items}
        self._items = {item.id: item for item in build.items if item.id in self._line_of}
        finished = tuple(done)
        self._used = self._amounts(finished)
        self._cut = {
            self._items[each].for_id for task in finished for each in task.parts if each in self._items
        }

    def missing(self, task: Task) -> tuple[str, ...]:
        """Names of the lines that it waits for. What is small and unpacked first holds nobody up."""
        if task.id == UNPACK:
            return ()
        short = (
            self._short[id_]
            for id_, amount in self._amounts((task,)).items()
            if self._is_short(id_, amount, task)
        )
        return tuple(sorted(line.id for _, line in short))

    def _amounts(self, tasks: Iterable[Task]) -> Mapping[str, float]:
        """By need, pieces that these steps take; cable goes by its boxes."""
        found: dict[str, float] = {}
        for task in tasks:
            for each in task.parts:
                line = self._line_of.get(each)
                if line is not None:
                    found[line] = found.get(line, 0.0) + self._items[each].count
        return found

    def _is_short(self, id_: str, amount: float, task: Task) -> bool:
        need, line = self._short[id_]
        if need.amount.unit != METRES:
            return amount > line.arrived - self._used.get(id_, 0.0)
        return task.subject not in self._in_boxes_here(need, line.arrived)

    def _in_boxes_here(self, need: Need, arrived: float) -> frozenset[str]:
        """The runs that are cut from boxes which came: those that are begun, then as many others as the metres make."""
        coils = sorted(
            need.amount.cutting.coils, key=lambda coil: not any(run.id in self._cut for run in coil.runs)
        )
        here: set[str] = set()
        for coil in coils:
            arrived -= coil.length
            if arrived < -_DUST:
                break
            here.update(run.id for run in coil.runs)
        return frozenset(here)
