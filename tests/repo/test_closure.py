"""The closure law: everything in the network is an item, every item is needed by something, nothing is counted by hand."""

import copy
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.hardware import IN_A_BOX, IN_PLACE, IN_STOCK, TO_BUY
from firstfix.build.model import Build
from firstfix.parts.part import CABLE_KINDS
from firstfix.pipeline import compile_plan
from repo.editing import GOOD_PLANS, HONEY_FARM, LANGUAGE_PLANS, PLANS, compiled, read


def _build(path: Path) -> Build:
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


@pytest.mark.parametrize(
    "path", [*PLANS, *LANGUAGE_PLANS, *GOOD_PLANS], ids=lambda path: f"{path.parent.name}/{path.stem}"
)
def test_closure(path: Path) -> None:
    build = _build(path)
    _items_are_whole(build)
    _joints_have_both_halves(build)
    _things_are_items(build)
    _pieces_are_items(build)
    _openings_are_filled(build)


def _items_are_whole(build: Build) -> None:
    assert len({item.id for item in build.items}) == len(build.items)
    known = {*build.devices, *build.cabinets, *build.fittings, *build.pieces, *build.ways}
    for item in build.items:
        assert item.standing in (TO_BUY, IN_PLACE, IN_STOCK, IN_A_BOX)
        assert item.count >= 1
        assert item.for_id in known, f"nothing needs {item.id}"
        assert item.part in build.library


def _joints_have_both_halves(build: Build) -> None:
    ends = Counter(joint.piece for joint in build.joints)
    assert set(ends) == set(build.pieces)
    assert set(ends.values()) <= {2}
    taken = Counter(joint.jack for joint in build.joints)
    assert set(taken) <= set(build.jacks)
    assert set(taken.values()) <= {1}, "a jack takes one plug"
    for piece in build.pieces.values():
        assert sorted(joint.jack for joint in build.joints if joint.piece == piece.id) == sorted(piece.ends)


def _things_are_items(build: Build) -> None:
    for things in (build.devices, build.cabinets, build.fittings):
        for each in things.values():
            own = [item for item in build.items if item.for_id == each.id and item.part == each.part.name]
            assert [item.count for item in own] == [1], each.id


def _pieces_are_items(build: Build) -> None:
    for piece in build.pieces.values():
        mine = [item for item in build.items if item.for_id == piece.id]
        cables = [item for item in mine if build.library[item.part].kind in CABLE_KINDS]
        assert [(item.part, item.count) for item in cables] == [(piece.part, 1)]


def _openings_are_filled(build: Build) -> None:
    wired = {joint.jack for joint in build.joints}
    openings = {
        (build.jacks[jack].device, build.jacks[jack].name)
        for jack in wired
        if build.jacks[jack].needs_module and build.jacks[jack].face == "rear"
    }
    modules = [
        (item.for_id, item.id.rpartition("/")[2].removesuffix("+jack"))
        for item in build.items
        # What comes in a box beyond what is used fills nothing.
        if build.library[item.part].kind == "jack-module" and not item.id.endswith("-in-box")
    ]
    assert sorted(modules) == sorted(openings)


def _without(plan: Any, name: str) -> Any:
    """The plan without one device, and without whatever names it: links, hops after its own, layout, names' servers."""
    plan = copy.deepcopy(plan)
    del plan["devices"][name]
    plan["links"] = [link for link in plan["links"] if name not in _named(link["run"])]
    for device in list(plan["devices"].values()):
        onward = device.get("plugs-into", [])
        if name in _named(onward if isinstance(onward, list) else [onward]):
            del device["plugs-into"]
    for cabinet in plan["cabinets"].values():
        cabinet["layout"] = {units: slot for units, slot in cabinet["layout"].items() if slot != name}
        for slot in cabinet["layout"].values():
            if isinstance(slot, dict) and name in slot.get("carries", []):
                slot["carries"].remove(name)
    plan["names"]["servers"] = [each for each in plan["names"]["servers"] if each != name]
    return plan


def _named(run: list[str]) -> list[str]:
    return [hop.partition("/")[0] for hop in run]


@pytest.mark.parametrize("name", sorted(read(HONEY_FARM)["devices"]))
def test_deleting_a_device_takes_its_things_and_no_others(name: str, tmp_path: Path) -> None:
    plan = read(HONEY_FARM)
    before = compiled(plan, tmp_path).build
    after = compiled(_without(plan, name), tmp_path).build
    assert before is not None
    assert after is not None
    taken = {way for piece in after.pieces.values() for way in piece.route}
    gone = {item.id for item in before.items} - {item.id for item in after.items}
    left = {item.id: item for item in before.items if item.id not in gone}
    assert f"item:{name}" in gone
    cut = {piece.id for piece in before.pieces.values()} - set(after.pieces)
    links = {before.pieces[piece].link for piece in cut}
    assert all(f"device:{name}" in before.links[link].hops for link in links)
    for item in before.items:
        if item.id in gone:
            may_go = (
                item.for_id == f"device:{name}"
                or item.for_id in cut
                or _was_for_power(item.part)
                or (before.library[item.part].kind == "jack-module")
                # The label of a jack goes with the run to it, what a way needs with the last cable in it.
                or item.part == "label-jack"
                or (item.for_id in before.ways and item.for_id not in taken)
                # Ties that hold cords together go with the last cord of the cabinet.
                or (item.for_id in before.cabinets and before.library[item.part].kind == "tie")
            )
            assert may_go, f"{item.id} went although nothing of '{name}' needed it"
        else:
            assert item.for_id != f"device:{name}"
            assert item.for_id not in cut
            assert item.for_id not in before.ways or item.for_id in taken
    new = {item.id for item in after.items} - set(left)
    # Whoever was fed by PoE from the deleted device may now need a mains cord, and an opening without a run a cover; nothing else
    # is new.
    assert {item.part for item in after.items if item.id in new} <= {"power-cord-c13", "opening-cover"}


def _was_for_power(part: str) -> bool:
    return part.startswith("power-cord")
