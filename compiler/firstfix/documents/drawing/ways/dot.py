"""The ways as DOT source, for those who want to lay them out with Graphviz in their own way."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.ways.passages import Passage, room_name
from firstfix.documents.drawing.where import building_label

_STYLES = {"indoor": "solid", "outdoor": "dashed", "buried": "dotted"}


def ways_dot(build: Build, shown: Sequence[Passage]) -> str:
    """An undirected graph: a node for each room that a way reaches, an edge for each way, a cluster for each building."""
    import graphviz

    graph = graphviz.Graph("ways", graph_attr={"rankdir": "LR"}, node_attr={"shape": "box"})
    rooms = sorted({end for passage in shown for end in passage.ends})
    names = svg.distinct_names({room: room.partition(":")[2] for room in rooms})
    groups: dict[str, list[str]] = defaultdict(list)
    for room in rooms:
        groups[build.rooms[room].building if room in build.rooms else ""].append(room)
    for number, building in enumerate(sorted(groups)):
        attributes = {"label": _label([building_label(build, building)])}
        with graph.subgraph(name=f"cluster_{number}", graph_attr=attributes) as cluster:
            for room in groups[building]:
                cluster.node(names[room], label=_label([room_name(build, room)]))
    for passage in shown:
        words = (passage.name, passage.what, passage.cables, passage.full if passage.shares else "")
        style = _STYLES.get(passage.exposure, "solid")
        graph.edge(*(names[end] for end in passage.ends), label=_label(filter(None, words)), style=style)
    return str(graph.source).replace("\r\n", "\n")


def _label(words: Iterable[str]) -> str:
    """Lines of a label that is never taken for HTML, nor the backslashes in it for line ends."""
    import graphviz

    label: str = graphviz.nohtml(r"\n".join(graphviz.escape(font.clean(each)) for each in words))
    return label
