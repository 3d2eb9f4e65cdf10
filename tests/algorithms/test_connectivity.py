"""Parts, bridges, rings, cycles and shortest routes against networkx on random multigraphs."""

from typing import Any

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.connectivity import Edge, components, cycle_through, rings
from firstfix.algorithms.shortest import Shortest, Step

NODES = [f"n{number}" for number in range(9)]
PAIRS = st.lists(st.tuples(st.sampled_from(NODES), st.sampled_from(NODES)), max_size=18)
relaxed = settings(derandomize=True, deadline=None, max_examples=200)


def edges_of(pairs: list[tuple[str, str]]) -> list[Edge]:
    return [Edge(f"e{number:02}", a, b) for number, (a, b) in enumerate(pairs)]


def graph_of(edges: list[Edge]) -> "nx.MultiGraph[str]":
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from(NODES)
    for edge in edges:
        graph.add_edge(edge.a, edge.b, edge.id)
    return graph


def parts(sets: object) -> set[frozenset[str]]:
    return {frozenset(each) for each in sets}  # type: ignore[attr-defined]


@relaxed
@given(PAIRS)
def test_components_are_those_of_networkx(pairs: list[tuple[str, str]]) -> None:
    edges = edges_of(pairs)
    found = components(NODES, edges)
    assert parts(found) == parts(nx.connected_components(graph_of(edges)))
    assert found == sorted(sorted(part) for part in found)


@relaxed
@given(PAIRS)
def test_bridges_are_the_edges_without_which_a_part_falls_apart(pairs: list[tuple[str, str]]) -> None:
    edges = edges_of(pairs)
    whole = nx.number_connected_components(graph_of(edges))
    cut = {
        edge.id
        for edge in edges
        if nx.number_connected_components(graph_of([each for each in edges if each is not edge])) > whole
    }
    assert rings(NODES, edges).bridges == cut


@relaxed
@given(PAIRS)
def test_rings_are_the_two_edge_connected_parts(pairs: list[tuple[str, str]]) -> None:
    edges = edges_of(pairs)
    ring_of = rings(NODES, edges).ring_of
    # Edge connectivity counts parallel edges when each has a node of its own in the middle.
    spread: nx.Graph[str] = nx.Graph()
    spread.add_nodes_from(NODES)
    for edge in edges:
        if edge.a != edge.b:
            spread.add_edges_from(((edge.a, edge.id), (edge.id, edge.b)))
    expected = {frozenset(part & set(NODES)) for part in nx.k_edge_components(spread, 2)} - {frozenset()}
    found = {frozenset(node for node in NODES if ring_of[node] == number) for number in ring_of.values()}
    assert found == expected


@relaxed
@given(PAIRS)
def test_a_cycle_through_an_edge_is_closed_and_as_short_as_can_be(pairs: list[tuple[str, str]]) -> None:
    edges = edges_of(pairs)
    by_id = {edge.id: edge for edge in edges}
    for edge in edges:
        cycle = cycle_through(edge, NODES, edges)
        rest = graph_of([each for each in edges if each is not edge])
        if not nx.has_path(rest, edge.a, edge.b):
            assert cycle == []
            continue
        assert len(cycle) == 1 + nx.shortest_path_length(rest, edge.a, edge.b)
        assert cycle[0] == edge.id
        assert len(set(cycle)) == len(cycle)
        walk = graph_of([by_id[each] for each in cycle])
        assert all(degree in (0, 2) for _, degree in walk.degree)


WEIGHED = st.lists(
    st.tuples(
        st.sampled_from(NODES), st.sampled_from(NODES), st.integers(0, 40).map(lambda tenth: tenth / 4)
    ),
    max_size=20,
)


@relaxed
@given(WEIGHED)
def test_shortest_routes_are_as_short_as_those_of_dijkstra_in_networkx(
    ways: list[tuple[str, str, float]],
) -> None:
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from(NODES)
    steps: dict[str, list[Step]] = {node: [] for node in NODES}
    weight: dict[str, float] = {}
    for number, (a, b, metres) in enumerate(ways):
        name = f"w{number:02}"
        weight[name] = metres
        graph.add_edge(a, b, name, weight=metres)
        steps[a].append(Step(name, b, metres))
        steps[b].append(Step(name, a, metres))
    shortest = Shortest(steps)
    found = {node: shortest.route(NODES[0], node) for node in NODES}
    routes = {node: route for node, route in found.items() if route is not None}
    lengths = nx.single_source_dijkstra_path_length(graph, NODES[0])
    assert {node: sum(weight[each] for each in route) for node, route in routes.items()} == pytest.approx(
        dict(lengths)
    )


def test_equally_short_routes_are_told_apart_by_fewer_edges_and_then_by_name() -> None:
    steps = steps_of([("z", "a", "d", 2.0), ("x", "a", "b", 1.0), ("y", "a", "d", 2.0), ("w", "b", "d", 1.0)])
    assert Shortest(steps).route("a", "d") == ("y",)


def steps_of(edges: list[tuple[str, str, str, float]]) -> dict[str, list[Step]]:
    steps: dict[str, list[Step]] = {node: [] for _, a, b, _ in edges for node in (a, b)}
    for name, a, b, weight in edges:
        steps[a].append(Step(name, b, weight))
        steps[b].append(Step(name, a, weight))
    return steps


@relaxed
@given(WEIGHED, st.sampled_from(NODES), st.sampled_from(NODES))
def test_of_all_shortest_routes_the_first_is_taken_whatever_was_asked_before(
    ways: list[tuple[str, str, float]], start: str, end: str
) -> None:
    edges = [(f"w{(7 * number) % 20:02}", a, b, metres) for number, (a, b, metres) in enumerate(ways)]
    steps: dict[str, list[Step]] = {node: [] for node in NODES}
    steps.update(steps_of(edges))
    weight = {name: metres for name, _, _, metres in edges}
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from(NODES)
    for name, a, b, _ in edges:
        graph.add_edge(a, b, name)
    simple: list[list[Any]] = list(nx.all_simple_edge_paths(graph, start, end)) if start != end else [[]]
    routes = [tuple(step[2] for step in path) for path in simple]
    first = min(
        routes, key=lambda route: (sum(weight[each] for each in route), len(route), route), default=None
    )
    asked_alone, asked_after = Shortest(steps), Shortest(steps)
    for other in NODES:
        asked_after.route(other, start)
    assert asked_alone.route(start, end) == first
    assert asked_after.route(start, end) == first
