"""What no order of the work can beat: the longest chain, and the sum of the work shared by all hands."""

from collections.abc import Mapping, Sequence

from firstfix.schedule.critical import Dates, length
from firstfix.schedule.jobs import Job


def least_finish(jobs: Sequence[Job], found: Mapping[str, Dates], crew: int) -> int:
    """Minutes. No schedule for `crew` people ends before, nights that interrupt nothing included.

    For each early start: what cannot begin before it is left to be done from then on by all hands together, and after
    the last of it comes the shortest chain that follows any of it. (The single-machine bound of Jackson and Carlier, shared
    by `crew`: from memory.)
    """
    whole = best = length(found)
    work, tail = 0, whole
    for job in sorted(jobs, key=lambda each: -found[each.id].early_start):
        if not job.people or not job.minutes:
            continue
        work += job.minutes * min(job.people, crew)
        tail = min(tail, whole - found[job.id].late_finish)
        best = max(best, found[job.id].early_start - (-work // crew) + tail)
    return best
