"""Runs between the same two ends keep their numbers, whichever of them comes or goes."""

import copy
from pathlib import Path
from typing import Any

import pytest

from allocations.keeping import compiled, kept_after, lines, said
from firstfix.pipeline import Compiled
from resolve.planning import one_room

PARTS = {"core": "switch-24-managed", "far": "switch-24-managed", "panel": "keystone-panel-24-1u"}
PLAIN: dict[str, Any] = {"run": ["core", "far"]}
THROUGH: dict[str, Any] = {"run": ["core", "panel", "far"]}
SPARE: dict[str, Any] = {"run": ["core", "far"], "spare-for": "core/1"}
PINNED: dict[str, Any] = {"run": ["core/1", "far/1"]}


def plan(*links: dict[str, Any]) -> dict[str, Any]:
    """The panel stands with the core; the far switch is in another room."""
    made = one_room(PARTS, [copy.deepcopy(each) for each in links])
    made["sites"]["home"]["rooms"]["attic"] = {}
    made["ways"] = {"riser": {"between": ["study", "attic"], "length": "9 m", "kind": "riser"}}
    for name, device in made["devices"].items():
        device["room"] = "attic" if name == "far" else "study"
    return made


def numbers(result: Compiled) -> dict[str, str]:
    """Link id by how it is told apart: what it goes through, and what it backs up."""
    assert result.build is not None
    return {
        f"{'through' if len(each.hops) > 2 else 'straight'} {each.spare_for}".strip(): each.id
        for each in result.build.links.values()
        if "/" not in each.id
    }


@pytest.mark.parametrize("gone", [0, 1, 2])
def test_taking_one_away_renames_no_other(gone: int, tmp_path: Path) -> None:
    links = [PLAIN, THROUGH, SPARE]
    first = compiled(tmp_path, plan(PINNED, *links))
    assert len(set(numbers(first).values())) == 3
    left = [each for number, each in enumerate(links) if number != gone]
    second = compiled(tmp_path, plan(PINNED, *left), kept_after(first))
    assert numbers(second).items() <= numbers(first).items()
    assert len(numbers(second)) == 2
    # And for good: also when the next build has dropped the one that is gone.
    third = compiled(tmp_path, plan(PINNED, *left), kept_after(second))
    assert numbers(third) == numbers(second)
    assert said(third) == []


@pytest.mark.parametrize("new", [0, 1, 2])
def test_adding_one_renames_no_other_and_moves_no_jack(new: int, tmp_path: Path) -> None:
    links = [PLAIN, THROUGH, SPARE]
    first = compiled(tmp_path, plan(PINNED, *[each for number, each in enumerate(links) if number != new]))
    text = kept_after(first)
    second = compiled(tmp_path, plan(PINNED, *links), text)
    assert numbers(first).items() <= numbers(second).items()
    assert lines(text) <= lines(kept_after(second))


def test_pinning_one_end_keeps_the_other(tmp_path: Path) -> None:
    """The run is another by name then (`core/7--far`), and is known by its places."""
    text = "- {run: core--far, jacks: [core/7, far/9]}\n"
    result = compiled(tmp_path, plan({"run": ["core/7", "far"]}), text)
    assert "jacks: [core/7, far/9]" in kept_after(result)
    assert said(result) == []


def test_unpinning_keeps_the_jack_once_it_was_built(tmp_path: Path) -> None:
    text = kept_after(compiled(tmp_path, plan({"run": ["core/7", "far"]})))
    assert "core/7" in text
    assert "jacks: [core/7," in kept_after(compiled(tmp_path, plan(PLAIN), text))


def test_a_panel_put_in_the_way_keeps_both_ends(tmp_path: Path) -> None:
    text = "- {run: core--far, jacks: [core/7, far/9]}\n"
    result = compiled(tmp_path, plan(THROUGH), text)
    assert "jacks: [core/7, panel/1, far/9]" in kept_after(result)
    assert said(result) == []


def test_a_renamed_device_keeps_all_that_it_had(tmp_path: Path) -> None:
    """Also its place in the run's name, and in what it feeds."""
    parts = {"core": "switch-24-managed", "store": "storage-2-bay", "strip": "power-strip-1u-8"}
    old = one_room(
        parts, [{"run": ["store", "core"]}], vlans={"house": {"id": 10, "subnet": "10.61.10.0/24"}}
    )
    for device in ("core", "store"):
        old["devices"][device]["vlan"] = "house"
    old["sites"]["home"]["rooms"]["study"] = {"mains": 4}
    kept = (
        "- {run: core--store, jacks: [core/17, store/1]}\n- {device: store, vlan: house, host: 77}\n"
        "- {device: store, fed-by: strip, outlet: 6}\n- {device: core, vlan: house, host: 78}\n"
    )
    assert lines(kept) <= lines(kept_after(compiled(tmp_path, old, kept)))
    new = copy.deepcopy(old)
    new["devices"]["archive"] = {**new["devices"].pop("store"), "was": "store"}
    new["devices"]["plugs"] = {**new["devices"].pop("strip"), "was": "strip"}
    new["links"] = [{"run": ["archive", "core"]}]
    wanted = {
        "- {run: archive--core, jacks: [archive/1, core/17]}",
        "- {device: archive, vlan: house, host: 77}",
        "- {device: archive, fed-by: plugs, outlet: 6}",
        "- {device: core, vlan: house, host: 78}",
    }
    first = compiled(tmp_path, new, kept)
    assert wanted <= lines(kept_after(first))
    assert said(first) == []
    # `was:` may stay in the plan for years.
    assert kept_after(compiled(tmp_path, new, kept_after(first))) == kept_after(first)
