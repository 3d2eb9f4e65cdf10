"""Which VLANs a link between switches carries: brute force over failures of single links, on small random networks."""

import random
from pathlib import Path
from typing import Any

import networkx
import pytest

from firstfix.build.model import Build
from resolve.planning import build_of


def _network(chance: random.Random) -> tuple[dict[str, Any], Any, dict[str, str]]:
    count = chance.randint(3, 6)
    graph: Any = networkx.random_labeled_tree(count, seed=chance.randint(0, 999))
    for _ in range(chance.randint(0, 3)):
        graph.add_edge(*chance.sample(range(count), 2))
    vlan_of = {f"switch-{n}": chance.choice(["red", "blue", "green"]) for n in range(count)}
    plan = {
        "sites": {"home": {"rooms": {"study": {}}}},
        "vlans": {name: {"id": 10 + rank} for rank, name in enumerate(("red", "blue", "green"))},
        "devices": {name: {"part": "switch-16-managed", "vlan": vlan} for name, vlan in vlan_of.items()},
        "links": [{"run": [f"switch-{a}", f"switch-{b}"]} for a, b in graph.edges],
    }
    return plan, graph, vlan_of


def _carrying(build: Build, vlan: str) -> Any:
    graph: Any = networkx.Graph()
    for channel in build.channels.values():
        setups = [build.port_setups[jack] for jack in channel.ends]
        if all(f"vlan:{vlan}" in (each.untagged, *each.tagged) for each in setups):
            graph.add_edge(*(build.jacks[jack].device for jack in channel.ends))
    return graph


@pytest.mark.parametrize("seed", range(20))
def test_members_stay_together_and_nothing_is_carried_in_vain(seed: int, tmp_path: Path) -> None:
    plan, graph, vlan_of = _network(random.Random(seed))  # noqa: S311 - repeatable
    build = build_of(tmp_path, plan)
    for vlan in ("red", "blue", "green"):
        members = [f"device:{name}" for name, its in vlan_of.items() if its == vlan]
        carrying = _carrying(build, vlan)
        carrying.add_nodes_from(members)
        assert all(networkx.has_path(carrying, members[0], each) for each in members)
        for edge in list(graph.edges):
            whole = graph.copy()
            whole.remove_edge(*edge)
            ends = tuple(f"device:switch-{n}" for n in edge)
            if networkx.is_connected(
                whole
            ):  # a link of a ring: after it fails, all members must still be together
                left = carrying.copy()
                if left.has_edge(*ends):
                    left.remove_edge(*ends)
                assert all(networkx.has_path(left, members[0], each) for each in members)
            else:  # a link of a tree: it carries what both of its sides need, and nothing else
                side = networkx.node_connected_component(whole, edge[0])
                sides = {f"device:switch-{n}" for n in side}
                needed = any(each in sides for each in members) and any(each not in sides for each in members)
                assert carrying.has_edge(*ends) == needed
