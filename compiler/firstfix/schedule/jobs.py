"""A step as scheduling sees it: minutes, hands, a place, and what must be done before."""

from collections.abc import Iterable
from typing import NamedTuple


class Job(NamedTuple):
    """`minutes` of work by `people` in `place` ("" anywhere), after all of `before`, not before minute `not_before`.

    Minutes count working time only, from the start of the first working day. A job of no people is done by others, or is a
    milestone where it takes no time.
    Wherever jobs are listed, each stands after all that it waits for.
    """

    id: str
    minutes: int
    before: tuple[str, ...] = ()
    people: int = 1
    place: str = ""
    not_before: int = 0


def followers(jobs: Iterable[Job]) -> dict[str, list[str]]:
    """By job, what waits for it, in the order of the list."""
    found: dict[str, list[str]] = {}
    for job in jobs:
        found.setdefault(job.id, [])
        for before in job.before:
            found[before].append(job.id)
    return found
