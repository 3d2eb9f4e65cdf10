"""What the checklist's page says of late orders, of float, and of what goes down with a switch."""

import json

from firstfix.build.model import Build
from firstfix.documents.schedule.by_day import numbers_of
from firstfix.documents.schedule.calendar import calendar
from firstfix.documents.schedule.data import schedule_json
from firstfix.documents.schedule.page import checklist_page
from schedule.planned import PLAN, compiled, lined_up, schedule_of
from schedule.test_make import AP_LATE, START

LATE = (START, "work: {lead: 0 days}", AP_LATE)


def page(build: Build) -> str:
    return checklist_page(build, lined_up(build), schedule_of(build), (), frozenset(), "")


def test_an_order_that_comes_too_late_says_when_it_should_have_been_placed() -> None:
    """Twenty days before 1 March 2027, by the calendar: 9 February."""
    build = compiled(*LATE)
    assert "2027-03-01, and steps wait for it; for none to wait, 2027-02-09" in page(build)
    text = calendar(build, schedule_of(build), numbers_of(lined_up(build)), is_draft=False)
    assert "it should have been ordered by 2027-02-09" in text.replace("\r\n ", "")
    orders = {
        each["shop"]: each for each in json.loads(schedule_json(schedule_of(build), {}, False))["order-by"]
    }
    assert orders["north"]["for-nothing-to-wait"] == {"days-after-start": -20, "date": "2027-02-09"}


def test_without_a_start_it_is_said_in_days() -> None:
    assert "20 days before the start" in page(compiled(*LATE[1:]))


def test_an_order_in_time_says_no_more_than_its_day() -> None:
    assert "steps wait for it" not in page(compiled(START, "work: {lead: 0 days}"))


def test_each_step_has_its_float_or_is_said_to_decide() -> None:
    build = compiled()
    text, schedule = page(build), schedule_of(build)
    for step in schedule.steps:
        at = text.index(f"<code>{step.id}</code>")
        line = text[text.rindex("<li", 0, at) : at]
        assert (", float " in line) == bool(step.dates.total_float), step.id
    assert text.count("Float is by how much") == 1


def test_what_hangs_on_a_switch_goes_down_with_it() -> None:
    """It moves into the cabinet; where it only gets a cord more, it goes on."""
    moved = PLAN.replace("10: core,", "10: core, 8: {fit: shelf-1u, carries: [old]},").replace(
        "room: study, owned", "owned"
    )
    assert "old, and all that hangs on it" in page(compiled(plan=moved))
    assert "all that hangs on it" not in page(compiled())
