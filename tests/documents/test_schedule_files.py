"""The schedule as files: the page to tick off, the calendar that others read, the data, and the chart."""

import json
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import icalendar
import pytest

from documents.hostile_texts import HOSTILE
from documents.report_reading import Page
from finding import sample as finding_sample
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.palette import SMALLEST_SIZE
from firstfix.documents.report.made import make
from firstfix.documents.schedule.files import schedule_files
from firstfix.finding.model import Report, report
from firstfix.progress.model import NOTHING_KEPT, DoneStep
from firstfix.schedule.model import Schedule
from firstfix.span import whole_file
from schedule.planned import compiled, lined_up, schedule_of

START = "start: 2027-03-01"
SHOP = "shops: {north: {postage: 0, tax: none, lead: 4 days, offers: {access-point: 90}}}"


@cache
def build() -> Build:
    return compiled(START, "work: {lead: 2 days, hours: 3 h}", SHOP)


@cache
def schedule() -> Schedule:
    return schedule_of(build())


def files_of(of: Build, found: Report | None = None) -> Mapping[str, bytes]:
    return schedule_files(make(of, found or report(())))


@cache
def files() -> Mapping[str, bytes]:
    return files_of(build())


def events(of: Mapping[str, bytes]) -> list[icalendar.Event]:
    calendar = icalendar.Calendar.from_ical(of["install.ics"])
    assert calendar.errors == []
    return calendar.events


def test_what_is_written() -> None:
    assert set(files()) == {
        "install-checklist.html",
        "schedule.json",
        "install.ics",
        "drawings/work.svg",
        "drawings/work.png",
    }
    assert "install.ics" not in files_of(compiled())


def test_the_same_twice() -> None:
    assert files_of(build()) == files()


# The page.


def test_every_step_has_its_box() -> None:
    page = files()["install-checklist.html"].decode()
    assert page.count('<input type="checkbox">') == len(lined_up(build()))
    for task in lined_up(build()):
        assert f"<code>{task.id}</code>" in page


def test_the_page_needs_nothing_and_runs_nothing() -> None:
    text = files()["install-checklist.html"].decode()
    assert "<script" not in text
    assert not re.search(r"(?:src|href)=[\"'](?!#)", text)
    assert "default-src 'none'" in text


def test_what_is_done_is_ticked_and_has_no_bar() -> None:
    step = DoneStep("unpack:plan/all", "", "", whole_file("plan.progress.yaml"))
    done = replace(NOTHING_KEPT, file="plan.progress.yaml", done={step.id: step})
    found = schedule_files(make(build(), report(()), done))
    assert found["install-checklist.html"].decode().count('<input type="checkbox" checked>') == 1
    # Unpacking everything took 15 min of the work on the bench.
    said = "Unpack and set up on the bench, "
    assert f"<title>{said}55 min</title>" in files()["drawings/work.svg"].decode()
    assert f"<title>{said}40 min</title>" in found["drawings/work.svg"].decode()


def test_a_draft_says_so_everywhere() -> None:
    found = files_of(build(), finding_sample.REPORT)
    assert "<strong>Draft:</strong>" in found["install-checklist.html"].decode()
    assert json.loads(found["schedule.json"])["draft"] is True
    assert all(str(event["SUMMARY"]).startswith("DRAFT") for event in events(found))


@pytest.mark.parametrize("text", HOSTILE)
def test_a_strangers_words_do_nothing(text: str) -> None:
    rooms = {id_: room._replace(name=text) for id_, room in build().rooms.items()}
    found = files_of(replace(build(), name=text, rooms=rooms))
    page = found["install-checklist.html"].decode()
    assert page.count("<script") == 0
    assert page.count("<input") == len(lined_up(build()))
    assert not list(Page(page).attributes("href"))
    assert len(events(found)) == len(events(files()))
    json.loads(found["schedule.json"])


# The calendar.


def test_lines_as_rfc_5545_wants_them() -> None:
    """3.1: CRLF, at most 75 octets, folded lines begin with a blank."""
    data = files()["install.ics"]
    lines = data.split(b"\r\n")
    assert lines[-1] == b""
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, lines)) <= 75
    assert any(line.startswith(b" ") for line in lines)


