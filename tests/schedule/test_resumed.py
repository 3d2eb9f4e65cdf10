"""Work that has begun: what is done takes no time, and the rest goes on after the last day that is recorded."""

import json
from dataclasses import replace

from firstfix.build.model import Build
from firstfix.documents.report.made import make
from firstfix.documents.schedule.files import schedule_files
from firstfix.finding.model import Report
from firstfix.progress.model import NOTHING_KEPT, DoneStep, Progress
from firstfix.schedule.resumed import resumed, still_open
from firstfix.span import whole_file
from schedule.planned import compiled, lined_up, schedule_of


def recorded(*steps: str, on: str = "") -> Progress:
    done = {each: DoneStep(each, on, "", whole_file("p.yaml")) for each in steps}
    return replace(NOTHING_KEPT, file="p.yaml", done=done)


def begun() -> tuple[Build, tuple[str, ...]]:
    """The first half of the work, as it is lined up."""
    build = compiled("start: 2027-03-01")
    line = [task.id for task in lined_up(build)]
    return build, tuple(line[: len(line) // 2])


def test_what_is_done_is_not_planned_again() -> None:
    build, done = begun()
    left = still_open(lined_up(build), frozenset(done))
    assert {task.id for task in left} == {task.id for task in lined_up(build)} - set(done)
    assert not any(each.before in done for task in left for each in task.after)
    files = schedule_files(make(build, Report((), (), {}), recorded(*done, on="2027-03-04")))
    data = json.loads(files["schedule.json"])
    assert data["done"] == sorted(done)
    assert {each["id"] for each in data["steps"]}.isdisjoint(done)
    assert min(each["begin"]["date"] for each in data["steps"]) == "2027-03-05"
    assert data["finish"]["minute"] < schedule_of(build).finish
    assert b"DTSTART;VALUE=DATE:20270305" in files["install.ics"]
    assert b"20270304" not in files["install.ics"]


def test_a_later_start_of_the_plan_stands() -> None:
    build, done = begun()
    assert resumed(build, recorded(*done, on="2027-02-26")) is build
    assert resumed(build, recorded(*done)) is build
    assert resumed(build, recorded(*done, on="2027-03-01")).start == "2027-03-02"
    assert resumed(build, recorded(*done, on="9999-12-31")) is build


def test_when_all_is_done_nothing_is_planned() -> None:
    build = compiled("start: 2027-03-01")
    everything = [task.id for task in lined_up(build)]
    files = schedule_files(make(build, Report((), (), {}), recorded(*everything, on="2027-03-04")))
    assert b"All steps are done." in files["install-checklist.html"]
    assert b"Install day" not in files["install.ics"]
    assert json.loads(files["schedule.json"])["steps"] == []
