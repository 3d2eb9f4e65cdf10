"""Labels, covers, ties, fibre ends and mains cords: one for each place that needs one, and none beside."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.hardware import TO_BUY
from firstfix.build.model import Build
from firstfix.purchase.needs import needs
from firstfix.work.tasks import tasks
from resolve.planning import build_of

ROOMS = {"home": {"rooms": {"study": {"mains": 9}, "attic": {"mains": 2}, "yard": {"outdoors": True}}}}
WAYS = {
    "riser": {"between": ["study", "attic"], "length": "9 m", "kind": "riser"},
    "wall": {"between": ["study", "yard"], "length": "3 m", "kind": "wall"},
}


def plan(devices: dict[str, Any], *runs: list[str], **more: Any) -> dict[str, Any]:
    return {"sites": ROOMS, "ways": WAYS, "devices": devices, "links": [{"run": run} for run in runs], **more}


def bought(build: Build, part: str) -> dict[str, int]:
    """By what needs it."""
    found: dict[str, int] = {}
    for item in build.items:
        if item.part == part and item.standing == TO_BUY:
            found[item.for_id] = found.get(item.for_id, 0) + item.count
    return found


OUTLET: dict[str, Any] = {
    "core": {"part": "switch-8", "room": "study"},
    "panel": {"part": "keystone-panel-12-1u", "room": "study"},
    "out": {"part": "wall-outlet-2", "room": "attic"},
}


def test_jacks_in_use_have_labels_and_the_others_covers(tmp_path: Path) -> None:
    build = build_of(tmp_path, plan(OUTLET, ["out/1", "panel/1", "core"]))
    assert bought(build, "label-jack") == {"device:out": 1, "device:panel": 1}
    assert bought(build, "opening-cover") == {"device:out": 1, "device:panel": 11}


def test_full_panels_need_no_covers_and_owned_ones_nothing(tmp_path: Path) -> None:
    runs = (["out/1", "panel/1", "core"], ["out/2", "panel/2", "core"])
    build = build_of(tmp_path, plan({**OUTLET, "panel": {**OUTLET["panel"], "owned": True}}, *runs))
    assert bought(build, "opening-cover") == {}
    assert bought(build, "label-jack") == {"device:out": 2}


def test_covers_in_the_box_are_not_bought(tmp_path: Path) -> None:
    own = {"parts": {"boxed": {"like": "keystone-panel-12-1u", "in-box": {"opening-cover": 8}}}}
    devices = {**OUTLET, "panel": {"part": "boxed", "room": "study"}}
    build = build_of(tmp_path, plan(devices, ["out/1", "panel/1", "core"], **own))
    assert bought(build, "opening-cover") == {"device:out": 1, "device:panel": 3}


def test_what_has_a_name_has_a_label_indoors(tmp_path: Path) -> None:
    devices = {
        **OUTLET,
        "cam": {"part": "camera-outdoor", "room": "yard", "plugs-into": "core"},
        "old": {"part": "switch-8", "room": "study", "owned": True},
    }
    build = build_of(tmp_path, plan(devices))
    assert bought(build, "label-cabinet") == {"device:core": 1, "device:panel": 1}
    (cable,) = bought(build, "label-outdoor").items()
    assert cable[1] == 1
    assert bought(build, "label-cable")[cable[0]] == 1


@pytest.mark.parametrize("turned", [False, True])
def test_cords_in_a_cabinet_are_tied_by_twos_whichever_way_they_are_written(
    turned: bool, tmp_path: Path
) -> None:
    devices = {f"box-{number}": {"part": "end-device", "room": "study"} for number in range(3)}
    runs = [[name, f"core/{number}"] for number, name in enumerate(devices, 1)]
    cabinet = {"cabinets": {"main": {"room": "study", "part": "wall-cabinet-6u", "layout": {4: "core"}}}}
    made = plan(
        {**devices, "core": {"part": "switch-16-poe"}},
        *(run[::-1] if turned else run for run in runs),
        **cabinet,
    )
    assert bought(build_of(tmp_path, made), "tie-hook-and-loop") == {"cabinet:main": 2}


FIBRE: dict[str, Any] = {
    "core": {"part": "switch-24-poe", "room": "study"},
    "near": {"part": "fibre-panel-12-1u", "room": "study"},
    "far": {"part": "fibre-outlet-2", "room": "attic"},
}


@pytest.mark.parametrize(
    ("cabling", "wanted"),
    [
        ({}, {"pigtail-lc-os2": 4, "splice-protector": 4}),
        (
            {"fibre-ends": "spliced", "fibre": "fibre-om4-indoor"},
            {"pigtail-lc-om4": 4, "splice-protector": 4},
        ),
        ({"fibre-ends": "plugs"}, {"plugs-put-on-lc-os2": 2}),
    ],
)
def test_installed_fibre_ends_in_plugs(
    cabling: dict[str, str], wanted: dict[str, int], tmp_path: Path
) -> None:
    build = build_of(tmp_path, plan(FIBRE, ["core/sfp1", "near/1", "far/1"], cabling=cabling))
    ends = ("pigtail", "splice", "plugs-put-on", "plug-")
    found = {name: sum(bought(build, name).values()) for name in build.library if name.startswith(ends)}
    assert {name: count for name, count in found.items() if count} == wanted
    taken = {item: task.id.partition(":")[0] for task in tasks(build) for item in task.parts}
    assert {taken[item.id] for item in build.items if item.part in wanted} == {"terminate"}


def test_a_fibre_run_to_a_cage_has_its_transceiver_and_its_plugs(tmp_path: Path) -> None:
    build = build_of(tmp_path, plan(FIBRE, ["core/sfp1", "far/1"]))
    assert sum(bought(build, "pigtail-lc-os2").values()) == 4
    assert sum(bought(build, "sfp-lx").values()) == 1
    assert bought(build, "plug-cat6") == {}


@pytest.mark.parametrize(
    ("strip", "length"),
    # 0.4826 m across, 0.3 m dressing, and 44.45 mm for each unit between: 1 m reaches 4 units, not 5.
    [(8, 1.0), (7, 2.0), (2, 2.0)],
)
def test_mains_cords_are_as_long_as_they_must_be(strip: int, length: float, tmp_path: Path) -> None:
    """By hand: 0.7826 + 4 x 0.04445 = 0.9604 m; 0.7826 + 5 x 0.04445 = 1.0049 m."""
    layout = {12: "core", strip: "strip"}
    devices = {"core": {"part": "bare", "power": "strip"}, "strip": {"part": "power-strip-1u-8"}}
    more = {
        "parts": {"bare": {"like": "switch-16-poe", "in-box": {}}},
        "cabinets": {"main": {"room": "study", "part": "wall-cabinet-12u", "layout": layout}},
    }
    build = build_of(tmp_path, plan(devices, **more))
    lines = {(each.length, each.amount.needed) for each in needs(build) if each.part == "power-cord-c13"}
    assert lines == {(length, 1)}


def test_a_mains_cord_in_the_room_is_as_long_as_other_cords_there(tmp_path: Path) -> None:
    devices = {"core": {"part": "bare", "room": "study"}}
    more = {"parts": {"bare": {"like": "switch-16-poe", "in-box": {}}}, "cabling": {"desk-cord": "2.5 m"}}
    lines = {
        each.length
        for each in needs(build_of(tmp_path, plan(devices, **more)))
        if each.part == "power-cord-c13"
    }
    assert lines == {3.0}


@pytest.mark.parametrize(("said", "spares"), [("1 in 10", 1), ("1 in 1", 1), ("none", 0)])
def test_plugs_modules_and_transceivers_have_spares(said: str, spares: int, tmp_path: Path) -> None:
    build = build_of(tmp_path, plan(FIBRE, ["core/sfp1", "near/1", "far/1"], cabling={"spares": said}))
    found = {each.part: each.amount.spares for each in needs(build)}
    assert found["sfp-lx"] == spares
    assert found["pigtail-lc-os2"] == 0
