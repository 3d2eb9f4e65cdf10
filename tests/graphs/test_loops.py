"""Loops of the layer-2 view against networkx: found if and only if there is a cycle, per VLAN, and each found one is a cycle."""

import time

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.connectivity import Edge
from firstfix.graphs.layer2 import Join, Layer2
from firstfix.graphs.loops import fundamental_cycles, loops

NAMES = tuple("abcdefgh")
VLANS = ("vlan:blue", "vlan:green", "vlan:red")
relaxed = settings(derandomize=True, deadline=None, max_examples=250)

JOINS = st.lists(
    st.tuples(
        st.sampled_from(NAMES),
        st.sampled_from(NAMES),
        st.frozensets(st.sampled_from(VLANS), min_size=1),
        st.booleans(),
    ),
    max_size=14,
)


def no_spare(_: Join) -> bool:
    return False


def view_of(rows: list[tuple[str, str, frozenset[str], bool]]) -> tuple[Layer2, frozenset[str]]:
    joins = tuple(
        Join(Edge(f"e{n:02}", a, b), f"l{n:02}", (f"e{n:02}",), vlans, False)
        for n, (a, b, vlans, _) in enumerate(rows)
    )
    return Layer2(NAMES, joins, ()), frozenset(f"e{n:02}" for n, row in enumerate(rows) if row[3])


def graph_of(joins: tuple[Join, ...]) -> "nx.MultiGraph[str]":
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    graph.add_nodes_from(NAMES)
    for join in joins:
        graph.add_edge(join.edge.a, join.edge.b, join.edge.id)
    return graph


@relaxed
@given(JOINS)
def test_a_vlan_loops_where_networkx_finds_a_cycle_of_links_that_carry_it(
    rows: list[tuple[str, str, frozenset[str], bool]],
) -> None:
    view, spares = view_of(rows)
    found = loops(view, lambda join: join.edge.id in spares)
    looping = {vlan for loop in found for vlan in loop.vlans}
    expected = {
        vlan
        for vlan in VLANS
        if not nx.is_forest(graph_of(tuple(join for join in view.joins if vlan in join.carried)))
    }
    assert looping == expected


@relaxed
@given(JOINS)
def test_each_loop_is_closed_and_its_vlans_go_all_the_way_round(
    rows: list[tuple[str, str, frozenset[str], bool]],
) -> None:
    view, spares = view_of(rows)
    found = loops(view, lambda join: join.edge.id in spares)
    keys = [frozenset(join.edge.id for join in loop.joins) for loop in found]
    assert len(set(keys)) == len(keys)
    for loop in found:
        assert loop.closing in loop.joins
        assert loop.closing.edge.id in spares or not spares.intersection(join.edge.id for join in loop.joins)
        if len(loop.devices) == 2:
            assert all(sum(vlan in join.carried for join in loop.joins) > 1 for vlan in loop.vlans)
            continue
        assert all(vlan in join.carried for join in loop.joins for vlan in loop.vlans)
        ends = zip(loop.devices, (*loop.devices[1:], loop.devices[0]), strict=True)
        assert [{join.edge.a, join.edge.b} for join in loop.joins] == [{a, b} for a, b in ends]


@relaxed
@given(JOINS)
def test_there_are_as_many_cycles_as_links_too_many(
    rows: list[tuple[str, str, frozenset[str], bool]],
) -> None:
    view, spares = view_of(rows)
    graph = graph_of(view.joins)
    cycles = fundamental_cycles([join.edge for join in view.joins], spares)
    # The cyclomatic number, m - n + c.
    assert len(cycles) == len(rows) - len(NAMES) + nx.number_connected_components(graph)
    assert all(
        all(degree == 2 for _, degree in nx.MultiGraph([(e.a, e.b) for e in c.edges]).degree) for c in cycles
    )


def test_cutting_the_closing_links_leaves_no_loop() -> None:
    rows = [(a, b, frozenset(VLANS), False) for a in NAMES for b in NAMES if a < b]
    view, _ = view_of(rows)
    cut = {loop.closing.edge.id for loop in loops(view, no_spare)}
    assert cut
    ring = view_of(
        [(a, b, frozenset(VLANS), False) for a, b in zip(NAMES, NAMES[1:] + NAMES[:1], strict=True)]
    )[0]
    (only,) = loops(ring, no_spare)
    rest = tuple(join for join in ring.joins if join != only.closing)
    assert loops(Layer2(NAMES, rest, ()), no_spare) == ()


def test_hundreds_of_bridges_with_thousands_of_links_take_a_moment() -> None:
    """300 bridges in 20 VLANs. The limit is ten times what it took when written; it guards the order of growth, not the speed."""
    names = tuple(f"s{n:03}" for n in range(300))
    joins = tuple(
        Join(
            Edge(f"e{n:04}", names[n % 300], names[(n * 7 + 1 + n // 300) % 300]),
            f"l{n:04}",
            (),
            frozenset(VLANS),
            False,
        )
        for n in range(3000)
    )
    begun = time.process_time()
    assert loops(Layer2(names, joins, ()), no_spare)
    assert time.process_time() - begun < 2.0
