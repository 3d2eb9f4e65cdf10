"""What stays up without the mains, in small plans whose answers are plain to see."""

from pathlib import Path
from typing import Any

import networkx

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.presence import EVERYTHING
from firstfix.graphs.backup import BY_MAINS, BY_POE, Held, backup_domains, stays_up
from resolve.planning import build_of

PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"study": {"mains": 4}}}},
    "parts": {"two-lead-server": {"like": "computer-1u", "mains": {"inlet": "coupler", "inlets": 2}}},
    "devices": {
        "ups": {"part": "ups-desktop"},
        "strip": {"part": "power-strip-desk-4", "power": "ups"},
        "wall-strip": {"part": "power-strip-desk-4"},
        "core": {"part": "switch-8-poe", "power": "strip"},
        "router": {"part": "gateway-desktop", "power": "wall-strip"},
        "server": {"part": "two-lead-server", "power": ["ups", "wall-strip"], "plugs-into": "core"},
        "phone": {"part": "access-point", "plugs-into": "core"},
        "lamp": {"part": "computer-desktop", "power": "wall", "plugs-into": "core"},
    },
    "links": [{"run": ["router", "core"]}],
}


def domain(build: Build) -> dict[str, Held]:
    (only,) = backup_domains(build)
    return {ids.path(held.device): held for held in only.holds}


def test_a_chain_and_the_poe_behind_it_stay_up(tmp_path: Path) -> None:
    held = domain(build_of(tmp_path, PLAN))
    assert sorted(held) == ["core", "phone", "server", "strip"]
    assert held["core"].source == "device:strip"
    assert held["phone"] == Held("device:phone", "device:core", BY_POE)
    assert held["server"].how == BY_MAINS


def test_without_the_strip_only_what_hangs_on_the_ups_itself_stays_up(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    assert stays_up(build, EVERYTHING.without(["device:strip"])) == {"device:ups", "device:server"}
    assert stays_up(build, EVERYTHING.without(["device:ups"])) == frozenset()


def test_a_pulled_cord_takes_poe_away(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    cord = next(piece.id for piece in build.pieces.values() if "jack:phone/1" in piece.ends)
    assert "device:phone" not in stays_up(build, EVERYTHING.without([cord]))


def test_two_backups_each_hold_what_has_a_lead_in_both(tmp_path: Path) -> None:
    devices = {
        **PLAN["devices"],
        "ups-2": {"part": "ups-desktop"},
        "server": {**PLAN["devices"]["server"], "power": ["ups", "ups-2"]},
    }
    domains = backup_domains(build_of(tmp_path, {**PLAN, "devices": devices}))
    assert [each.ups for each in domains] == ["device:ups", "device:ups-2"]
    assert all(any(held.device == "device:server" for held in each.holds) for each in domains)


def test_it_agrees_with_reachability_of_a_general_graph_library(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    graph: Any = networkx.DiGraph((feed.source, feed.device) for feed in build.mains_feeds)
    graph.add_edges_from(
        (build.jacks[run.source].device, build.jacks[run.sink].device) for run in build.power_runs.values()
    )
    assert stays_up(build) == {"device:ups"} | networkx.descendants(graph, "device:ups")
