"""What was renamed with `was:` is compared with itself."""

import copy
from pathlib import Path
from typing import Any

import pytest

from firstfix.compare.changes import Changes, Renamed, compare
from resolve.planning import build_of

OLD: dict[str, Any] = {
    "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {"mains": 9}}}},
    "ways": {"shaft": {"between": ["den", "loft"], "length": "9 m", "kind": "riser"}},
    "cabinets": {
        "box": {
            "part": "wall-cabinet-6u",
            "room": "den",
            "layout": {"6": "panel", "3": {"keep-free": "more"}, "1": {"fit": "shelf-1u", "carries": ["core"]}},
        }
    },
    "vlans": {"all": {"id": 5, "subnet": "10.1.5.0/24", "reaches": ["lab"]}, "lab": {"id": 6, "subnet": "10.1.6.0/24"}},
    "wifi": {"air": {"ssid": "Air", "vlan": "all"}},
    "devices": {
        "core": {"part": "switch-8-poe", "vlan": "all", "host": 2},
        "panel": {"part": "keystone-panel-12-1u"},
        "ap": {"part": "access-point", "room": "loft", "vlan": "all", "host": 3, "plugs-into": ["panel", "core"]},
        "pc": {"part": "computer-desktop", "room": "loft", "vlan": "lab", "host": 4},
        "strip": {"part": "power-strip-1u-8", "room": "den"},
    },
    "links": [{"run": ["pc", "panel/3", "core/4"]}, {"run": ["pc", "panel/5", "core/5"], "spare-for": "core/4"}],
    "names": {"domain": "home.arpa", "servers": ["pc"]},
}  # fmt: skip


def _changed(tmp_path: Path, old: dict[str, Any], new: dict[str, Any]) -> Changes:
    return compare(build_of(tmp_path, old), build_of(tmp_path, new))


def _besides_names(changes: Changes) -> list[object]:
    return [*changes.added, *changes.removed, *changes.changed, *changes.to_buy, *changes.no_longer_needed]


def _everything_renamed(value: Any, names: dict[str, str]) -> Any:
    """The plan with every name exchanged, wherever it stands."""
    if isinstance(value, dict):
        return {names.get(key, key): _everything_renamed(each, names) for key, each in value.items()}
    if isinstance(value, list):
        return [_everything_renamed(each, names) for each in value]
    name, slash, rest = str(value).partition("/")
    return names.get(name, name) + slash + rest if isinstance(value, str) else value


@pytest.mark.parametrize(
    ("section", "old", "new"),
    [
        ("devices", "core", "zz-core"),
        ("devices", "core", "a-core"),
        ("devices", "panel", "wall"),
        ("devices", "pc", "desk"),
        ("devices", "strip", "sockets"),
        ("ways", "shaft", "void"),
        ("cabinets", "box", "rack"),
        ("vlans", "lab", "test"),
        ("wifi", "air", "sky"),
    ],
)
def test_a_rename_alone_changes_nothing_else(tmp_path: Path, section: str, old: str, new: str) -> None:
    plan = _everything_renamed(OLD, {old: new})
    plan[section][new]["was"] = old
    changes = _changed(tmp_path, OLD, plan)
    kind = section.removesuffix("s") if section != "wifi" else "wifi"
    assert changes.renamed == (Renamed(f"{kind}:{old}", f"{kind}:{new}"),)
    assert _besides_names(changes) == []
    assert not changes.is_empty


@pytest.mark.parametrize(("old", "new"), [("den", "study"), ("home", "house")])
def test_a_renamed_room_or_site_takes_along_what_is_in_it(tmp_path: Path, old: str, new: str) -> None:
    plan = _everything_renamed(OLD, {old: new})
    holder = plan["sites"]["home"]["rooms"] if old == "den" else plan["sites"]
    holder[new]["was"] = old
    changes = _changed(tmp_path, OLD, plan)
    assert changes.renamed
    assert _besides_names(changes) == []


def test_without_was_it_looks_renamed_and_that_is_said_as_a_guess(tmp_path: Path) -> None:
    changes = _changed(tmp_path, OLD, _everything_renamed(OLD, {"pc": "desk"}))
    assert changes.renamed == (Renamed("device:pc", "device:desk", is_guess=True),)
    assert _besides_names(changes) == []


def test_another_part_is_another_thing(tmp_path: Path) -> None:
    plan = _everything_renamed(OLD, {"pc": "desk"})
    plan["devices"]["desk"]["part"] = "printer"
    changes = _changed(tmp_path, OLD, plan)
    assert changes.renamed == ()
    assert "device:desk" in changes.added
    assert "device:pc" in changes.removed


def test_the_same_part_at_other_runs_is_another_thing(tmp_path: Path) -> None:
    """A second access point in the den, and the one in the loft gone: nothing but its part is the same."""
    plan = copy.deepcopy(OLD)
    del plan["devices"]["ap"]
    plan["devices"]["ap-den"] = {"part": "access-point", "room": "den", "vlan": "lab", "plugs-into": ["core"]}
    changes = _changed(tmp_path, OLD, plan)
    assert changes.renamed == ()
    assert "device:ap-den" in changes.added


def test_what_two_could_have_been_is_not_guessed(tmp_path: Path) -> None:
    """Two alike are gone and one is new: which of them it was, nobody can tell."""
    old, new = copy.deepcopy(OLD), copy.deepcopy(OLD)
    for name in ("lamp-1", "lamp-2"):
        old["devices"][name] = {"part": "end-device", "room": "den"}
    new["devices"]["lamp-9"] = {"part": "end-device", "room": "den"}
    changes = _changed(tmp_path, old, new)
    assert not any("lamp" in each.old for each in changes.renamed)
    assert {"device:lamp-1", "device:lamp-2"} <= set(changes.removed)


def test_what_else_changes_is_said_of_the_new_name(tmp_path: Path) -> None:
    plan = _everything_renamed(OLD, {"pc": "desk"})
    plan["devices"]["desk"] |= {"was": "pc", "owned": True}
    changes = _changed(tmp_path, OLD, plan)
    assert ("device:desk", "owned", "false", "true") in [each[:4] for each in changes.changed]


def test_two_swap_names(tmp_path: Path) -> None:
    plan = _everything_renamed(OLD, {"pc": "ap", "ap": "pc"})
    plan["devices"]["pc"]["was"], plan["devices"]["ap"]["was"] = "ap", "pc"
    changes = _changed(tmp_path, OLD, plan)
    assert [each.new for each in changes.renamed] == ["device:pc", "device:ap"]
    assert _besides_names(changes) == []


def test_a_was_that_stayed_in_the_plan_says_nothing(tmp_path: Path) -> None:
    plan = _everything_renamed(OLD, {"pc": "desk"})
    plan["devices"]["desk"]["was"] = "pc"
    assert _changed(tmp_path, plan, plan).is_empty


def test_an_old_name_that_the_old_plan_does_not_know_is_said(tmp_path: Path) -> None:
    plan = _everything_renamed(OLD, {"pc": "desk"})
    plan["devices"]["desk"]["was"] = "pcc"
    changes = _changed(tmp_path, OLD, plan)
    assert changes.strangers == (Renamed("device:pcc", "device:desk"),)
    assert changes.renamed == (Renamed("device:pc", "device:desk", is_guess=True),)
