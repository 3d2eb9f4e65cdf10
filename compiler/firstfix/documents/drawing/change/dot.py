"""The network of a change as DOT source, for those who want to lay it out with Graphviz in their own way."""

from collections.abc import Iterable, Sequence

from firstfix.compare.changes import CHANGED, GONE, NEW, SAME
from firstfix.documents.drawing.change.cards import WORDS
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.strands import WAS, Strand
from firstfix.documents.drawing.kit import font, svg

# Graphviz's own styles, so that what is gone and what is new differ without any colour.
_STYLES = {NEW: "bold", CHANGED: "bold", GONE: "dashed", WAS: "dashed", SAME: "solid"}


def dot_source(sides: Sides, strands: Sequence[Strand]) -> str:
    """A node for each thing at an end of a strand, an edge for each strand; "" without any."""
    import graphviz

    if not strands:
        return ""
    graph = graphviz.Graph("change", graph_attr={"rankdir": "LR"}, node_attr={"shape": "box"})
    keys = sorted({key for each in strands for key in (each.near, each.far)})
    names = svg.distinct_names({key: key.rpartition(":")[2] for key in keys})
    for key in keys:
        state = sides.shape(key)
        words = (sides.name(key), WORDS[state], sides.place(key))
        graph.node(names[key], label=_label(words), style=_STYLES.get(state, "bold"))
    for each in strands:
        graph.edge(
            names[each.near],
            names[each.far],
            label=_label((each.word, each.jack, each.said)),
            style=_STYLES[each.state],
        )
    return str(graph.source).replace("\r\n", "\n")


def _label(words: Iterable[str]) -> str:
    """Lines of a label that is never taken for HTML, nor the backslashes in it for line ends."""
    import graphviz

    label: str = graphviz.nohtml(r"\n".join(graphviz.escape(font.clean(each)) for each in words if each))
    return label
