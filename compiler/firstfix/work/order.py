"""Tasks in a line in which nothing is undone, and what one does at once in one place stands together."""

from collections.abc import Iterable

from firstfix.build.ids import NaturalKey, natural
from firstfix.build.phases import Phase, PhaseKey
from firstfix.work.model import Task


class WorkOrderError(Exception):
    """A fault of ours: tasks that wait for each other, or for one that there is not."""


def order(tasks: Iterable[Task], phases: Iterable[Phase] = ()) -> tuple[Task, ...]:
    """`tasks` so that each comes after all that must precede it; the same whatever order they are given in. `phases` in their order.

    Among those that could be next, the first is by phase, stage, building, room, rack unit from the
    bottom, and id. Raises WorkOrderError where there is no such line.
    """
    import networkx  # slow to import

    by_id = {task.id: task for task in sorted(tasks, key=lambda task: task.id)}
    phase_key = PhaseKey(phases)
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    graph.add_nodes_from(by_id)
    graph.add_edges_from((each.before, task.id) for task in by_id.values() for each in task.after)
    missing = sorted(set(graph) - set(by_id))
    if missing:
        raise WorkOrderError(f"{missing[0]} must be done first, but there is no such task")
    try:
        ids = list(
            networkx.lexicographical_topological_sort(graph, key=lambda id_: _key(by_id[id_], phase_key))
        )
    except networkx.NetworkXUnfeasible:
        ring = ", ".join(edge[0] for edge in networkx.find_cycle(graph))
        raise WorkOrderError(f"these wait for each other: {ring}") from None
    return tuple(by_id[id_] for id_ in ids)


_Key = tuple[tuple[int, NaturalKey], int, str, str, int, NaturalKey]


def _key(task: Task, phase_key: PhaseKey) -> _Key:
    return (phase_key(task.phase), int(task.stage), task.building, task.room, task.height, natural(task.id))
