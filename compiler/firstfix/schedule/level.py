"""Who does what when, with so many hands: jobs in time, none begun before what it waits for, nobody in two places.

A list schedule: whenever hands are free, they take the job that a `Rule` puts first. Several rules are tried, for none is best
always; the schedule that ends on the earliest day is taken, among those the one with the fewest walks between places, among
those the shortest. A job that fits in a day is not interrupted by the night.
"""

import heapq
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from firstfix.schedule.jobs import Job, followers

# Thousands of jobs, in hundreds of places, may not fit into what is left of a day; so many are looked at.
_LOOKED_AT = 16


class Rule(NamedTuple):
    """`rank`: the smaller, the sooner. `stays`: work in the place one is in comes first.

    `is_patient`: nobody leaves a place in the evening for what fits better elsewhere.
    """

    rank: Mapping[str, int]
    stays: bool = True
    is_patient: bool = False


class Levelled(NamedTuple):
    """By job its start and who does it, by number from 0; `finish` in minutes; `walks`: how often somebody went from one
    place to another.
    """

    starts: Mapping[str, int]
    hands: Mapping[str, tuple[int, ...]]
    finish: int
    walks: int


def level(jobs: Sequence[Job], crew: int, day: int, rules: Iterable[Rule]) -> Levelled:
    """The best of the schedules by each of `rules`, of which there is at least one. `day`: minutes of work in a day."""
    tried = [_Crew(jobs, crew, day, rule).work() for rule in rules]
    return min(tried, key=lambda each: (-(-each.finish // day), each.walks, each.finish))


@dataclass(slots=True)
class _Crew:
    """Hands at work. `ready`: heaps of (rank, number of the job) by place. `where` each worker is, "" at first."""

    jobs: Sequence[Job]
    crew: int
    day: int
    rule: Rule
    numbers: dict[str, int] = field(default_factory=dict)
    after: dict[str, list[str]] = field(default_factory=dict)
    missing: list[int] = field(default_factory=list)
    ready: dict[str, list[tuple[int, int]]] = field(default_factory=dict)
    later: list[tuple[int, int]] = field(default_factory=list)
    running: list[tuple[int, int, tuple[int, ...]]] = field(default_factory=list)
    free: list[int] = field(default_factory=list)
    where: list[str] = field(default_factory=list)
    starts: dict[str, int] = field(default_factory=dict)
    hands: dict[str, tuple[int, ...]] = field(default_factory=dict)
    now: int = 0
    finish: int = 0
    walks: int = 0

    def work(self) -> Levelled:
        self.numbers = {job.id: number for number, job in enumerate(self.jobs)}
        self.after = followers(self.jobs)
        self.missing = [len(job.before) for job in self.jobs]
        self.free, self.where = list(range(self.crew)), [""] * self.crew
        # All of them first: what costs no time is done at once, and lets others in.
        for number in [place for place, count in enumerate(self.missing) if not count]:
            self._admit(number)
        while True:
            self._start_what_can()
            if not self._wait():
                return self._levelled()

    def _levelled(self) -> Levelled:
        starts = {job.id: self.starts[job.id] for job in self.jobs}
        return Levelled(starts, self.hands, self.finish, self.walks)

    def _admit(self, number: int) -> None:
        """All that it waits for is done."""
        pending = [number]
        while pending:
            number = pending.pop()
            job = self.jobs[number]
            if job.not_before > self.now:
                heapq.heappush(self.later, (job.not_before, number))
            elif not job.people and not self._fits_in_day(job):
                heapq.heappush(self.later, (self._tomorrow(), number))
            elif not job.people:
                self.starts[job.id], self.hands[job.id] = self.now, ()
                if job.minutes:
                    heapq.heappush(self.running, (self.now + job.minutes, number, ()))
                else:
                    pending += self._done(number)
            else:
                heapq.heappush(self.ready.setdefault(job.place, []), (self.rule.rank[job.id], number))

    def _done(self, number: int) -> list[int]:
        """What is free to begin when this is done."""
        self.finish = max(self.finish, self.now)
        admitted = []
        for each in self.after[self.jobs[number].id]:
            follower = self.numbers[each]
            self.missing[follower] -= 1
            if not self.missing[follower]:
                admitted.append(follower)
        return admitted

    def _wait(self) -> bool:
        """To the next moment at which anything changes; False when all is done."""
        moments = [heap[0][0] for heap in (self.running, self.later) if heap]
        if self.ready:
            moments.append(self._tomorrow())
        if not moments:
            return False
        self.now = min(moments)
        while self.running and self.running[0][0] <= self.now:
            _, number, workers = heapq.heappop(self.running)
            for worker in workers:
                heapq.heappush(self.free, worker)
            for each in self._done(number):
                self._admit(each)
        while self.later and self.later[0][0] <= self.now:
            self._admit(heapq.heappop(self.later)[1])
        return True

    def _start_what_can(self) -> None:
        idle: list[int] = []
        while self.free and self.ready:
            worker = heapq.heappop(self.free)
            number = self._choose(worker)
            if number is None:
                idle.append(worker)
            else:
                self._start(number, worker)
        for worker in idle:
            heapq.heappush(self.free, worker)

    def _choose(self, worker: int) -> int | None:
        """The job that this worker takes, out of `ready`."""
        here = self.where[worker]
        if self.rule.stays:
            near = [place for place in (here, "") if place in self.ready]
            for place in sorted(dict.fromkeys(near), key=lambda each: self.ready[each][0]):
                number = self._take(place)
                if number is not None:
                    return number
            if self.rule.is_patient and here and here in self.ready:
                return None
        for place in heapq.nsmallest(_LOOKED_AT, self.ready, key=lambda each: self.ready[each][0]):
            number = self._take(place)
            if number is not None:
                return number
        return None

    def _take(self, place: str) -> int | None:
        """The first job in `place` that can begin now."""
        heap = self.ready[place]
        kept: list[tuple[int, int]] = []
        found = None
        while heap and len(kept) < _LOOKED_AT:
            entry = heapq.heappop(heap)
            if self._can_begin(self.jobs[entry[1]]):
                found = entry[1]
                break
            kept.append(entry)
        for entry in kept:
            heapq.heappush(heap, entry)
        if not heap:
            del self.ready[place]
        return found

    def _can_begin(self, job: Job) -> bool:
        if min(job.people, self.crew) > len(self.free) + 1:
            return False
        return self._fits_in_day(job)

    def _fits_in_day(self, job: Job) -> bool:
        """In what is left of this one; or in none, and then it may begin whenever."""
        return job.minutes <= self.day - self.now % self.day or job.minutes > self.day

    def _tomorrow(self) -> int:
        return (self.now // self.day + 1) * self.day

    def _start(self, number: int, worker: int) -> None:
        job = self.jobs[number]
        hands = [worker, *self._helpers(min(job.people, self.crew) - 1, job.place)]
        for each in hands:
            if job.place and self.where[each] != job.place:
                self.walks += bool(self.where[each])
                self.where[each] = job.place
        self.starts[job.id], self.hands[job.id] = self.now, tuple(sorted(hands))
        heapq.heappush(self.running, (self.now + job.minutes, number, tuple(hands)))

    def _helpers(self, count: int, place: str) -> list[int]:
        """Free workers, those who are in `place` first."""
        chosen = sorted(self.free, key=lambda each: (self.where[each] != place, each))[:count]
        self.free = [each for each in self.free if each not in chosen]
        heapq.heapify(self.free)
        return chosen
