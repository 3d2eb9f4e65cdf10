"""Each sort of change, from a plan in which just that was changed; and what becomes of a thing on either side, for drawings."""

import copy
from pathlib import Path
from typing import Any

import pytest

from compare.comparing import compared
from firstfix.compare.changes import Changes, State
from resolve.planning import compiled

PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {"mains": 9}, "attic": {"mains": 2}}}},
    "ways": {
        "shaft": {"between": ["den", "loft"], "length": "9 m", "kind": "riser"},
        "duct": {"between": ["den", "loft"], "length": "15 m", "kind": "trunking"},
        "hatch": {"between": ["loft", "attic"], "length": "3 m", "kind": "riser"},
    },
    "cabinets": {
        "box": {
            "part": "wall-cabinet-6u",
            "room": "den",
            "layout": {"6": "panel", "5": "core", "3": {"keep-free": "more"}, "1": {"fit": "shelf-1u"}},
        }
    },
    "vlans": {"all": {"id": 5, "subnet": "10.1.5.0/24"}, "lab": {"id": 6, "subnet": "10.1.6.0/24"}},
    "devices": {
        "core": {"part": "switch-16-poe", "vlan": "all", "host": 2},
        "panel": {"part": "keystone-panel-12-1u"},
        "ap": {"part": "access-point", "room": "loft", "vlan": "all", "host": 3},
        "injector": {"part": "injector-class-6", "room": "den"},
        "pc": {"part": "computer-desktop", "room": "loft", "vlan": "lab", "host": 4},
    },
    "links": [{"run": ["ap", "panel/1", "core/1"]}, {"run": ["pc", "panel/3", "core/4"]}],
}  # fmt: skip


def _edited(*at: str, to: Any) -> dict[str, Any]:
    plan = copy.deepcopy(PLAN)
    node: Any = plan
    for key in at[:-1]:
        node = node[int(key)] if isinstance(node, list) else node[key]
    if to is None:
        del node[at[-1]]
    else:
        node[at[-1]] = to
    return plan


def _changes(tmp_path: Path, plan: dict[str, Any]) -> Changes:
    return compared(compiled(tmp_path, PLAN), compiled(tmp_path, plan)).changes


_SLOTS = PLAN["cabinets"]["box"]["layout"]


@pytest.mark.parametrize(
    ("plan", "category", "id_", "attribute", "old", "new"),
    [
        (_edited("devices", "pc", "room", to="den"), "moved", "device:pc", "room", "home/loft", "home/den"),
        (_edited("cabinets", "box", "room", to="loft"), "moved", "cabinet:box", "room", "home/den", "home/loft"),
        (_edited("cabinets", "box", "layout", to={**_SLOTS, "5": {"keep-free": "air"}, "4": "core"}),
         "moved", "device:core", "units", "box 5", "box 4"),
        (_edited("cabinets", "box", "layout", to={"6": "panel", "5": "core", "3": {"keep-free": "more"}, "2": {"fit": "shelf-1u"}}),
         "moved", "fitting:box/2", "units", "box 1", "box 2"),
        (_edited("ways", "shaft", "length", to="30 m"), "re-run", "piece:core/4--pc/1", "ways", "shaft", "duct"),
        (_edited("links", to=[PLAN["links"][0], {"run": ["pc", "panel/3", "core/9"]}]),
         "re-patched", "piece:core/9--pc/2", "joins", "core/4 – panel/3", "core/9 – panel/3"),
        (_edited("links", to=[PLAN["links"][0], {"run": ["pc", "panel/7", "core/4"]}]),
         "re-patched", "piece:core/4--pc/1", "joins", "panel/3@rear – pc/1", "panel/7@rear – pc/1"),
        (_edited("devices", "pc", "host", to=44), "re-addressed", "device:pc", "address in lab", "10.1.6.4/24", "10.1.6.44/24"),
        (_edited("vlans", "lab", "subnet", to="10.9.6.0/24"), "re-addressed", "vlan:lab", "subnet", "10.1.6.0/24", "10.9.6.0/24"),
        (_edited("links", to=[{"run": ["ap", "panel/1", "injector", "core/1"]}, PLAN["links"][1]]),
         "re-powered", "device:ap", "PoE from", "core/1", "injector/out"),
        (_edited("vlans", "lab", "id", to=66), "re-set", "vlan:lab", "number", "6", "66"),
        (_edited("devices", "pc", "vlan", to="all"), "re-set", "jack:core/4", "untagged", "lab", "all"),
        (_edited("devices", "pc", "owned", to=True), "changed otherwise", "device:pc", "owned", "false", "true"),
        (_edited("ways", "hatch", "length", to="4 m"), "changed otherwise", "way:hatch", "length", "3 m", "4 m"),
        (_edited("devices", "pc", "part", to="printer"), "changed otherwise", "device:pc", "part", "computer-desktop", "printer"),
    ],
)  # fmt: skip
def test_each_sort(
    plan: dict[str, Any], category: str, id_: str, attribute: str, old: str, new: str, tmp_path: Path
) -> None:
    changes = _changes(tmp_path, plan)
    assert (id_, attribute, old, new, category) in [tuple(each) for each in changes.changed]


def test_a_run_to_another_switch_is_patched_and_not_pulled(tmp_path: Path) -> None:
    """The installed run from outlet to panel stays where it lies; only the cord at the panel goes elsewhere."""
    plan = copy.deepcopy(PLAN)
    plan["devices"]["core-2"] = {"part": "switch-8", "room": "den", "vlan": "all"}
    plan["links"] = [
        PLAN["links"][0],
        {"run": ["pc", "panel/3", "core-2/1"]},
        {"run": ["core-2/8", "core/9"]},
    ]
    changes = _changes(tmp_path, plan)
    assert ("cord", "core/4 – panel/3", "core-2/1 – panel/3") in [
        ("cord", each.old, each.new) for each in changes.of("re-patched") if each.attribute == "joins"
    ]
    assert changes.of("re-run") == ()
    assert not any("piece:core/4--pc" in each for each in changes.removed)


def test_states_on_both_sides(tmp_path: Path) -> None:
    plan = _edited("devices", "pc", "room", to="attic")
    plan["devices"]["hub"] = plan["devices"].pop("core") | {"was": "core"}
    plan["cabinets"]["box"]["layout"]["5"] = "hub"
    plan["links"] = [{"run": ["pc", "panel/3", "hub/4"]}]
    del plan["devices"]["ap"]
    plan["devices"]["lamp"] = {"part": "end-device", "room": "den"}
    changes = _changes(tmp_path, plan)
    assert changes.in_old("device:ap") == State("device:ap", "", "gone", ("removed",))
    assert changes.in_new("device:lamp") == State("", "device:lamp", "new", ("added",))
    assert changes.in_old("device:pc").state == changes.in_new("device:pc").state == "moved"
    assert changes.in_new("device:hub") == changes.in_old("device:core")
    assert changes.in_new("device:hub").categories[0] == "re-labelled"
    assert changes.in_new("jack:hub/7") == State("jack:core/7", "jack:hub/7", "same", ())
    assert changes.in_old("way:shaft") == State("way:shaft", "way:shaft", "same", ())
    assert {each.state for each in changes.states} == {"new", "gone", "moved", "changed"}


def test_every_change_stands_in_a_state(tmp_path: Path) -> None:
    changes = _changes(tmp_path, _edited("devices", "pc", "room", to="attic"))
    assert {each.id for each in changes.changed} <= {each.new for each in changes.states}
    for each in changes.changed:
        assert each.category in changes.in_new(each.id).categories
