"""Routes against networkx; lengths against their terms."""

import random
from pathlib import Path
from typing import Any

import networkx
import pytest

from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan
from resolve.planning import build_of

HONEY_FARM = Path(__file__).parents[2] / "plans" / "honey-farm.yaml"


@pytest.mark.parametrize("seed", range(10))
def test_routes_are_as_short_as_networkx_finds(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable
    rooms = [f"room-{n}" for n in range(7)]
    graph: Any = networkx.Graph()
    graph.add_nodes_from(rooms)
    ways: dict[str, Any] = {}
    for number in range(chance.randint(5, 14)):
        near, far = chance.sample(rooms, 2)
        metres = chance.randint(1, 30)
        ways[f"way-{number}"] = {"between": [near, far], "length": f"{metres} m"}
        known = graph.get_edge_data(near, far, {"weight": 99})["weight"]
        graph.add_edge(near, far, weight=min(metres, known))
    plan = {
        "sites": {"home": {"rooms": {room: {} for room in rooms}}},
        "ways": ways,
        "devices": {f"switch-{n}": {"part": "switch-16", "room": room} for n, room in enumerate(rooms)},
        "links": [{"run": ["switch-0", f"switch-{n}"]} for n in range(1, 7)],
    }
    build = build_of(tmp_path, plan)
    for piece in build.pieces.values():
        far = next(end for end in piece.ends if "switch-0/" not in end)
        room = "room-" + far.partition("switch-")[2].partition("/")[0]
        if networkx.has_path(graph, "room-0", room):
            shortest = networkx.shortest_path_length(graph, "room-0", room, weight="weight")
            assert sum(_metres(ways, each) for each in piece.route) == shortest
        else:
            assert piece.route == ()
            assert not isinstance(piece.length.figure, Fact)


def _metres(ways: dict[str, Any], way_id: str) -> int:
    return int(ways[way_id.partition(":")[2]]["length"].removesuffix(" m"))


def test_lengths_are_the_sum_of_their_terms() -> None:
    build = compile_plan(HONEY_FARM, "plan.yaml").build
    assert build is not None
    for piece in build.pieces.values():
        needed = sum(term.value for term in piece.length.terms)
        figure = piece.length.figure
        assert isinstance(figure, Fact)
        if piece.length.sold:
            form = build.library[piece.part].cable
            assert form is not None
            assert figure.typical == min(each for each in form.lengths if each + 1e-9 >= needed)
        else:
            assert figure.typical == pytest.approx(needed, abs=1e-5)


def test_one_run_by_hand() -> None:
    """Study to landing: 6 m of riser, 2 m of drop at each end, unit 9 of the cabinet at 44.45 mm a unit, 1.5 m of slack twice."""
    build = compile_plan(HONEY_FARM, "plan.yaml").build
    assert build is not None
    run = next(each for each in build.pieces.values() if "names-1" in each.link and each.route)
    figure = run.length.figure
    assert isinstance(figure, Fact)
    assert figure.typical == pytest.approx(6 + 2 + 2 + 9 * 0.04445 + 2 * 1.5, abs=0.001)
