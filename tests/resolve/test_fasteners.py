"""What holds things on rails follows from the rails, the box, and what closes over the heads."""

import json
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.parts.library_files import library
from firstfix.pipeline import compile_plan


def build(folder: Path, cabinet: dict[str, Any], **own: Any) -> Build:
    plan = {
        "sites": {"home": {"rooms": {"study": {"mains": 9}}}},
        "parts": {"cab": {"like": "wall-cabinet-6u", **cabinet}, "strip": {"like": "power-strip-1u-8", **own}},
        "cabinets": {"main": {"part": "cab", "layout": {"5": "core", "1": {"fit": "front", "over": "power"}}}},
        "devices": {"core": {"part": "switch-16"}, "power": {"part": "strip"}, "router": {"part": "gateway-1u"}},
        "links": [{"run": ["router", "core"]}],
    }  # fmt: skip
    plan["parts"]["front"] = {"like": own.pop("front", "hinged-panel-1u")}  # type: ignore[index]
    plan["parts"]["strip"].pop("front", None)  # type: ignore[index]
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), "utf-8")
    made = compile_plan(path, path.name).build
    assert made is not None
    return made


def holding(found: Build, what: str) -> dict[str, int]:
    items = (item for item in found.items if item.for_id == what)
    return {item.part: item.count for item in items if found.library[item.part].kind == "fastener"}


@pytest.mark.parametrize(
    ("rails", "thread", "name"),
    [
        ("square holes", "M6", "cage-nut-set-m6"),
        ("square holes", "M5", "cage-nut-set-m5"),
        ("square holes", "10-32", "cage-nut-set-10-32"),
        ("square holes", "12-24", "cage-nut-set-12-24"),
        ("threaded", "M6", "screw-m6"),
        ("threaded", "10-32", "screw-10-32"),
        ("threaded", "12-24", "screw-12-24"),
        ("round holes", "M6", "bolt-and-nut-m6"),
    ],
)
def test_by_rails_and_thread(rails: str, thread: str, name: str, tmp_path: Path) -> None:
    found = build(tmp_path, {"rails": rails, "thread": thread})
    assert holding(found, "device:core") == {name: 4}
    assert (library()[name].rails, library()[name].thread) == (rails, thread)


def test_a_flat_front_has_countersunk_screws_below_it_where_there_are_some(tmp_path: Path) -> None:
    found = build(tmp_path, {"rails": "threaded"}, front="hinged-panel-flat-1u")
    assert holding(found, "device:power") == {"screw-m6-countersunk": 4}
    assert holding(found, "fitting:main/1") == {"screw-m6-countersunk": 2}
    assert holding(found, "device:core") == {"screw-m6": 4}


def test_what_comes_in_the_box_is_used_if_it_suits(tmp_path: Path) -> None:
    found = build(tmp_path, {}, **{"in-box": {"clip-stud-set-m6": 4, "screw-m6": 4}})
    items = [item for item in found.items if item.for_id == "device:power" and "stud" in item.part]
    assert [(item.count, item.standing) for item in items] == [(4, "in a box")]
    assert not [item for item in found.items if item.for_id == "device:power" and "cage" in item.part]


def test_without_a_suiting_fastener_there_is_a_gap(tmp_path: Path) -> None:
    found = build(tmp_path, {"thread": "M8"})
    assert not holding(found, "device:core")
    assert {gap.rule for gap in found.gaps} == {"fastener-unknown"}
