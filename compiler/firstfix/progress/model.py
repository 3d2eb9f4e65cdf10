"""What a progress file says. It never says what should be; that is the plan's.

Every record keeps its place in the file, so that a note about it can point there. Dates are texts
(2027-03-14) or "", and are there only if somebody wrote them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.span import Span

PASSED = "pass"
FAILED = "fail"


class DoneStep(NamedTuple):
    """A step of the install checklist that is done. `as_planned`: what the plan said of it then, or ""."""

    id: str
    on: str
    as_planned: str
    at: Span


class Quantity(NamedTuple):
    """Pieces, or metres where `in_metres`."""

    value: float
    in_metres: bool


NONE_YET = Quantity(0.0, False)


class BoughtLine(NamedTuple):
    """A line of the shopping list: how much of it is ordered in all, and how much of that has arrived."""

    id: str
    ordered: Quantity
    ordered_on: str
    arrived: Quantity
    arrived_on: str
    at: Span


class DeviceLabel(NamedTuple):
    """What the label of a device says; `part` is what the plan had it be when that was written down, or ""."""

    device: str
    mac: str
    serial: str
    part: str
    at: Span


class MeasuredRun(NamedTuple):
    """An installed run after its test. `length` in metres, 0 where none was read. `verdict`: pass, fail or ""."""

    run: str
    length: float
    verdict: str
    on: str
    as_planned: str
    at: Span


@dataclass(frozen=True, slots=True)
class Progress:
    """`file` as shown to people, "" where there is none. Mappings by step, line, device and run, as written there."""

    file: str
    done: Mapping[str, DoneStep]
    bought: Mapping[str, BoughtLine]
    labels: Mapping[str, DeviceLabel]
    measured: Mapping[str, MeasuredRun]

    @property
    def is_kept(self) -> bool:
        """Whether somebody keeps a progress file for this plan."""
        return bool(self.file)


NOTHING_KEPT = Progress("", {}, {}, {}, {})
