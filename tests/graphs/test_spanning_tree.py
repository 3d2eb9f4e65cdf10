"""The predicted tree: a worked example with ties of every kind, and its root costs against networkx on random networks.

The example was worked by hand with the tie-breaks of IEEE Std 802.1D (2004), 17.6, and costs of Table 17-3.
"""

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.graphs.spanning_tree import Tree, TreeLink, predicted_tree
from firstfix.standards.layer2 import long_path_cost

BRIDGES = {"a": (32768, 0xA), "b": (4096, 0xB), "c": (32768, 0xC), "d": (32768, 0xD), "e": (32768, 0xE)}


def link(name: str, a: str, b: str, rate_mbps: int) -> TreeLink:
    return TreeLink(name, a[0], (128, int(a[1:])), b[0], (128, int(b[1:])), long_path_cost(rate_mbps))


LINKS = (
    link("L1", "b1", "a1", 1000),
    link("L2", "b2", "c1", 1000),
    link("L3", "a2", "c2", 10_000),
    link("L4", "a3", "d1", 1000),
    link("L5", "c3", "d2", 1000),
    link("L6", "d3", "e1", 1000),
    link("L7", "d4", "e2", 1000),
    link("L8", "c4", "e3", 100),
)


def without(name: str) -> Tree:
    return predicted_tree(BRIDGES, [each for each in LINKS if each.id != name])


def test_worked_example() -> None:
    tree = without("")
    assert set(tree.root_of.values()) == {"b"}
    assert tree.cost == {"a": 20_000, "b": 0, "c": 20_000, "d": 40_000, "e": 60_000}
    assert tree.root_port == {"a": "L1", "c": "L2", "d": "L4", "e": "L6"}
    assert tree.blocked == {("c", "L3"), ("d", "L5"), ("e", "L7"), ("e", "L8")}
    assert tree.active == {"L1", "L2", "L4", "L6"}


def test_worked_example_after_a_link_has_failed() -> None:
    tree = without("L4")
    assert (tree.root_port["d"], tree.cost["d"]) == ("L5", 40_000)
    assert {name for _, name in tree.blocked} == {"L3", "L7", "L8"}
    tree = without("L1")
    assert (tree.root_port["a"], tree.cost["a"], tree.root_port["d"]) == ("L3", 22_000, "L5")
    assert {name for _, name in tree.blocked} == {"L4", "L7", "L8"}


def test_a_cord_from_a_bridge_to_itself_is_cut_at_its_higher_port() -> None:
    tree = predicted_tree({"a": (0, 1)}, [link("L1", "a2", "a1", 1000)])
    assert tree.blocked == {("a", "L1")}
    assert tree.active == frozenset()


def test_equal_identifiers_are_refused() -> None:
    with pytest.raises(ValueError, match="same identifier"):
        predicted_tree({"a": (0, 1), "b": (0, 1)}, [])


NAMES = "abcdefg"
NETWORKS = st.lists(
    st.tuples(st.sampled_from(NAMES), st.sampled_from(NAMES), st.sampled_from([100, 1000, 2500, 10_000])),
    max_size=14,
)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(NETWORKS, st.permutations(range(len(NAMES))))
def test_active_links_are_a_tree_of_shortest_ways(ends: list[tuple[str, str, int]], order: list[int]) -> None:
    bridges = {name: (32768, number) for name, number in zip(NAMES, order, strict=True)}
    links = [
        TreeLink(f"L{number}", a, (128, 2 * number), b, (128, 2 * number + 1), long_path_cost(rate))
        for number, (a, b, rate) in enumerate(ends)
    ]
    tree = predicted_tree(bridges, links)
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from(NAMES)
    for each in links:
        graph.add_edge(each.a, each.b, each.id, weight=each.cost)
    for part in nx.connected_components(graph):
        root = min(part, key=lambda name: bridges[name])
        lengths = nx.single_source_dijkstra_path_length(graph, root)
        assert {name: tree.cost[name] for name in part} == lengths
        assert {tree.root_of[name] for name in part} == {root}
    active: nx.MultiGraph[str] = nx.MultiGraph()
    active.add_nodes_from(NAMES)
    for each in links:
        if each.id in tree.active:
            active.add_edge(each.a, each.b, each.id)
    assert nx.is_forest(active)
    assert nx.number_connected_components(active) == nx.number_connected_components(graph)
