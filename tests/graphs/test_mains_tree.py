"""The mains as a tree: what hangs where, and that its sums are those of the loads that the rules go by."""

import math
from pathlib import Path
from typing import Any

import pytest

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.graphs.consumption import consumption
from firstfix.graphs.mains_load import mains_loads
from firstfix.graphs.mains_tree import CIRCUIT, DEVICE, ROOM, STRIP, SUPPLY, UPS, MainsNode, mains_tree, unfed
from firstfix.physics.mains import continuous_power
from firstfix.pipeline import compile_plan
from resolve.planning import build_of

PLANS = Path(__file__).parents[2] / "plans"
PLAN: dict[str, Any] = {
    "mains": {"volts": "230 V"},
    "circuits": {"ground": {"rating": "16 A"}},
    "sites": {"home": {"rooms": {"den": {"mains": 4, "circuit": "ground"}, "loft": {"mains": 2}}}},
    "parts": {"two-leads": {"like": "computer-1u", "mains": {"inlet": "coupler", "inlets": 2}, "draw": {"typical": "40 W", "most": "90 W"}}},
    "devices": {
        "ups": {"part": "ups-desktop", "room": "den"},
        "strip": {"part": "power-strip-desk-4", "room": "den", "power": "ups"},
        "core": {"part": "switch-8-poe", "room": "den", "power": "strip"},
        "server": {"part": "two-leads", "room": "den", "power": ["ups", "wall"], "plugs-into": "core"},
        "lamp": {"part": "computer-desktop", "room": "loft"},
    },
    "ways": {"riser": {"between": ["den", "loft"], "length": "5 m", "kind": "riser"}},
    "links": [{"run": ["lamp", "core"]}],
}  # fmt: skip


def named(build: Build, node: MainsNode) -> tuple[int, str, str]:
    return node.depth, node.kind, ids.path(node.id)


def test_a_node_stands_before_what_hangs_on_it(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    found = [named(build, node) for node in mains_tree(build)]
    assert found[:3] == [(0, SUPPLY, "home"), (1, CIRCUIT, "ground"), (2, ROOM, "home/den")]
    assert (3, UPS, "ups") in found
    assert found.index((3, UPS, "ups")) < found.index((4, STRIP, "strip")) < found.index((5, DEVICE, "core"))
    assert found[-3:] == [(1, CIRCUIT, ""), (2, ROOM, "home/loft"), (3, DEVICE, "lamp")]


def test_what_a_ups_holds_says_so_and_a_second_lead_does_not(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    held = {ids.path(node.id): node.ups for node in mains_tree(build) if node.ups}
    assert held == {"strip": "device:ups", "core": "device:ups", "server": "device:ups"}
    leads = [(node.lead, node.leads, node.ups) for node in mains_tree(build) if node.id == "device:server"]
    assert sorted(leads) == [(1, 2, "device:ups"), (2, 2, "")]


def test_each_lead_may_carry_all_of_it_and_usually_carries_its_share(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    taken = consumption(build, build.devices["device:server"]).taken
    for node in mains_tree(build):
        if node.id == "device:server":
            assert node.load == (0.0, taken.usual / 2, taken.most)


def test_a_circuit_is_bound_by_its_rating_and_for_hours_by_less(tmp_path: Path) -> None:
    (circuit,) = (node for node in mains_tree(build_of(tmp_path, PLAN)) if node.id == "circuit:ground")
    assert circuit.limit == (3680.0, continuous_power(230, 16), 3680.0)
    assert circuit.left == pytest.approx(3680.0 - circuit.load.most)


@pytest.mark.parametrize("name", ["honey-farm", "rowing-club", "school"])
def test_every_feed_is_one_node_and_sums_are_those_of_the_loads(name: str) -> None:
    path = PLANS / f"{name}.yaml"
    build = compile_plan(path, path.name).build
    assert build is not None
    nodes = mains_tree(build)
    plugged = [(node.id, node.outlet, node.lead) for node in nodes if node.depth > 2]
    assert sorted(plugged) == sorted((feed.device, feed.outlet, feed.inlet) for feed in build.mains_feeds)
    loads = mains_loads(build)
    for node in nodes:
        if node.kind in (STRIP, UPS, ROOM):
            assert node.load == loads.behind(node.id).total
    for site in (node for node in nodes if node.kind == SUPPLY):
        rooms = [node.id for node in nodes if node.kind == ROOM and build.rooms[node.id].site == site.id]
        assert site.load == loads.behind(*rooms).total


def test_a_draw_that_nobody_knows_has_no_most(tmp_path: Path) -> None:
    plan = {**PLAN, "devices": {**PLAN["devices"], "lamp": {"part": "end-device", "room": "loft"}}}
    (lamp,) = (node for node in mains_tree(build_of(tmp_path, plan)) if node.id == "device:lamp")
    assert math.isinf(lamp.load.most)
    assert lamp.missing


def test_what_is_fed_by_nothing_is_named(tmp_path: Path) -> None:
    plan = {
        **PLAN,
        "sites": {"home": {"rooms": {"den": {"mains": 4, "circuit": "ground"}, "loft": {"mains": 0}}}},
    }
    build = build_of(tmp_path, plan)
    assert [device.name for device in unfed(build)] == ["lamp"]
    assert unfed(build_of(tmp_path, PLAN)) == ()
