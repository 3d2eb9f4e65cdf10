"""Critical path: how early and how late each job can be, with hands enough for all.

Early start = the latest early finish of what it waits for; late finish = the earliest late start of what waits for it.
Total float = late start - early start; free float = the earliest early start of what waits for it - early finish.
A job without total float is critical. Source: textbook definitions of the critical path method (from memory).
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from firstfix.schedule.jobs import Job, followers


class Dates(NamedTuple):
    """All in minutes. `late_start` is before `early_start` where a job must not begin as early as its followers need it: never here."""

    early_start: int
    early_finish: int
    late_start: int
    late_finish: int
    free_float: int

    @property
    def total_float(self) -> int:
        return self.late_start - self.early_start

    @property
    def is_critical(self) -> bool:
        return self.total_float == 0


def dates(jobs: Sequence[Job]) -> Mapping[str, Dates]:
    """By job. Takes time in proportion to jobs and precedences."""
    start, finish = _early(jobs)
    end = max(finish.values(), default=0)
    after = followers(jobs)
    latest: dict[str, int] = {}
    found: dict[str, Dates] = {}
    for job in reversed(jobs):
        late_finish = min((latest[each] for each in after[job.id]), default=end)
        latest[job.id] = late_finish - job.minutes
        next_start = min((start[each] for each in after[job.id]), default=end)
        free = next_start - finish[job.id]
        found[job.id] = Dates(start[job.id], finish[job.id], latest[job.id], late_finish, free)
    return {job.id: found[job.id] for job in jobs}


def length(found: Mapping[str, Dates]) -> int:
    """Minutes until all is done."""
    return max((each.early_finish for each in found.values()), default=0)


def critical_path(jobs: Sequence[Job], found: Mapping[str, Dates]) -> tuple[str, ...]:
    """One longest chain, from its first job to its last; the first in the list where several are equally long."""
    by_id = {job.id: job for job in jobs}
    end = length(found)
    ahead = next((job for job in jobs if found[job.id].early_finish == end), None)
    chain: list[str] = []
    while ahead is not None:
        chain.append(ahead.id)
        began = found[ahead.id].early_start
        ahead = next((by_id[each] for each in ahead.before if found[each].early_finish == began), None)
    return tuple(reversed(chain))


def _early(jobs: Sequence[Job]) -> tuple[dict[str, int], dict[str, int]]:
    start: dict[str, int] = {}
    finish: dict[str, int] = {}
    for job in jobs:
        start[job.id] = max((finish[each] for each in job.before), default=0)
        start[job.id] = max(start[job.id], job.not_before)
        finish[job.id] = start[job.id] + job.minutes
    return start, finish
