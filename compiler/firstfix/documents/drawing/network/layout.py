"""Where boxes, wires and frames go: Graphviz does it in this process, from sizes that we measured, and knows no text at all.

Since nothing that a plan says is handed to it, nothing in a plan can reach it.
"""

import json
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple

Point = tuple[float, float]


class Box(NamedTuple):
    """A thing with rows, all as wide as it is. `heights[0]` is its head; the others are rows that wires may end at."""

    width: float
    heights: tuple[float, ...]
    frame: int


class Edge(NamedTuple):
    """From (box, row) to (box, row), at the tail's right side and the head's left. Label in points, or (0, 0).

    `is_seen`: whether there is a wire at all; an unseen one only holds its head to the right of its tail.
    """

    tail: tuple[int, int]
    head: tuple[int, int]
    label: tuple[float, float]
    is_seen: bool = True


class Placed(NamedTuple):
    """Upper left corners of boxes; curves as Bézier points (1 + 3n of them); centres of labels, or None; frames as
    (left, top, right, bottom). Everything in points, y downwards, from 0."""

    boxes: tuple[Point, ...]
    curves: tuple[tuple[Point, ...], ...]
    labels: tuple[Point | None, ...]
    frames: Mapping[int, tuple[float, float, float, float]]
    width: float
    height: float


def layout(
    boxes: Sequence[Box],
    edges: Sequence[Edge],
    frames: Mapping[int, tuple[float, float]],
    rank_gap: float = 24.0,
    node_gap: float = 18.0,
) -> Placed:
    """Lay out left to right; gaps between ranks, and between boxes of one rank, are in points.

    `frames` gives the size of the label at each frame's top; a frame not among them is none.

    What Graphviz makes of it depends on the order in which it meets things. It gets two: backwards, which leaves first
    things on top, and forwards, which is taken if that makes the wires shorter by a tenth.
    """
    import pygraphviz

    found = []
    for step in (-1, 1):
        graph = pygraphviz.AGraph(string="\n".join(_source(boxes, edges, frames, (rank_gap, node_gap), step)))
        found.append(_read(json.loads(graph.draw(format="json", prog="dot")), boxes, edges))
    natural, other = found
    return other if round(_wire_length(other)) < round(0.9 * _wire_length(natural)) else natural


def _wire_length(placed: Placed) -> float:
    """Along the curves' control points, with the height of the whole as a small say in it."""
    steps = (pair for curve in placed.curves for pair in pairwise(curve))
    return sum(abs(x2 - x1) + abs(y2 - y1) for (x1, y1), (x2, y2) in steps) + placed.height


def _source(
    boxes: Sequence[Box],
    edges: Sequence[Edge],
    frames: Mapping[int, tuple[float, float]],
    gaps: tuple[float, float],
    step: int,
) -> list[str]:
    """`step` is 1 for things in their order, -1 for backwards: then what comes first tends to stand on top."""
    numbered = list(enumerate(boxes))[::step]
    lines = [
        "digraph {",
        f"graph [rankdir=LR, splines=spline, nodesep={gaps[1] / 72:.3f}, ranksep={gaps[0] / 72:.3f}, pad=0, newrank=false]",
        "node [shape=plain, margin=0]",
        "edge [dir=none]",
    ]
    for frame, size in sorted(frames.items())[::step]:
        lines += [f"subgraph cluster_{frame} {{ margin=10 labeljust=l label={_table(size[0], (size[1],))}"]
        lines += [_node(index, box) for index, box in numbered if box.frame == frame]
        lines += ["}"]
    lines += [_node(index, box) for index, box in numbered if box.frame not in frames]
    lines += [_edge(index, edge) for index, edge in list(enumerate(edges))[::step]]
    return [*lines, "}"]


def _node(index: int, box: Box) -> str:
    return f"b{index} [label={_table(box.width, box.heights)}]"


def _edge(index: int, edge: Edge) -> str:
    label = f", label={_table(edge.label[0], (edge.label[1],))}" if edge.label[0] else ""
    hidden = "" if edge.is_seen else ", style=invis, weight=4"
    (tail, tail_row), (head, head_row) = edge.tail, edge.head
    return f"b{tail}:r{tail_row}:e -> b{head}:r{head_row}:w [id=e{index}{label}{hidden}]"


def _table(width: float, heights: tuple[float, ...]) -> str:
    """An empty table of fixed sizes: Graphviz rounds up to whole points, so we give it whole points."""
    cells = "".join(
        f'<TR><TD PORT="r{row}" FIXEDSIZE="TRUE" WIDTH="{width:.0f}" HEIGHT="{height:.0f}"></TD></TR>'
        for row, height in enumerate(heights)
    )
    return f'<<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0">{cells}</TABLE>>'


def _read(drawn: Any, boxes: Sequence[Box], edges: Sequence[Edge]) -> Placed:
    _, _, width, height = _numbers(drawn["bb"])
    corners: dict[int, Point] = {}
    frames: dict[int, tuple[float, float, float, float]] = {}
    for thing in drawn.get("objects", ()):
        name = thing["name"]
        if name.startswith("cluster_"):
            left, bottom, right, top = _numbers(thing["bb"])
            frames[int(name.removeprefix("cluster_"))] = (left, height - top, right, height - bottom)
        else:
            index = int(name[1:])
            x, y = _numbers(thing["pos"])
            corners[index] = (x - boxes[index].width / 2, height - y - sum(boxes[index].heights) / 2)
    found = {int(edge["id"][1:]): edge for edge in drawn.get("edges", ())}
    curves = tuple(_curve(found[index].get("pos", ""), height) for index in range(len(edges)))
    labels = tuple(_label(found[index].get("lp"), height) for index in range(len(edges)))
    return Placed(tuple(corners[index] for index in range(len(boxes))), curves, labels, frames, width, height)


def _numbers(text: str) -> tuple[float, ...]:
    return tuple(float(part) for part in text.split(","))


def _curve(text: str, height: float) -> tuple[Point, ...]:
    points = (_numbers(part) for part in text.split(";")[0].split())
    return tuple((x, height - y) for x, y in points)


def _label(text: str | None, height: float) -> Point | None:
    if text is None:
        return None
    x, y = _numbers(text)
    return x, height - y
