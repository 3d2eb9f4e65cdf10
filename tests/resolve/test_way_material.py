"""What ways need: lengths, bends, clips, glands and seals, each only where the plan says that the way is to be made."""

from math import ceil
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.parts.facts import Fact
from firstfix.purchase.not_counted import not_counted
from firstfix.work.tasks import tasks
from resolve.planning import build_of, compiled


def plan(cables: int = 1, outdoors: bool = False, **way: Any) -> dict[str, Any]:
    """`cables` cameras at the far end of one way of 9 m."""
    cameras = {
        f"cam-{number}": {"part": "camera-outdoor", "room": "far", "plugs-into": "core"}
        for number in range(cables)
    }
    return {
        "sites": {"home": {"rooms": {"study": {"mains": 4}, "far": {"outdoors": outdoors}}}},
        "ways": {"way": {"between": ["study", "far"], "length": "9 m", **way}},
        "devices": {"core": {"part": "switch-8-poe", "room": "study"}, **cameras},
    }


def of_way(build: Build) -> dict[str, int]:
    return {item.part: item.count for item in build.items if item.for_id == "way:way"}


SEALED: dict[str, int] = {"fire-stop-sealant": 1}
AIRY: dict[str, Any] = {"kind": "clipped-outdoors", "outdoors": True}
BURIED: dict[str, Any] = {"kind": "buried-duct", "outdoors": True}


@pytest.mark.parametrize(
    ("made", "wanted"),
    [
        ({}, SEALED),
        # 9 m of 3 m each, three clips a length, a screw a clip.
        ({"material": "conduit-25"}, {"conduit-25": 3, "conduit-clip-25": 9, "wall-fixing-small": 9, **SEALED}),
        ({"material": "conduit-25", "bends": 0}, {"conduit-25": 3, "conduit-clip-25": 9, "wall-fixing-small": 9, **SEALED}),
        (
            {"material": "conduit-25", "bends": 2},
            {"conduit-25": 3, "conduit-clip-25": 9, "wall-fixing-small": 9, "conduit-bend-25": 2, **SEALED},
        ),
        # 9.01 m takes one more.
        ({"material": "conduit-25", "length": "9.01 m"}, {"conduit-25": 4, "conduit-clip-25": 12, "wall-fixing-small": 12, **SEALED}),
        ({"material": "conduit-25", "owned": True}, SEALED),
        ({"material": "trunking-40x25"}, {"trunking-40x25": 5, "wall-fixing-small": 20, **SEALED}),
        # 9 m at 0.3 m: 30 gaps, 31 clips.
        (AIRY, {"cable-clip-outdoor-7": 31, "gland-m16": 1}),
        ({**AIRY, "cables": 3}, {"cable-clip-outdoor-7": 93, "gland-m16": 3}),
        ({**AIRY, "material": "cable-clip-9"}, {"cable-clip-9": 31, "gland-m16": 1}),
        ({**AIRY, "owned": True}, {}),
        (BURIED, {"duct-seal": 1}),
        ({**BURIED, "outdoors": False}, {"duct-seal": 2}),
        ({**BURIED, "material": "duct-50"}, {"duct-50": 1, "warning-tape": 1, "duct-seal": 1}),
        ({**BURIED, "kind": "direct-burial"}, {"warning-tape": 1, "duct-seal": 1}),
        ({"cables": 0, "material": "conduit-25"}, {}),
    ],
)  # fmt: skip
def test_what_a_way_needs(made: dict[str, Any], wanted: dict[str, int], tmp_path: Path) -> None:
    assert of_way(build_of(tmp_path, plan(**made))) == wanted


@pytest.mark.parametrize("length", [0.3, 3.0, 3.1, 24.9, 25.0, 25.1])
def test_lengths_reach_and_none_is_too_many(length: float, tmp_path: Path) -> None:
    build = build_of(tmp_path, plan(material="conduit-flexible-25", length=f"{length} m"))
    assert of_way(build)["conduit-flexible-25"] == ceil(length / 25)


def test_a_run_that_is_there_needs_nothing_of_the_way(tmp_path: Path) -> None:
    here = plan(cables=0, material="conduit-25")
    here["devices"]["cam"] = {"part": "camera", "room": "far"}
    here["links"] = [{"run": ["cam", "core"], "owned": "runs"}]
    assert of_way(build_of(tmp_path, here)) == {}


def test_a_pipe_says_its_bore(tmp_path: Path) -> None:
    bore = build_of(tmp_path, plan(material="conduit-25")).ways["way:way"].bore
    assert isinstance(bore, Fact)
    assert bore.typical == 0.0214  # the part's own figure
    written = build_of(tmp_path, plan(material="conduit-25", bore="19 mm")).ways["way:way"].bore
    assert isinstance(written, Fact)
    assert written.typical == 0.019


@pytest.mark.parametrize(
    ("material", "rule"),
    [("conduit-52", "name-unknown"), ("switch-8", "part-kind"), ("gland-m16", "part-kind")],
)
def test_no_way_is_made_of_that(material: str, rule: str, tmp_path: Path) -> None:
    made = compiled(tmp_path, plan(material=material))
    assert rule in {finding.rule for finding in made.report.findings}


def test_steps_take_what_the_way_needs(tmp_path: Path) -> None:
    build = build_of(tmp_path, plan(material="conduit-25"))
    taken = {item: task.id for task in tasks(build) for item in task.parts}
    assert taken["item:way/way+conduit-25"] == "prepare:way/way"
    assert taken["item:way/way+fire-stop-sealant"] == "close:way/way"


@pytest.mark.parametrize(
    ("made", "said"),
    [
        ({}, "what these ways are made of"),
        ({"material": "conduit-25"}, "the bends of these ways"),
        ({"material": "conduit-25", "length": None}, "the material of these ways"),
        (BURIED, "digging"),
    ],
)
def test_what_is_left_out_is_said(made: dict[str, Any], said: str, tmp_path: Path) -> None:
    found = [each for each in not_counted(build_of(tmp_path, plan(**made))) if each.what.startswith(said)]
    assert [each.names for each in found] == [("way",)]


@pytest.mark.parametrize("made", [{"owned": True}, {"material": "conduit-25", "bends": 0}, {"cables": 0}])
def test_nothing_is_left_out_of_a_way_that_says_all(made: dict[str, Any], tmp_path: Path) -> None:
    assert not [each for each in not_counted(build_of(tmp_path, plan(**made))) if "way" in each.names]


@pytest.mark.parametrize(("width", "form"), [("13 mm", "clips"), ("3 mm", "glands")])
def test_a_cable_that_nothing_holds_is_said(width: str, form: str, tmp_path: Path) -> None:
    odd = plan(**AIRY)
    odd["parts"] = {"odd": {"like": "cat6-outdoor", "cable": {"diameter": width}}}
    odd["cabling"] = {"outdoor": "odd"}
    found = [each.names for each in not_counted(build_of(tmp_path, odd)) if each.what.startswith(form)]
    assert found == [("way",)]
