"""A plan's schedule: what late parts push, by when to order, who helps, what is cut off, and that phases follow each other."""

from collections.abc import Mapping

import networkx
import pytest

from firstfix.schedule.model import OrderBy, Schedule
from firstfix.standards.work import kinds_of_step, work_durations
from firstfix.work.tools import TOOLS
from schedule.planned import PLAN, compiled, lined_up, schedule_of, step

START = "start: 2027-03-01"
AP_LATE = "shops: {north: {postage: 0, tax: none, lead: 2 days, offers: {access-point: {price: 90, lead: 20 days}, wall-outlet-2: 6}}}"


def starts(schedule: Schedule) -> Mapping[str, int]:
    return {each.id: each.start for each in schedule.steps}


def order_at(schedule: Schedule, shop: str) -> OrderBy:
    return next(each for each in schedule.orders if each.shop == shop)


def test_every_step_once_and_after_what_must_precede_it() -> None:
    build = compiled(START)
    schedule = schedule_of(build)
    ends = {each.id: each.finish for each in schedule.steps}
    assert sorted(ends) == sorted(task.id for task in lined_up(build))
    for task in lined_up(build):
        assert all(ends[each.before] <= starts(schedule)[task.id] for each in task.after)


def test_a_late_part_pushes_only_what_needs_it() -> None:
    """The access point comes on 21 March, a Sunday: its own step and what follows begin on the 15th day of work or later."""
    build = compiled(START, "work: {lead: 0 days}", AP_LATE)
    schedule = schedule_of(build)
    graph = networkx.DiGraph([(each.before, task.id) for task in lined_up(build) for each in task.after])
    waiting = {"fit:device/ap"} | networkx.descendants(graph, "fit:device/ap")
    for each in schedule.steps:
        day = schedule.days[schedule.first_day(each.start)]
        assert (day.date >= "2027-03-22") == (each.id in waiting), each.id
    assert {each.id for each in schedule.steps if each.waits_for_parts} >= {"fit:device/ap"}


def test_order_by_is_the_first_need_less_the_lead() -> None:
    """The outlet comes on the third day and is needed then; the access point comes on a Sunday, and would do a day later."""
    slow = order_at(schedule_of(compiled(START, "work: {lead: 0 days}", AP_LATE)), "north")
    assert (slow.lead, slow.needed, slow.first, slow.by) == (20, 2, "fit:device/out", 0)
    quick = "shops: {north: {postage: 0, tax: none, lead: 2 days, offers: {wall-outlet-2: 6}}}"
    others_late = schedule_of(compiled(START, "work: {lead: 9 days, takes: {prepare: 24 h}}", quick))
    north = order_at(others_late, "north")
    assert north.by == max(0, north.needed - 2)
    assert order_at(others_late, "").lead == 9


def test_a_lead_that_nobody_says_is_no_lead_of_none() -> None:
    order = order_at(schedule_of(compiled(START)), "")
    assert (order.lead, order.by) == (None, None)


def test_the_plans_own_durations_hold_for_their_kind() -> None:
    schedule = schedule_of(compiled("work: {takes: {terminate: 11 min, pull: 90 s}}"))
    minutes = {each.id.partition(":")[0]: each.minutes for each in schedule.steps}
    assert (minutes["terminate"], minutes["pull"]) == (11, 2)
    assert minutes["patch"] == work_durations()["patch", ""].minutes


def test_usual_durations_grow_with_metres_and_with_what_is_counted() -> None:
    """Way: 30 min and 3 for each of 10 m; unpacking: 15 and 5 for each of 2 labels."""
    schedule = schedule_of(compiled())
    assert step(schedule, "prepare:way/shaft").minutes == 60
    assert step(schedule, "unpack:plan/all").minutes == 25


def test_a_length_that_is_not_known_is_told() -> None:
    build = compiled(plan=PLAN.replace("length: 10 m, ", ""))
    assert "prepare:way/shaft" in schedule_of(build).without_length


def test_there_is_a_duration_for_each_kind_of_step_and_no_other() -> None:
    assert sorted(kinds_of_step()) == sorted(TOOLS)


def test_one_person_alone_is_told_when_another_is_needed() -> None:
    assert schedule_of(compiled()).helped == ("hang:cabinet/main",)
    two = schedule_of(compiled("work: {crew: 2}"))
    assert two.helped == ()
    assert step(two, "hang:cabinet/main").who == (0, 1)
    assert two.finish < schedule_of(compiled()).finish


def test_what_is_in_use_is_cut_off_while_it_is_plugged() -> None:
    """The old switch stays where it is and gets a cord."""
    (outage,) = schedule_of(compiled()).outages
    assert outage.names == ("old",)
    assert outage.since == outage.until == "patch:piece/core/9--old/1"
    assert outage.finish - outage.start == 3


def test_what_moves_is_off_until_it_runs_again() -> None:
    """The old switch goes into the new cabinet."""
    plan = PLAN.replace("10: core,", "10: core, 8: {fit: shelf-1u, carries: [old]},").replace(
        "room: study, owned", "owned"
    )
    moved = schedule_of(compiled(plan=plan))
    outage = next(each for each in moved.outages if each.names == ("old",) and each.since == "fit:device/old")
    assert outage.until in ("power:device/old", "set-up:device/old")
    assert outage.finish - outage.start >= 20


def test_a_phase_begins_when_the_one_before_is_done() -> None:
    plan = PLAN.replace("ap:     {", "ap:     {phase: later, ")
    schedule = schedule_of(compiled(START, "phases: {later: {by: 2027-03-01}}", plan=plan))
    first, later = schedule.phases
    assert (first.name, later.name) == ("", "later")
    assert first.finish <= later.start
    assert (later.by, later.is_late) == ("2027-03-01", True)
    assert all((each.start >= later.start) == (each.phase == "later") for each in schedule.steps)


def test_days_of_the_plan_are_kept() -> None:
    work = "work: {days: [sat], hours: 1 h, closed: [2027-03-13]}"
    schedule = schedule_of(compiled(START, work))
    used = [schedule.days[schedule.first_day(each.start)].date for each in schedule.steps]
    assert list(dict.fromkeys(used))[:3] == ["2027-03-06", "2027-03-20", "2027-03-27"]


def test_the_same_twice() -> None:
    build = compiled(START)
    assert schedule_of(build).steps == schedule_of(build).steps


@pytest.mark.parametrize("crew", [1, 2, 3])
def test_nothing_is_done_before_the_bound(crew: int) -> None:
    schedule = schedule_of(compiled(f"work: {{crew: {crew}}}"))
    assert schedule.bound <= schedule.finish
    assert schedule.is_soonest
