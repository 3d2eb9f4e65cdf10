"""The colour of each cord: what its link says, else its VLAN, else the cabling's own words."""

from pathlib import Path
from typing import Any

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.compare.changes import compare
from firstfix.purchase.needs import needs
from resolve.planning import build_of

PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"study": {"mains": 9}, "attic": {"mains": 2}}}},
    "ways": {"riser": {"between": ["study", "attic"], "length": "9 m", "kind": "riser"}},
    "vlans": {
        "home": {"id": 10, "subnet": "10.7.10.0/24"},
        "guests": {"id": 20, "subnet": "10.7.20.0/24", "colour": "green"},
    },
    "devices": {
        "router": {"part": "gateway-desktop", "room": "study", "vlan": "home"},
        "core": {"part": "switch-8", "room": "study", "vlan": "home"},
        "panel": {"part": "keystone-panel-12-1u", "room": "study"},
        "outlet": {"part": "wall-outlet-1", "room": "attic"},
        "desk": {"part": "end-device", "room": "attic", "vlan": "guests"},
        "box": {"part": "end-device", "room": "study", "vlan": "home"},
        "bell": {"part": "end-device", "room": "study", "vlan": "guests"},
    },
    "links": [
        {"run": ["router", "core"]},
        {"run": ["desk", "outlet", "panel", "core"]},
        {"run": ["box", "core"]},
        {"run": ["bell", "core"], "colour": "red"},
    ],
}


def colours(build: Build) -> dict[str, str]:
    return {
        "–".join(ids.path(build.jacks[end].device) for end in piece.ends): piece.colour
        for piece in build.pieces.values()
    }


def test_vlan_colours_the_cords_and_not_the_run(tmp_path: Path) -> None:
    found = colours(build_of(tmp_path, PLAN))
    assert found == {
        "router–core": "",
        "desk–outlet": "green",
        "outlet–panel": "",
        "panel–core": "green",
        "box–core": "",
        "bell–core": "red",
    }


def test_the_cablings_colours_fill_the_rest(tmp_path: Path) -> None:
    cabling = {"colours": {"cords": "grey", "tagged": "blue", "runs": "violet"}}
    found = colours(build_of(tmp_path, {**PLAN, "cabling": cabling}))
    assert found["router–core"] == "blue"
    assert found["box–core"] == "grey"
    assert found["outlet–panel"] == "violet"
    assert found["desk–outlet"] == "green"


def test_a_link_that_is_one_run_takes_its_colour_itself(tmp_path: Path) -> None:
    links = [*PLAN["links"], {"run": ["far", "core"], "colour": "orange"}]
    devices = {**PLAN["devices"], "far": {"part": "end-device", "room": "attic", "vlan": "home"}}
    found = colours(build_of(tmp_path, {**PLAN, "devices": devices, "links": links}))
    assert found["far–core"] == "orange"


def test_one_lot_for_each_part_length_and_colour(tmp_path: Path) -> None:
    lots = {each.title: each.amount for each in needs(build_of(tmp_path, PLAN)) if each.part == "cord-cat6"}
    assert {title.removeprefix("Cord, category 6, unscreened, "): (lot.needed, lot.spares) for title, lot in lots.items()} == {
        "2 m": (2, 1),
        "2 m, green": (2, 0),
        "2 m, red": (1, 0),
    }  # fmt: skip


def test_without_colours_the_build_has_none(tmp_path: Path) -> None:
    plain = {**PLAN, "vlans": {"home": PLAN["vlans"]["home"]}, "links": [{"run": ["router", "core"]}]}
    devices = {name: each for name, each in PLAN["devices"].items() if name in ("router", "core")}
    assert set(colours(build_of(tmp_path, {**plain, "devices": devices})).values()) == {""}


def test_another_colour_is_something_to_buy(tmp_path: Path) -> None:
    old = build_of(tmp_path, PLAN)
    vlans = {**PLAN["vlans"], "guests": {**PLAN["vlans"]["guests"], "colour": "pink"}}
    changes = compare(old, build_of(tmp_path, {**PLAN, "vlans": vlans}))
    assert [(each.part, each.colour, each.amount) for each in changes.to_buy] == [("cord-cat6", "pink", 2)]
    assert {each.attribute for each in changes.changed} == {"colour"}
