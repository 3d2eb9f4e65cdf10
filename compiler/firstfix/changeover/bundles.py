"""Jobs that wait for each other are done in one go: two cords that change jacks, two devices that change places.

Takes jobs; gives bundles, each with those it waits for as bits of a number: bit i stands for bundle i.
"""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.changeover.job import Job


class Bundle(NamedTuple):
    """`needs`: the bundles that come before, theirs included."""

    jobs: tuple[Job, ...]
    needs: int

    @property
    def minutes(self) -> int:
        return sum(job.minutes for job in self.jobs)


def bundles_of(jobs: Sequence[Job]) -> tuple[Bundle, ...]:
    """In the order of their first jobs."""
    place = {job.id: bit for bit, job in enumerate(jobs)}
    before = _closed([sum(1 << place[each] for each in job.after) for job in jobs])
    leader: list[int] = []
    for at in range(len(jobs)):
        ring = [other for other in range(at) if before[at] >> other & 1 and before[other] >> at & 1]
        leader.append(leader[ring[0]] if ring else at)
    firsts = sorted(set(leader))
    number = {first: bit for bit, first in enumerate(firsts)}
    found = []
    for first in firsts:
        members = [at for at in range(len(jobs)) if leader[at] == first]
        needed = {number[leader[each]] for at in members for each in _bits(before[at])} - {number[first]}
        found.append(
            Bundle(tuple(sorted((jobs[at] for at in members), key=_as_done)), sum(1 << bit for bit in needed))
        )
    return tuple(found)


def _as_done(job: Job) -> tuple[bool, bool, int, str]:
    """Within one go: out first, then what is moved, then in."""
    return (not job.drops, not job.turned, job.kind, job.id)


def _closed(before: list[int]) -> list[int]:
    """With all that comes before what comes before."""
    found = list(before)
    for through in range(len(found)):
        bit = 1 << through
        for at, mask in enumerate(found):
            if mask & bit:
                found[at] = mask | found[through]
    return found


def _bits(mask: int) -> list[int]:
    return [at for at in range(mask.bit_length()) if mask >> at & 1]