def test_a_long_name_in_many_octets_is_folded_between_characters() -> None:
    name = "Bienenstöcke über den Wäldern 蜂蜜 " * 8
    found = files_of(replace(build(), name=name))
    assert max(map(len, found["install.ics"].split(b"\r\n"))) <= 75
    calendar = icalendar.Calendar.from_ical(found["install.ics"])
    assert str(calendar["NAME"]) == f"{name}: installing"


def test_each_day_of_work_is_a_whole_day() -> None:
    found = [each for each in events(files()) if str(each["SUMMARY"]).startswith("Install day")]
    days = {schedule().days[schedule().first_day(step.start)].date for step in schedule().steps}
    assert {each.decoded("DTSTART").isoformat() for each in found} == days
    for each in found:
        assert type(each.decoded("DTSTART")) is date
        assert each.decoded("DTEND") - each.decoded("DTSTART") == timedelta(days=1)


def test_orders_are_on_the_day_by_which_to_order() -> None:
    found = {str(each["SUMMARY"]): each.decoded("DTSTART").isoformat() for each in events(files())}
    for order in schedule().orders:
        where = f"at {order.shop}" if order.shop else "what no shop is named for"
        assert order.by is not None
        assert found[f"Order {where}, today at the latest"] == schedule().days.date_at(order.by)


def test_stamps_are_the_plans_and_uids_stay() -> None:
    """A change of the crew moves days; what stands for the first of them is still the same event."""
    one, other = events(files()), events(files_of(compiled(START, "work: {lead: 2 days, hours: 4 h}", SHOP)))
    assert {each.decoded("DTSTAMP").date().isoformat() for each in (*one, *other)} == {"2027-03-01"}
    assert len({str(each["UID"]) for each in one}) == len(one)
    assert {str(each["UID"]) for each in one} & {str(each["UID"]) for each in other}


# The data.


def test_the_data_is_the_schedule() -> None:
    data = json.loads(files()["schedule.json"])
    assert [each["id"] for each in data["steps"]] == [each.id for each in schedule().steps]
    for shown, step in zip(data["steps"], schedule().steps, strict=True):
        assert shown["begin"]["minute"] == step.start
        assert shown["with-hands-enough"]["total-float"] == step.dates.total_float
        assert shown["with-hands-enough"]["free-float"] == step.dates.free_float
    assert data["finish"]["minute"] == schedule().finish
    assert data["durations"]["basis"] == "common practice, no source"


# The chart.


def test_the_chart_is_legible() -> None:
    svg = files()["drawings/work.svg"].decode()
    sizes = [float(each) for each in re.findall(r'font-size="([0-9.]+)"', svg)]
    assert min(sizes) >= SMALLEST_SIZE
    width = float(re.findall(r'viewBox="0 0 ([0-9.]+)', svg)[0])
    for x, _, anchor_and_rest in re.findall(r'<text x="([0-9.]+)" y="([0-9.]+)"([^>]*)>', svg):
        long = float(re.findall(r'textLength="([0-9.]+)"', anchor_and_rest)[0])
        right = float(x) + (0 if "end" in anchor_and_rest else long)
        assert right <= width


def test_the_chart_says_in_words_what_it_shows() -> None:
    svg = files()["drawings/work.svg"].decode()
    description = re.findall(r"<desc[^>]*>(.*?)</desc>", svg)[0]
    for words in ("study", "loft", "Pull and label cable", "Running network interrupted"):
        assert words in description


def test_meaning_is_not_carried_by_colour_alone() -> None:
    """Bars differ in fill or outline when all colour is taken away: dark, pale with an outline, dashes."""
    svg = files()["drawings/work.svg"].decode()
    assert 'stroke-dasharray="2.5 1.8"' in svg
    for words in (
        "in the longest chain",
        "other work",
        "something in use is cut off",
        "begins when its parts come",
    ):
        assert words in svg
