"""What is there already or comes in a box is not bought: links that exist, fittings, small parts in boxes, known lengths."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.hardware import IN_A_BOX, IN_PLACE, TO_BUY, Item
from firstfix.build.model import Build
from firstfix.work.tasks import tasks
from resolve.planning import build_of, compiled

PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"study": {"mains": 9}, "attic": {"mains": 2}}}},
    "ways": {"riser": {"between": ["study", "attic"], "length": "9 m", "kind": "riser"}},
    "parts": {},
    "cabinets": {
        "main": {"room": "study", "part": "wall-cabinet-6u", "layout": {6: "panel", 4: {"fit": "shelf-1u"}}}
    },
    "devices": {
        "router": {"part": "gateway-desktop", "room": "study"},
        "panel": {"part": "keystone-panel-12-1u"},
        "outlet": {"part": "wall-outlet-1", "room": "attic"},
        "desk": {"part": "end-device", "room": "attic"},
    },
    "links": [{"run": ["desk", "outlet", "panel", "router"]}],
}


def _linked(**more: Any) -> dict[str, Any]:
    return {**PLAN, "links": [{**PLAN["links"][0], **more}]}


def _of_link(build: Build) -> dict[str, str]:
    """Standing of what the link's pieces are made of, by part; one word where all agree."""
    found: dict[str, set[str]] = {}
    wanted = [item for item in build.items if item.for_id in build.pieces or item.part == "jack-cat6"]
    for item in wanted:
        found.setdefault(item.part, set()).add(item.standing)
    return {part: ", ".join(sorted(standings)) for part, standings in found.items()}


def _items(build: Build, part: str) -> list[Item]:
    return [item for item in build.items if item.part == part]


def test_a_new_link_is_bought_whole(tmp_path: Path) -> None:
    assert set(_of_link(build_of(tmp_path, PLAN)).values()) == {TO_BUY}


def test_runs_that_exist_keep_their_cable_and_jacks(tmp_path: Path) -> None:
    build = build_of(tmp_path, _linked(owned="runs"))
    standing = _of_link(build)
    assert standing["cat6-indoor"] == standing["jack-cat6"] == IN_PLACE
    assert standing["cord-cat6"] == TO_BUY
    assert "tie-hook-and-loop" not in standing
    assert not any(task.id.startswith("pull:") for task in tasks(build))


def test_a_link_that_exists_needs_nothing(tmp_path: Path) -> None:
    assert set(_of_link(build_of(tmp_path, _linked(owned=True))).values()) == {IN_PLACE}


def test_a_measured_run_has_the_length_that_was_measured(tmp_path: Path) -> None:
    build = build_of(tmp_path, _linked(length="21.4 m", owned="runs"))
    (run,) = [piece for piece in build.pieces.values() if piece.route]
    assert [(term.what, term.value) for term in run.length.terms] == [("length that the plan states", 21.4)]
    assert _items(build, "cat6-indoor")[0].length == 21.4


def test_a_cord_of_a_length_that_is_sold(tmp_path: Path) -> None:
    plan = {**PLAN, "links": [{"run": ["box", "router"], "length": "5 m"}]}
    plan["devices"] = {**PLAN["devices"], "box": {"part": "end-device", "room": "study"}}
    (cord,) = build_of(tmp_path, plan).pieces.values()
    assert cord.length.sold == 5


@pytest.mark.parametrize(("owned", "faults"), [(False, 1), (True, 0)])
def test_a_cord_of_a_length_that_nobody_sells(tmp_path: Path, owned: bool, faults: int) -> None:
    """One that is there already has whatever length it has."""
    plan = {**PLAN, "links": [{"run": ["box", "router"], "length": "3.3 m", "owned": owned}]}
    plan["devices"] = {**PLAN["devices"], "box": {"part": "end-device", "room": "study"}}
    found = compiled(tmp_path, plan)
    said = [each.message for each in found.report.findings if each.rule == "cord-length"]
    assert len(said) == faults
    assert all("is sold in a length of 3.3 m; there are" in each for each in said)


def test_a_fitting_that_is_there(tmp_path: Path) -> None:
    cabinet = PLAN["cabinets"]["main"]
    layout = {6: "panel", 4: {"fit": "shelf-1u", "owned": True}}
    build = build_of(tmp_path, {**PLAN, "cabinets": {"main": {**cabinet, "layout": layout}}})
    assert [item.standing for item in _items(build, "shelf-1u")] == [IN_PLACE]


def test_what_came_in_the_panels_box_is_used_up_first(tmp_path: Path) -> None:
    parts = {
        "full-panel": {
            "like": "keystone-panel-12-1u",
            "in-box": {"jack-cat6": 12, "cage-nut-set-m6": 4, "tie-hook-and-loop": 2},
        }
    }
    devices = {**PLAN["devices"], "panel": {"part": "full-panel"}}
    build = build_of(tmp_path, {**PLAN, "parts": parts, "devices": devices})
    jacks = {item.for_id: item for item in _items(build, "jack-cat6") if "fills" in item.why}
    assert jacks["device:panel"].standing == IN_A_BOX
    assert jacks["device:outlet"].standing == TO_BUY
    # Eleven stay in the box, none is there twice.
    assert sum(item.count for item in _items(build, "jack-cat6") if item.standing == IN_A_BOX) == 12
    nuts = [item for item in _items(build, "cage-nut-set-m6") if item.for_id == "device:panel"]
    assert [item.standing for item in nuts] == [IN_A_BOX]
    ties = [item for item in _items(build, "tie-hook-and-loop") if item.for_id in build.pieces]
    assert [(item.count, item.standing) for item in ties] == [(2, IN_A_BOX)]


def test_a_part_that_is_in_no_library_cannot_come_in_a_box(tmp_path: Path) -> None:
    parts = {"odd": {"like": "switch-8", "in-box": {"rack-eers": 1}}}
    found = compiled(tmp_path, {**PLAN, "parts": parts})
    (fault,) = [each for each in found.report.findings if each.rule == "name-unknown"]
    assert "there is no part 'rack-eers'" in fault.message
    assert fault.primary is not None
