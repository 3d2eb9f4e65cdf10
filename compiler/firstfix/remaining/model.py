"""Where a build stands on its site: each step, line, label and run, with what is recorded of it."""

from dataclasses import dataclass
from typing import NamedTuple

from firstfix.parts.facts import Figure


class OpenStep(NamedTuple):
    """A step that is not done. `waits_for`: the steps before it that are not done either; `waits_for_parts`: lines that are not here."""

    id: str
    title: str
    place: str
    phase: str
    waits_for: tuple[str, ...]
    waits_for_parts: tuple[str, ...] = ()

    @property
    def is_free(self) -> bool:
        """Whether it can be done now."""
        return not (self.waits_for or self.waits_for_parts)


class LineStanding(NamedTuple):
    """A line of the shopping list. Pieces or metres (`unit`); `wanted` is what is bought, in whole packs."""

    id: str
    title: str
    unit: str
    wanted: float
    ordered: float
    arrived: float

    @property
    def to_order(self) -> float:
        """What arrived was ordered, whether that was written down or not."""
        return max(self.wanted - max(self.ordered, self.arrived), 0.0)

    @property
    def to_come(self) -> float:
        """Ordered, as far as it is wanted, and not here yet."""
        return max(min(self.ordered, self.wanted) - self.arrived, 0.0)

    @property
    def is_here(self) -> bool:
        return self.arrived >= self.wanted


class RunStanding(NamedTuple):
    """An installed run: planned length with its slack, and the measured one in metres, 0 where there is none."""

    run: str
    name: str
    planned: Figure
    measured: float
    verdict: str


@dataclass(frozen=True, slots=True)
class Remaining:
    """`steps` in the order of work, only those to do. `done` are ids of steps of this build that are done, of `all_steps`.

    `unread`: names of devices whose MAC address is still to be read.
    """

    all_steps: int
    done: frozenset[str]
    steps: tuple[OpenStep, ...]
    lines: tuple[LineStanding, ...]
    unread: tuple[str, ...]
    runs: tuple[RunStanding, ...]

    @property
    def is_nothing(self) -> bool:
        """Whether all is bought, done and read."""
        return not (self.steps or self.unread) and all(line.is_here for line in self.lines)
