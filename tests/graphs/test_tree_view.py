"""The predicted tree of builds: rings worked by hand with IEEE Std 802.1D (2004), 17.6, and what can't be told."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.graphs.tree_view import (
    ALTERNATE,
    DESIGNATED,
    PASSES,
    ROOT_PORT,
    UNTOLD,
    TreeEdge,
    TreeView,
    tree_view,
)
from firstfix.parts.facts import Figure, Unknown, exactly
from resolve.planning import build_of

PRIORITIES = {"device:core": 4096, "device:left": 8192, "device:right": 32768}


def plan(**devices: Any) -> dict[str, Any]:
    """Three switches in a ring, the link between left and right closing it."""
    switch = {"part": "switch-8", "room": "den"}
    return {
        "sites": {"home": {"rooms": {"den": {"mains": 8}}}},
        "parts": {"speaker": {"like": "switch-8", "spanning-tree": True, "vlan-aware": True}},
        "devices": {name: {**switch, "part": "speaker", **devices.get(name, {})} for name in ("core", "left", "right")},
        "links": [
            {"run": ["core/1", "left/1"]},
            {"run": ["core/2", "right/1"]},
            {"run": ["left/2", "right/2"], "spare-for": "core"},
        ],
    }  # fmt: skip


def view(
    build: Build, priorities: dict[str, int] = PRIORITIES, rates: dict[str, Figure] | None = None
) -> TreeView:
    known = {each: exactly(1000, "test") for each in build.channels} | (rates or {})
    return tree_view(build, priorities, known)


def closing(found: TreeView) -> TreeEdge:
    (only,) = (edge for edge in found.edges if {end.device for end in edge.ends} == {"device:left", "device:right"})  # fmt: skip
    return only


def roles(edge: TreeEdge) -> dict[str, str]:
    return {end.device.removeprefix("device:"): end.role for end in edge.ends}


def test_the_link_that_closes_the_ring_is_blocked_at_the_end_of_the_higher_identifier(tmp_path: Path) -> None:
    found = view(build_of(tmp_path, plan()))
    assert {bridge.root for bridge in found.bridges} == {"device:core"}
    assert {bridge.device: bridge.cost for bridge in found.bridges} == {
        "device:core": 0, "device:left": 20_000, "device:right": 20_000,
    }  # fmt: skip
    assert roles(closing(found)) == {"left": DESIGNATED, "right": ALTERNATE}
    assert closing(found).stands_by
    assert found.doubts == ()


def test_ends_of_links_in_use_are_root_and_designated_ports(tmp_path: Path) -> None:
    found = view(build_of(tmp_path, plan()))
    (uplink,) = (edge for edge in found.edges if edge.id == next(b.uplink for b in found.bridges if b.device == "device:left"))  # fmt: skip
    assert roles(uplink) == {"left": ROOT_PORT, "core": DESIGNATED}
    assert not uplink.stands_by


def test_between_bridges_of_one_priority_the_addresses_decide_where_they_are_known(tmp_path: Path) -> None:
    even = {**PRIORITIES, "device:left": 32768}
    unknown = view(build_of(tmp_path, plan()), even)
    assert roles(closing(unknown)) == {"left": UNTOLD, "right": UNTOLD}
    # Both are as far from the root: that one end waits is sure.
    assert closing(unknown).stands_by
    assert any("addresses" in doubt for doubt in unknown.doubts)
    read = plan(left={"mac": "00:00:5e:00:53:0b"}, right={"mac": "00:00:5e:00:53:0a"})
    assert roles(closing(view(build_of(tmp_path, read), even))) == {"left": ALTERNATE, "right": DESIGNATED}


def test_without_a_lowest_priority_nobody_can_say_which_is_the_root(tmp_path: Path) -> None:
    found = view(build_of(tmp_path, plan()), {})
    assert {bridge.root for bridge in found.bridges} == {""}
    assert {bridge.cost for bridge in found.bridges} == {None}
    assert all(edge.is_untold for edge in found.edges)


def test_a_slow_link_is_no_way_to_the_root(tmp_path: Path) -> None:
    build = build_of(tmp_path, plan())
    slow = next(each for each in build.channels if "core/2" in each)
    found = view(build, rates={slow: exactly(100, "test")})
    costs = {bridge.device: bridge.cost for bridge in found.bridges}
    # 200 000 straight, or 20 000 + 20 000 by way of left.
    assert costs["device:right"] == 40_000
    assert roles(closing(found)) == {"left": DESIGNATED, "right": ROOT_PORT}
    (other,) = (edge for edge in found.edges if edge.channels == (slow,))
    assert roles(other) == {"core": DESIGNATED, "right": ALTERNATE}


def test_a_rate_that_is_not_known_leaves_the_ring_untold(tmp_path: Path) -> None:
    build = build_of(tmp_path, plan())
    first = next(iter(build.channels))
    found = view(build, rates={first: Unknown("nobody said")})
    assert closing(found).is_untold
    assert {bridge.cost for bridge in found.bridges} == {None}
    assert any("the rate between" in doubt for doubt in found.doubts)


def test_a_bridge_on_the_ring_that_speaks_none_leaves_it_untold(tmp_path: Path) -> None:
    found = view(build_of(tmp_path, plan(right={"part": "switch-8"})))
    right = next(bridge for bridge in found.bridges if bridge.device == "device:right")
    assert not right.speaks
    assert all(UNTOLD in roles(edge).values() or PASSES in roles(edge).values() for edge in found.edges)
    assert any("right" in doubt for doubt in found.doubts)


@pytest.mark.parametrize("name", ["honey-farm", "rowing-club"])
def test_a_plan_without_a_ring_has_no_link_that_stands_by(name: str) -> None:
    from firstfix.pipeline import compile_plan

    path = Path(__file__).parents[2] / "plans" / f"{name}.yaml"
    build = compile_plan(path, path.name).build
    assert build is not None
    found = view(build)
    assert len(found.edges) == len(found.bridges) - 1
    assert not any(edge.stands_by for edge in found.edges)
