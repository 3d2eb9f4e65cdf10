"""What a changeover comes to: steps in order, each with what it disconnects, and the sums over all of them."""

from dataclasses import dataclass
from typing import NamedTuple


class Act(NamedTuple):
    """One thing to do: the sentence, the room's name or "", the way back. `id` is its kind and what it is done to."""

    id: str
    what: str
    room: str
    back: str


@dataclass(frozen=True, slots=True)
class Step:
    """What is done in one go. `down`: names of devices that are without service while it is done, `unmanaged`: that can't be managed;
    `still_down`: still without service when it is done. `broken`: rules that it breaks, in words; no order was found without.
    `locked`: devices that are out of reach afterwards with something still to set. `on_site`: names of those set at the device itself.
    `phase`: name of the one that it belongs to.
    """

    number: int
    acts: tuple[Act, ...]
    minutes: int
    down: tuple[str, ...]
    still_down: tuple[str, ...]
    unmanaged: tuple[str, ...]
    checks: tuple[str, ...]
    cautions: tuple[str, ...]
    broken: tuple[str, ...] = ()
    locked: tuple[str, ...] = ()
    on_site: tuple[str, ...] = ()
    phase: str = ""

    @property
    def disconnects(self) -> bool:
        return bool(self.down or self.unmanaged)


class Interruption(NamedTuple):
    """Steps `first` to `last`, which must be done through: in between somebody is without service. `devices` by name."""

    first: int
    last: int
    minutes: int
    devices: tuple[str, ...]


class Lost(NamedTuple):
    device: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Way:
    """`station`: name of the device by which whoever sets the others sits; "" where nothing can be managed.

    `service` and `management`: minutes lost by device, the most first. `is_proven`: no order costs less by what is compared: rules
    broken, settings on site, service minutes, minutes without being managed; else `least_service` is what no order can be below.
    `uncounted`: devices that are without service in the old or the new plan, so that nothing can be lost or said of them.
    `renamed`: how many things only bear another name. `doubts`: what is not known and was left out of account.
    """

    steps: tuple[Step, ...]
    station: str
    service: tuple[Lost, ...]
    management: tuple[Lost, ...]
    interruptions: tuple[Interruption, ...]
    is_proven: bool
    least_service: int
    uncounted: tuple[str, ...]
    renamed: int
    doubts: tuple[str, ...]

    @property
    def minutes(self) -> int:
        return sum(step.minutes for step in self.steps)

    @property
    def service_minutes(self) -> int:
        return sum(each.minutes for each in self.service)

    @property
    def management_minutes(self) -> int:
        return sum(each.minutes for each in self.management)


def windows(way: Way, minutes: int) -> tuple[tuple[Interruption, ...], ...]:
    """The fewest windows of so many minutes that hold all interruptions in their order; what is between them is done outside.

    An interruption that is longer than a window stands alone in one.
    """
    found: list[list[Interruption]] = []
    left = 0
    for each in way.interruptions:
        if not found or each.minutes > left:
            found.append([])
            left = minutes
        found[-1].append(each)
        left -= each.minutes
    return tuple(tuple(each) for each in found)
