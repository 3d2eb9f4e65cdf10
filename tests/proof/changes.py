"""Pairs of plans, one the other's expansion, and the sheets of the change between them; each is drawn once in a run of the tests."""

import copy
import json
import tempfile
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from firstfix.build.model import Build
from firstfix.compare.changes import Changes, compare
from firstfix.documents.drawing.change import change_drawings
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.pipeline import compile_plan
from proof.hostile_names import plan_of_long_names
from repo.editing import HONEY_FARM, read

ROWING_CLUB = HONEY_FARM.with_name("rowing-club.yaml")
Plan = Any


class Pair(NamedTuple):
    old: Build
    new: Build
    changes: Changes
    drawings: tuple[Drawing, ...]


def a_camera_more(plan: Plan) -> None:
    """One camera more, the switch one unit lower, one place put on another jack of its outlet."""
    plan["devices"]["cam-hives"] = {
        "part": "yard-camera",
        "room": "hive-stand",
        "vlan": "farm",
        "plugs-into": "barn-switch",
    }
    layout = plan["cabinets"]["main"]["layout"]
    layout["8"], layout["7"] = layout["7"], layout["8"]
    plan["links"] = [each for each in plan["links"] if each["run"][0] != "desk"]
    plan["links"].append({"run": ["desk", "out-workroom/2", "panel/1", "core"]})


def the_loft_is_let(plan: Plan) -> None:
    """A second switch with an outlet, a larger file store, the scale gives way, a camera and a computer move."""
    site = plan["sites"]["farm"]["buildings"]
    site["farmhouse"]["rooms"]["guest-room"] = {"floor": 2, "mains": 4}
    plan["ways"]["loft-riser"] = {"between": ["landing", "guest-room"], "length": "4 m", "kind": "riser"}
    plan["cabinets"]["main"]["layout"]["10"] = "loft-switch"
    devices = plan["devices"]
    devices["loft-switch"] = {"part": "switch-16-poe", "vlan": "manage", "host": 4}
    devices["ap-loft"] = {"part": "access-point", "room": "guest-room", "vlan": "manage", "tagged": ["guests"],
                          "plugs-into": ["panel", "loft-switch"]}  # fmt: skip
    devices["out-guest"] = {"part": "wall-outlet-2", "room": "guest-room"}
    devices["guest-set"] = {"part": "end-device", "room": "guest-room", "vlan": "guests"}
    devices["store"]["part"] = "storage-4-bay"
    devices["cam-door"]["room"] = "barn-store"
    devices["names-1"]["room"] = "workroom"
    del devices["hive-scale"]
    devices["parlour-screen"] = devices.pop("parlour-set") | {"was": "parlour-set"}
    plan["links"] = [each for each in plan["links"] if each["run"][0] != "parlour-set"]
    plan["links"] += [
        {"run": ["parlour-screen", "out-parlour/1", "panel/2", "loft-switch"]},
        {"run": ["loft-switch", "core"]},
        {"run": ["guest-set", "out-guest/1", "panel", "loft-switch"]},
    ]


def the_committee_works(plan: Plan) -> None:
    """A second switch takes over a place of the first one's; a camera moves; a gauge goes; the files get another VLAN."""
    devices = plan["devices"]
    plan["cabinets"]["main"]["layout"]["13"] = "upper-switch"
    devices["upper-switch"] = {"part": "switch-16-poe", "vlan": "manage", "host": 4}
    devices["committee-paper"] = {
        "part": "printer",
        "room": "committee",
        "vlan": "office",
        "host": 31,
        "power": "mains",
    }
    devices["cam-bay-2"]["room"] = "sail-loft"
    devices["store"]["vlan"] = "office"
    del devices["river-gauge"]
    plan["links"] = [each for each in plan["links"] if each["run"][0] != "chair-laptop"]
    plan["links"] += [
        {"run": ["chair-laptop", "out-committee/1", "panel-club", "upper-switch"]},
        {"run": ["committee-paper", "out-committee/2", "panel-club", "upper-switch"]},
        {"run": ["upper-switch", "core"]},
    ]


def long_names_change(plan: Plan) -> None:
    """Of names as long as may be: one device gone, one new, one moved, one in other units."""
    names = {name.partition("-w")[0]: name for name in plan["devices"]}
    rooms = {name.partition("-w")[0]: name for each in _rooms(plan) for name in each}
    cabinet = next(iter(plan["cabinets"].values()))
    cabinet["layout"] = {"9": names["core"], "8": names["gateway"], "7": names["panel"]}
    plan["devices"][names["till"]]["room"] = rooms["store"]
    new = names["camera"].replace("camera", "second")
    plan["devices"][new] = dict(plan["devices"].pop(names["camera"]))
    plan["links"] = [
        {"run": [new if each == names["camera"] else each for each in link["run"]]} for link in plan["links"]
    ]
    plan["devices"][new]["part"] = "camera-outdoor"


def _rooms(plan: Plan) -> list[Any]:
    return [b["rooms"] for site in plan["sites"].values() for b in site["buildings"].values()]


def _edited(old: Plan, edit: Callable[[Plan], None]) -> tuple[Plan, Plan]:
    new = copy.deepcopy(old)
    edit(new)
    return old, new


PAIRS: Mapping[str, Callable[[], tuple[Plan, Plan]]] = {
    "a camera more": lambda: _edited(read(HONEY_FARM), a_camera_more),
    "the loft is let": lambda: _edited(read(HONEY_FARM), the_loft_is_let),
    "the committee works": lambda: _edited(read(ROWING_CLUB), the_committee_works),
    "the committee goes": lambda: _edited(read(ROWING_CLUB), the_committee_works)[::-1],
    "all another": lambda: (read(HONEY_FARM), read(ROWING_CLUB)),
    "long names": lambda: _edited(plan_of_long_names(), long_names_change),
}


@cache
def drawn(name: str) -> Pair:
    return pair_of(*PAIRS[name]())


def pair_of(old: Plan, new: Plan) -> Pair:
    before, after = _build(old), _build(new)
    changes = compare(before, after)
    return Pair(before, after, changes, change_drawings(before, after, changes))


def _build(plan: Plan) -> Build:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(json.dumps(plan, ensure_ascii=False), encoding="utf-8")
        compiled = compile_plan(path, "plan.yaml")
    assert compiled.build is not None
    return compiled.build
