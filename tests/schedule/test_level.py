"""Schedules for so many hands: nothing at the wrong time, never better than can be, and seldom worse than the best."""

from collections import Counter
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.schedule.bound import least_finish
from firstfix.schedule.critical import dates
from firstfix.schedule.jobs import Job
from firstfix.schedule.level import Levelled, level
from firstfix.schedule.make import rules
from firstfix.schedule.walks import fewest_visits
from schedule import exhaustive
from schedule.networks import HOUSE, jobs


def levelled(made: tuple[Job, ...], crew: int, day: int) -> Levelled:
    found = dates(made)
    return level(made, crew, day, rules(made, found, fewest_visits(made)))


@given(jobs(most=20), st.integers(1, 4), st.sampled_from((30, 60, 480)))
@settings(derandomize=True, deadline=None, max_examples=300)
def test_every_schedule_can_be_worked(made: tuple[Job, ...], crew: int, day: int) -> None:
    found = levelled(made, crew, day)
    busy: Counter[tuple[int, int]] = Counter()
    for job in made:
        start = found.starts[job.id]
        assert start >= job.not_before
        assert all(start >= found.starts[each.id] + each.minutes for each in made if each.id in job.before)
        assert job.minutes > day or start // day == max(start, start + job.minutes - 1) // day
        assert len(set(found.hands[job.id])) == min(job.people, crew)
        busy.update(
            (who, minute) for who in found.hands[job.id] for minute in range(start, start + job.minutes)
        )
    assert all(count == 1 for count in busy.values())
    assert all(0 <= who < crew for who, _ in busy)
    assert found.finish == max(found.starts[job.id] + job.minutes for job in made)
    assert found.walks == _walks(made, found, crew)


def _walks(made: tuple[Job, ...], found: Levelled, crew: int) -> int:
    """`hands` are in the order in which jobs were begun, so that it is plain also of jobs that take no time."""
    place = {job.id: job.place for job in made}
    walks = 0
    for who in range(crew):
        mine = [place[name] for name, hands in found.hands.items() if who in hands and place[name]]
        walks += sum(one != next_ for one, next_ in pairwise(mine))
    return walks


@given(jobs(most=6, longest=8, places=2), st.integers(1, 3), st.sampled_from((10, 480)))
@settings(derandomize=True, deadline=None, max_examples=150)
def test_the_bound_is_below_the_best_and_the_best_below_what_is_found(
    made: tuple[Job, ...], crew: int, day: int
) -> None:
    short = tuple(job._replace(not_before=job.not_before // 10) for job in made)
    best = exhaustive.least_finish(short, crew, day)
    assert least_finish(short, dates(short), crew) <= best <= levelled(short, crew, day).finish


def test_how_often_the_best_is_found() -> None:
    """In days and in minutes, over drawn networks: a figure to know, and one that must not fall."""
    count = Counter[str]()

    @given(jobs(most=6, longest=8, places=2), st.integers(1, 3))
    @settings(derandomize=True, deadline=None, max_examples=150)
    def compare(made: tuple[Job, ...], crew: int) -> None:
        short = tuple(job._replace(not_before=job.not_before // 10) for job in made)
        best, found = exhaustive.least_finish(short, crew, 10), levelled(short, crew, 10).finish
        count["all"] += 1
        count["as early"] += found == best
        count["same day"] += -(-found // 10) == -(-best // 10)

    compare()
    assert count["same day"] >= 0.97 * count["all"], count
    assert count["as early"] >= 0.75 * count["all"], count


def test_with_hands_enough_it_is_the_critical_path() -> None:
    assert levelled(HOUSE, 4, 10_000).finish == 44


def test_one_pair_of_hands_takes_the_sum() -> None:
    total = sum(job.minutes for job in HOUSE)
    assert levelled(HOUSE, 1, 10_000).finish == total
    assert least_finish(HOUSE, dates(HOUSE), 1) == total


def test_two_people_are_waited_for() -> None:
    made = (Job("a", 10), Job("b", 4), Job("lift", 5, ("b",), 2))
    assert levelled(made, 2, 480).starts["lift"] == 10


@given(jobs(most=8))
@settings(derandomize=True, deadline=None, max_examples=150)
def test_no_order_has_fewer_visits(made: tuple[Job, ...]) -> None:
    found = fewest_visits(made, followed=10_000)
    assert found.is_least
    assert found.visits == exhaustive.fewest_visits(made)
    assert fewest_visits(made, followed=1).visits >= found.visits
    places = {job.id: place for place, job in enumerate(made)}
    done: set[str] = set()
    for name in found.order:
        assert set(made[places[name]].before) <= done
        done.add(name)
    assert done == set(places)


def test_one_works_where_one_is() -> None:
    """Two rooms with three jobs each, in turn in the list: two visits, one walk."""
    made = tuple(Job(f"j{number}", 10, (), 1, f"room {number % 2}") for number in range(6))
    assert levelled(made, 1, 480).walks == 1
