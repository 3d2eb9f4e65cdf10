"""How often wires cross: in a sheet as it is drawn, and in what Graphviz makes by itself of the DOT source beside it."""

import json
from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise

from proof.reading import Sheet
from proof.shapes import Box, Point, box_of, traced

Line = tuple[Point, ...]
# Wires that end at one thing meet there, which is no crossing; a lane beside another touches it at both ends.
_AT_AN_END = 4.0
_TOUCHING = 3.0
# A thing that wires end at has an outline at least as heavy; fields and squares have lighter ones.
_OUTLINE = 0.8


def wires(sheet: Sheet) -> list[Line]:
    """Each drawn curve once: one with a core is painted twice."""
    found = [line for paint in sheet.paints if paint.is_curve for line in paint.lines]
    return list(dict.fromkeys(found))


def crossings(lines: Sequence[Line]) -> int:
    """Pairs of places where two lines cross away from their ends."""
    boxed = [(line, box_of(line)) for line in lines]
    return sum(_of_pair(one, other) for one, other in combinations(boxed, 2) if one[1].meets(other[1], -0.1))


def _of_pair(one: tuple[Line, Box], other: tuple[Line, Box]) -> int:
    ends = [line[index] for line, _ in (one, other) for index in (0, -1)]
    return sum(
        1
        for first in pairwise(one[0])
        for second in pairwise(other[0])
        if (point := _meeting(first, second)) and all(_apart(point, end) for end in ends)
    )


def _apart(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) > _AT_AN_END


def _meeting(first: tuple[Point, Point], second: tuple[Point, Point]) -> Point | None:
    """Where two straight parts cross; the far end of each belongs to the next part."""
    (x1, y1), (x2, y2) = first
    (x3, y3), (x4, y4) = second
    bend = (x2 - x1) * (y4 - y3) - (y2 - y1) * (x4 - x3)
    if bend == 0:
        return None
    along = ((x3 - x1) * (y4 - y3) - (y3 - y1) * (x4 - x3)) / bend
    beside = ((x3 - x1) * (y2 - y1) - (y3 - y1) * (x2 - x1)) / bend
    if 0 <= along < 1 and 0 <= beside < 1:
        return x1 + along * (x2 - x1), y1 + along * (y2 - y1)
    return None


def same_graph(sheet: Sheet) -> str:
    """DOT source of what a sheet draws: its boxes in their size, and a line for each wire between the boxes that it ends at."""
    boxes = [paint.box for paint in sheet.paints if paint.is_rect and paint.weight >= _OUTLINE]
    ends = [[_ended_at(boxes, line[index]) for index in (0, -1)] for line in wires(sheet)]
    nodes = [
        f'n{number} [shape=box, fixedsize=true, label="", width={(box.right - box.left) / 72:.3f}, '
        f"height={(box.bottom - box.top) / 72:.3f}]"
        for number, box in enumerate(boxes)
        if any(number in pair for pair in ends)
    ]
    edges = [f"n{near} -> n{far} [dir=none]" for near, far in ends]
    return "\n".join(["digraph {", "rankdir=LR", *nodes, *edges, "}"])


def _ended_at(boxes: Sequence[Box], point: Point) -> int:
    """The largest that the point touches: a row's box lies in its table's."""
    touched = [number for number, box in enumerate(boxes) if box.has(point, _TOUCHING)]
    if not touched:
        raise ValueError(f"a wire ends at nothing, at {point}")
    return max(touched, key=lambda number: boxes[number].area)


def laid_out_by_graphviz(dot: str) -> list[Line]:
    """The edges of DOT source, as Graphviz draws them when nobody tells it anything more."""
    import pygraphviz

    drawn = json.loads(pygraphviz.AGraph(string=dot).draw(format="json", prog="dot"))
    return [line for edge in drawn.get("edges", ()) for line in _curve(edge.get("pos", "").split())]


def _curve(points: Iterable[str]) -> list[Line]:
    shown = [each.replace(",", " ") for each in points if not each.startswith(("e,", "s,"))]
    return traced(f"M{shown[0]}C{' '.join(shown[1:])}") if shown else []
