"""The order in which one pair of hands goes from place to place, with as few walks as can be found.

In a place all is done that can be done there; then one goes on. So an order is a sequence of places, and what is done after so
many visits is settled by it. All sequences are followed at once, place by place; where there are too many, those that have
done most go on, and the answer is then a good one, not the proven best.
"""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.schedule.jobs import Job

# Orders that are followed at once, and the size from which on only one is.
_FOLLOWED = 60
_LARGE = 600
# Beyond this, not even one is.
MOST_JOBS = 3000


class Walk(NamedTuple):
    """`order`: every job, as done. `visits`: places gone to; `is_least`: no order has fewer."""

    order: tuple[str, ...]
    visits: int
    is_least: bool


class _State(NamedTuple):
    """`done`: one bit for each job. `came`: the state before, and what was done in between."""

    done: int
    came: "tuple[_State, tuple[int, ...]] | None"


def fewest_visits(jobs: Sequence[Job], followed: int | None = None) -> Walk:
    """Times and people are left aside: only what waits for what, and where it is done."""
    width = followed or (_FOLLOWED if len(jobs) <= _LARGE else 1)
    numbers = {job.id: number for number, job in enumerate(jobs)}
    waits = [sum(1 << numbers[each] for each in job.before) for job in jobs]
    places = sorted({job.place for job in jobs} - {""})
    doable = {place: [n for n, job in enumerate(jobs) if job.place in ("", place)] for place in ("", *places)}
    everything = (1 << len(jobs)) - 1
    states = [_visit(_State(0, None), doable[""], waits)]
    visits, is_least = 0, True
    while states[0].done != everything:
        found: dict[int, _State] = {}
        for state in states:
            for place in places:
                reached = _visit(state, doable[place], waits)
                if reached.done != state.done:
                    found.setdefault(reached.done, reached)
        ranked = sorted(found.values(), key=lambda each: -each.done.bit_count())
        is_least = is_least and len(ranked) <= width
        states, visits = ranked[:width], visits + 1
    return Walk(tuple(jobs[number].id for number in _history(states[0])), visits, is_least)


def _visit(state: _State, doable: list[int], waits: list[int]) -> _State:
    """Everything that can be done; jobs stand after what they wait for, so one pass is enough."""
    done, new = state.done, []
    for number in doable:
        if not done >> number & 1 and waits[number] & ~done == 0:
            done |= 1 << number
            new.append(number)
    return _State(done, (state, tuple(new)))


def _history(state: _State) -> list[int]:
    passed: list[tuple[int, ...]] = []
    while state.came is not None:
        state, new = state.came
        passed.append(new)
    return [number for new in reversed(passed) for number in new]
