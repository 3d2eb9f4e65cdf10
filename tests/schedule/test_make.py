"""A plan's schedule: what late parts push, by when to order, who helps, what is cut off, and that phases follow each other."""

from collections.abc import Mapping

import networkx
import pytest

from firstfix.progress.model import BoughtLine, Progress, Quantity
from firstfix.schedule.model import OrderBy, Schedule
from firstfix.span import whole_file
from firstfix.standards.work import kinds_of_step, work_durations
from firstfix.work.tools import TOOLS
from schedule.planned import PLAN, compiled, lined_up, schedule_of, step

START = "start: 2027-03-01"
AP_LATE = "shops: {north: {postage: 0, tax: none, lead: 2 days, offers: {access-point: {price: 90, lead: 20 days}, wall-outlet-2: 6}}}"

QUICK = "shops: {north: {postage: 0, tax: none, lead: 2 days, offers: {wall-outlet-2: 6}}}"


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
    waiting = {"unbox:device/ap"} | networkx.descendants(graph, "unbox:device/ap")
    for each in schedule.steps:
        day = schedule.days[schedule.first_day(each.start)]
        assert (day.date >= "2027-03-22") == (each.id in waiting), each.id
    assert {each.id for each in schedule.steps if each.waits_for_parts} >= {"unbox:device/ap"}


def test_order_by_is_the_first_need_less_the_lead() -> None:
    """The outlet comes on the third day and is needed then; the access point comes on a Sunday, and would do a day later."""
    slow = order_at(schedule_of(compiled(START, "work: {lead: 0 days}", AP_LATE)), "north")
    assert (slow.lead, slow.needed, slow.first, slow.by) == (20, 2, "fit:device/out", 0)
    others_late = schedule_of(compiled(START, "work: {lead: 9 days, takes: {prepare: 24 h}}", QUICK))
    north = order_at(others_late, "north")
    assert north.by == max(0, north.needed - 2)
    assert order_at(others_late, "").lead == 9


def test_what_should_have_been_ordered_before_the_start() -> None:
    """The access point is wanted on the first day and takes 20 days: 20 days before 1 March. The outlet would do then, too."""
    late = order_at(schedule_of(compiled(START, "work: {lead: 0 days}", AP_LATE)), "north")
    plain = schedule_of(compiled(START, "work: {lead: 0 days}"))
    wanted = plain.days[plain.first_day(step(plain, "unbox:device/ap").start)].offset
    assert late.unheld == wanted - 20 == -20
    quick = order_at(
        schedule_of(compiled(START, "work: {lead: 0 days, takes: {prepare: 24 h}}", QUICK)), "north"
    )
    assert (quick.unheld, quick.by) == (0, quick.needed - 2)


def _recorded(**lines: tuple[float, str, float]) -> Progress:
    """Pieces of each line that were ordered, on which day, and that have arrived."""
    bought = {
        name.replace("_", "-"): BoughtLine(
            name.replace("_", "-"),
            Quantity(ordered, False),
            on,
            Quantity(arrived, False),
            "",
            whole_file("p"),
        )
        for name, (ordered, on, arrived) in lines.items()
    }
    return Progress("p", {}, bought, {}, {})


@pytest.mark.parametrize(
    ("recorded", "begins", "orders"),
    [
        ((1, "2027-02-24", 1), "2027-03-01", 1),  # it is here
        ((1, "2027-02-24", 0), "2027-03-16", 1),  # 20 days after 24 February
        ((1, "", 0), "2027-03-22", 1),  # ordered, and nobody wrote down when: as if at the start
        ((0, "", 0), "2027-03-22", 2),  # to be ordered still
        ((1, "2027-01-04", 0), "2027-03-01", 1),  # overdue: it may come any day
    ],
)
def test_what_is_recorded_of_an_order(recorded: tuple[float, str, float], begins: str, orders: int) -> None:
    """Of two things from the shop the other is to be ordered; the access point is where it is recorded to be."""
    build = compiled(START, "work: {lead: 0 days}", AP_LATE)
    schedule = schedule_of(build, _recorded(access_point=recorded))
    unbox = step(schedule, "unbox:device/ap")
    assert schedule.days[schedule.first_day(unbox.start)].date == begins
    north = order_at(schedule, "north")
    assert north.lead == (20 if orders == 2 else 2)


def test_what_is_ordered_in_all_has_no_day_to_order_by() -> None:
    build = compiled(START, "work: {lead: 0 days}", AP_LATE)
    recorded = _recorded(access_point=(1, "2027-02-24", 0), wall_outlet_2=(1, "2027-02-24", 1))
    assert [each.shop for each in schedule_of(build, recorded).orders] == [""]


def test_of_a_line_that_is_ordered_in_part_the_rest_is_waited_for() -> None:
    """Two outlets are wanted and one has come."""
    plan = PLAN.replace("  old:", "  out-2:  {part: wall-outlet-2, room: loft}\n  old:")
    build = compiled(START, "work: {lead: 9 days}", plan=plan)
    half = schedule_of(build, _recorded(wall_outlet_2=(2, "2027-02-01", 1)))
    assert step(half, "fit:device/out").start == step(schedule_of(build), "fit:device/out").start
    assert step(schedule_of(build, _recorded(wall_outlet_2=(1, "2027-02-01", 0))), "fit:device/out").start > 0


def test_a_lead_that_nobody_says_is_no_lead_of_none() -> None:
    order = order_at(schedule_of(compiled(START)), "")
    assert (order.lead, order.by) == (None, None)


def test_the_plans_own_durations_hold_for_their_kind() -> None:
    schedule = schedule_of(compiled("work: {takes: {terminate: 11 min, pull: 90 s}}"))
    minutes = {each.id.partition(":")[0]: each.minutes for each in schedule.steps}
    assert (minutes["terminate"], minutes["pull"]) == (11, 2)
    assert minutes["patch"] == work_durations()["patch", ""].minutes


def test_usual_durations_grow_with_metres_and_with_what_is_counted() -> None:
    """Way: 30 min and 3 for each of 10 m; a proof: 3 min and 2 for each figure that is read."""
    schedule = schedule_of(compiled())
    assert step(schedule, "prepare:way/shaft").minutes == 60
    assert step(schedule, "prove:link/ap--core/1").minutes == 5


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


def test_a_first_phase_that_nothing_names_is_judged_by_what_names_none() -> None:
    plan = PLAN.replace("ap:     {", "ap:     {phase: later, ")
    phases = "phases: {soon: {by: 2027-03-01}, later: {}}\nwork: {hours: 1 h}"
    soon, later = schedule_of(compiled(START, phases, plan=plan)).phases
    assert (soon.name, soon.by, soon.is_late) == ("soon", "2027-03-01", True)
    assert (later.name, later.by) == ("later", "")
    only_soon = PLAN.replace("ap:     {", "ap:     {phase: soon, ")
    assert [each.name for each in schedule_of(compiled(START, phases, plan=only_soon)).phases] == ["", "soon"]


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
