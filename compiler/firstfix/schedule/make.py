"""From the steps of a build, and what is ordered where, to their schedule. The same steps give the same schedule."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.build.working import Working
from firstfix.progress.model import NOTHING_KEPT, Progress
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.schedule.arrivals import comings, orders_by, wait
from firstfix.schedule.bound import least_finish
from firstfix.schedule.critical import Dates, critical_path, dates
from firstfix.schedule.days import Days
from firstfix.schedule.durations import Durations
from firstfix.schedule.jobs import Job, followers
from firstfix.schedule.level import Levelled, Rule, level
from firstfix.schedule.model import PhaseDays, Planned, Schedule
from firstfix.schedule.outages import outages
from firstfix.schedule.walks import MOST_JOBS, Walk, fewest_visits
from firstfix.work.cautions import LIFT
from firstfix.work.model import Task

_PHASE = "phase:"


def make_schedule(
    build: Build,
    ordered: Sequence[Task],
    needs: Sequence[Need] = (),
    order: Order | None = None,
    progress: Progress = NOTHING_KEPT,
) -> Schedule:
    """`ordered`: the steps, each after all that must precede it. What is bought comes as `order` says; without one, as the plan
    says; and what `progress` records of it stands above both.
    """
    working = build.working
    days, durations = Days(build.start, working), Durations(build)
    coming = comings(build, needs, order, progress)
    day = working.minutes
    jobs = tuple(
        _jobs(ordered, durations, build, days, wait_of={task.id: wait(task, coming) for task in ordered})
    )
    found = dates(jobs)
    walk = fewest_visits(jobs) if len(jobs) <= MOST_JOBS else None
    done = level(jobs, working.crew, day, rules(jobs, found, walk))
    steps = _steps(ordered, jobs, found, done)
    by_id = {step.id: step for step in steps}
    return Schedule(
        steps,
        tuple(each for each in critical_path(jobs, found) if not each.startswith(_PHASE)),
        days,
        day,
        working.crew,
        done.finish,
        least_finish(jobs, found, working.crew),
        done.walks,
        walk is not None and walk.is_least and done.walks <= max(0, walk.visits - 1) and working.crew == 1,
        tuple(step.id for step in steps if step.people > working.crew),
        tuple(orders_by(ordered, coming, days, day, done.starts, _unheld(jobs, done, working))),
        tuple(outages(build, ordered, by_id)),
        tuple(_phases(build, steps, days, day)),
        tuple(durations.without_length),
        working.days,
        dict(working.takes),
    )


def _unheld(jobs: Sequence[Job], done: Levelled, working: Working) -> Mapping[str, int]:
    """When each step would begin if all parts were there at the start."""
    if not any(job.not_before for job in jobs):
        return done.starts
    free = tuple(job._replace(not_before=0) for job in jobs)
    found = dates(free)
    walk = fewest_visits(free) if len(free) <= MOST_JOBS else None
    return level(free, working.crew, working.minutes, rules(free, found, walk)).starts


def _jobs(
    ordered: Sequence[Task], durations: Durations, build: Build, days: Days, wait_of: Mapping[str, int]
) -> Iterator[Job]:
    """A phase begins when the one before it is done: a milestone stands between them, which costs no time."""
    day, phase_key = build.working.minutes, PhaseKey(build.phases)
    own = {step.id: step.crew for step in build.working.own}
    gate, phase = "", ordered[0].phase if ordered else ""
    last: dict[str, None] = {}
    for task in sorted(ordered, key=lambda each: phase_key(each.phase)):
        if task.phase != phase:
            gate, phase = f"{_PHASE}{task.phase}", task.phase
            yield Job(gate, 0, tuple(last), 0)
            last = {gate: None}
        before = tuple(each.before for each in task.after)
        for each in before:
            last.pop(each, None)
        last[task.id] = None
        days_until = wait_of[task.id]
        people = own.get(task.subject, 2 if LIFT in task.cautions else 1)
        yield Job(
            task.id,
            durations.minutes(task),
            (*before, gate) if gate else before,
            people,
            task.room if people else "",
            days.on_or_after(days_until) * day if days_until else 0,
        )


def rules(jobs: Sequence[Job], found: Mapping[str, Dates], walk: Walk | None) -> Iterator[Rule]:
    """What to do first: what leaves least time, what most hangs on, what comes next on the shortest walk."""
    line = {job.id: number for number, job in enumerate(jobs)}
    urgent = _ranked(line, lambda id_: (found[id_].late_start, line[id_]))
    yield Rule(urgent)
    if walk is None:
        return
    yield Rule(urgent, stays=False)
    yield Rule(urgent, is_patient=True)
    after = followers(jobs)
    minutes = {job.id: job.minutes for job in jobs}
    weight = {id_: minutes[id_] + sum(minutes[each] for each in after[id_]) for id_ in line}
    yield Rule(_ranked(line, lambda id_: (-weight[id_], line[id_])), stays=False)
    yield Rule(line)
    walking = {id_: place for place, id_ in enumerate(walk.order)}
    yield Rule(walking)
    yield Rule(walking, is_patient=True)


def _ranked(line: Mapping[str, int], key: Callable[[str], tuple[int, int]]) -> Mapping[str, int]:
    return {id_: place for place, id_ in enumerate(sorted(line, key=key))}


def _steps(
    ordered: Sequence[Task], jobs: Sequence[Job], found: Mapping[str, Dates], done: Levelled
) -> tuple[Planned, ...]:
    by_id = {job.id: job for job in jobs}
    steps = []
    for task in ordered:
        job, start = by_id[task.id], done.starts[task.id]
        waits = bool(job.not_before) and start == job.not_before
        steps.append(
            Planned(
                task.id,
                task.room,
                task.phase,
                job.minutes,
                job.people,
                done.hands[task.id],
                start,
                start + job.minutes,
                found[task.id],
                waits,
            )
        )
    places = {task.id: number for number, task in enumerate(ordered)}
    return tuple(sorted(steps, key=lambda each: (each.start, places[each.id])))


def _phases(build: Build, steps: Sequence[Planned], days: Days, day: int) -> Iterator[PhaseDays]:
    by = {phase.name: phase.by for phase in build.phases}
    names = {step.phase for step in steps}
    first = build.phases[0].name if build.phases else ""
    for name in sorted(names, key=PhaseKey(build.phases)):
        mine = [step for step in steps if step.phase == name]
        finish = max(step.finish for step in mine)
        # What names no phase is done with the first; if nothing else is, it is the first that these days are those of.
        shown = name or ("" if first in names else first)
        due = by.get(shown, "")
        last = days[max(0, finish - 1) // day].date
        yield PhaseDays(
            shown, min(step.start for step in mine), finish, due, last > due if due and last else None
        )
