"""A schedule: every step with its dates, and what else has to happen on which day."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.schedule.critical import Dates
from firstfix.schedule.days import Days


class Planned(NamedTuple):
    """One step in time. `start` and `finish` in minutes of working time, with the hands that there are; `dates` with hands
    enough. `who` does it, by number from 0. `waits_for_parts`: it begins when its parts come, not before.
    """

    id: str
    room: str
    phase: str
    minutes: int
    people: int
    who: tuple[int, ...]
    start: int
    finish: int
    dates: Dates
    waits_for_parts: bool


class OrderBy(NamedTuple):
    """`shop` or "" for all that no shop is named for; `lead` days until the last of it comes.

    `by`: days after the start on which it is to be ordered at the latest, so that nothing waits longer. Both None where the lead
    of a part is not said. `needed`: days after the start on which `first` begins, the first step that takes of it, or "".
    `unheld`: days after the start, never more than none, on which it had to be ordered so that no step waited for it.
    """

    shop: str
    lead: int | None
    by: int | None
    needed: int
    first: str
    unheld: int = 0


class Outage(NamedTuple):
    """A running service that is interrupted, from the start of one step to the end of another, in minutes of working time."""

    names: tuple[str, ...]
    since: str
    until: str
    start: int
    finish: int


class PhaseDays(NamedTuple):
    """`start` and `finish` in minutes; `by`: the day on which it is to be done, or ""; `is_late` None where no dates are known."""

    name: str
    start: int
    finish: int
    by: str
    is_late: bool | None


@dataclass(frozen=True, slots=True)
class Schedule:
    """`steps` as they begin. `chain`: the longest chain of steps that wait for each other.

    `day`: minutes of work in a day; `finish` in minutes with `crew` people, `bound`: before which no order of the work is done.
    `walks` between rooms; `is_fewest`: with one pair of hands and no nights, no order has fewer. `helped`: steps that need more
    people than the crew has. `without_length`: steps reckoned without a length that is not known. `weekdays` of work, Monday is 0;
    `said`: minutes by kind of step, as the plan says.
    """

    steps: tuple[Planned, ...]
    chain: tuple[str, ...]
    days: Days
    day: int
    crew: int
    finish: int
    bound: int
    walks: int
    is_fewest: bool
    helped: tuple[str, ...]
    orders: tuple[OrderBy, ...]
    outages: tuple[Outage, ...]
    phases: tuple[PhaseDays, ...]
    without_length: tuple[str, ...]
    weekdays: tuple[int, ...]
    said: Mapping[str, int]

    @property
    def is_soonest(self) -> bool:
        """Whether no order of the work is done on an earlier day."""
        return self.last_day(self.finish) == self.last_day(self.bound)

    def first_day(self, minute: int) -> int:
        """The index of the day in which what starts at `minute` begins."""
        return minute // self.day

    def last_day(self, minute: int) -> int:
        """The index of the day in which what is done at `minute` ends."""
        return max(0, minute - 1) // self.day
