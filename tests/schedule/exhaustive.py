"""The least that can be, by trying everything: slow, plain, and nothing of it shared with what it judges."""

from functools import cache
from itertools import permutations

from firstfix.schedule.jobs import Job


def least_finish(jobs: tuple[Job, ...], crew: int, day: int) -> int:
    """The earliest end of all schedules. Each order of the jobs is laid out as early as it can be; one of these is the best
    (active schedules hold an optimum for any measure that does not fall with time: textbook, from memory).
    """
    best = None
    for line in permutations(jobs):
        finish = _laid_out(line, crew, day)
        if finish is not None and (best is None or finish < best):
            best = finish
    assert best is not None
    return best


def _laid_out(line: tuple[Job, ...], crew: int, day: int) -> int | None:
    """None for an order in which a job stands before what it waits for."""
    ends: dict[str, int] = {}
    placed: list[tuple[int, int, int]] = []
    for job in line:
        if any(each not in ends for each in job.before):
            return None
        hands = min(job.people, crew)
        start = max([job.not_before, *(ends[each] for each in job.before)])
        while not (
            _is_free(placed, start, start + job.minutes, crew - hands) and _is_in_a_day(job, start, day)
        ):
            start += 1
        ends[job.id] = start + job.minutes
        placed.append((start, start + job.minutes, hands))
    return max(ends.values())


def _is_free(placed: list[tuple[int, int, int]], start: int, end: int, most: int) -> bool:
    return all(
        sum(hands for begin, finish, hands in placed if begin <= minute < finish) <= most
        for minute in range(start, end)
    )


def _is_in_a_day(job: Job, start: int, day: int) -> bool:
    return job.minutes > day or start % day + job.minutes <= day


def fewest_visits(jobs: tuple[Job, ...]) -> int:
    """Over all orders that keep to what waits for what: how often the place changes, the first included."""
    waits = {job.id: frozenset(job.before) for job in jobs}
    places = {job.id: job.place for job in jobs}

    @cache
    def left(done: frozenset[str], here: str) -> int:
        if len(done) == len(jobs):
            return 0
        found = len(jobs) + 1
        for name, before in waits.items():
            if name not in done and before <= done:
                place = places[name] or here
                found = min(found, (place != here) + left(done | {name}, place))
        return found

    return left(frozenset(), "")
