"""The order of work: nothing before what it needs, the same whatever order the tasks come in, and faults of ours said."""

import random

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.work.model import Precedence, Stage, Task
from firstfix.work.order import WorkOrderError, order


def task(id_: str, *before: str, stage: Stage = Stage.PULL, room: str = "", height: int = 0) -> Task:
    after = tuple(Precedence(each, "it must") for each in before)
    return Task(id_, stage, "", id_, "", room, height, "", after, (), (), (), (), ())


@st.composite
def acyclic_tasks(draw: st.DrawFn) -> list[Task]:
    """Up to 12 tasks; each may wait for any that were drawn before it, so there is no ring."""
    count = draw(st.integers(1, 12))
    made = []
    for number in range(count):
        before = draw(st.sets(st.integers(0, number - 1), max_size=4)) if number else set()
        stage = draw(st.sampled_from(list(Stage)))
        room = draw(st.sampled_from(["", "room:a", "room:b"]))
        made.append(task(f"t:{number}", *(f"t:{each}" for each in sorted(before)), stage=stage, room=room))
    return made


@given(acyclic_tasks(), st.integers(0, 1000))
@settings(derandomize=True, deadline=None, max_examples=200)
def test_each_task_comes_after_all_that_must_precede_it(tasks: list[Task], seed: int) -> None:
    line = order(tasks)
    places = {each.id: place for place, each in enumerate(line)}
    assert sorted(places) == sorted(each.id for each in tasks)
    graph: networkx.DiGraph[str] = networkx.DiGraph(
        [(each.before, one.id) for one in tasks for each in one.after]
    )
    for before, after in graph.edges:
        assert places[before] < places[after]
    shuffled = list(tasks)
    random.Random(seed).shuffle(shuffled)  # noqa: S311 - nothing secret about it
    assert order(shuffled) == line


def test_among_what_could_be_next_stage_goes_before_place_and_place_before_height() -> None:
    line = order(
        [
            task("d", stage=Stage.PULL, room="room:b"),
            task("c", stage=Stage.PULL, room="room:a", height=3),
            task("b", stage=Stage.PULL, room="room:a", height=2),
            task("a", stage=Stage.TEST, room="room:a"),
        ]
    )
    assert [each.id for each in line] == ["b", "c", "d", "a"]


def test_ids_are_in_natural_order() -> None:
    assert [each.id for each in order([task("p/10"), task("p/2")])] == ["p/2", "p/10"]


def test_a_ring_is_a_fault_of_ours_and_names_its_members() -> None:
    with pytest.raises(WorkOrderError, match=r"a, b|b, a"):
        order([task("a", "b"), task("b", "a"), task("c")])


def test_waiting_for_nobody_is_a_fault_of_ours() -> None:
    with pytest.raises(WorkOrderError, match="gone must be done first, but there is no such task"):
        order([task("a", "gone")])


def test_no_tasks_no_line() -> None:
    assert order([]) == ()
