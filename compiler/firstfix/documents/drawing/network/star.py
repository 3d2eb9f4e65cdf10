"""Wires of an overview in which all trunks end at one box: each bends once near that box, and then runs straight, its words above it.

Takes what Graphviz laid out; gives the same boxes with other curves. Wires that begin at one place and end one below the other never
cross so, where Graphviz, which gives the words a place of their own, lets them sway. What is no star stays as it was.
"""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.documents.drawing.network.diagram import Diagram, Line
from firstfix.documents.drawing.network.layout import Placed, Point

# Room between the words and the box, and the least that a bend takes; in points, from looking at drawings.
_BESIDE = 6.0
_LEAST_BEND = 30.0


class _Rect(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "_Rect") -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: "_Rect") -> bool:
        return (
            self.left < other.left
            and other.right < self.right
            and self.top < other.top
            and other.bottom < self.bottom
        )


class _Ray(NamedTuple):
    """A wire from the `middle` to its `end`; `words` is where its label stands, `bend` how far from the middle it is straight."""

    middle: Point
    end: Point
    bend: float
    words: _Rect

    @property
    def curve(self) -> tuple[Point, ...]:
        """From the middle to the end."""
        (x, y), (end_x, end_y) = self.middle, self.end
        half, full = x + self.bend / 2, x + self.bend
        third = (end_x - full) / 3
        return (
            (x, y), (half, y), (half, end_y), (full, end_y),
            (full + third, end_y), (end_x - third, end_y), (end_x, end_y),
        )  # fmt: skip

    @property
    def straight(self) -> _Rect:
        left, right = sorted((self.middle[0] + self.bend, self.end[0]))
        return _Rect(left, self.end[1] - 1, right, self.end[1] + 1)


def as_star(diagram: Diagram) -> Diagram:
    seen = [index for index, line in enumerate(diagram.lines) if line.stroke is not None]
    middle = _middle([diagram.lines[index] for index in seen])
    if middle is None or len(seen) < 2:
        return diagram
    rays = {index: _ray(diagram, index, middle) for index in seen}
    if not _is_clear(diagram, list(rays.values())):
        return diagram
    down = max(0.0, -min(ray.words.top for ray in rays.values()))
    if down and diagram.frames:
        return diagram
    return diagram._replace(placed=_redrawn(diagram, rays, middle, down))


def _middle(lines: Sequence[Line]) -> int | None:
    """The box at which all of them end, if it is one."""
    shared = set[int]()
    for number, line in enumerate(lines):
        ends = {line.tail[0], line.head[0]}
        shared = ends if number == 0 else shared & ends
    return min(shared) if shared else None


def _ray(diagram: Diagram, index: int, middle: int) -> _Ray:
    line, curve = diagram.lines[index], diagram.placed.curves[index]
    start, end = (curve[0], curve[-1]) if line.tail[0] == middle else (curve[-1], curve[0])
    width, height = line.label.size
    side = 1.0 if end[0] > start[0] else -1.0
    widest = max(each.label.size[0] for each in diagram.lines)
    bend = side * (abs(end[0] - start[0]) - widest - 2 * _BESIDE)
    near = end[0] - side * _BESIDE
    left = near - width if side > 0 else near
    return _Ray(start, end, bend, _Rect(left, end[1] - height, left + width, end[1]))


def _is_clear(diagram: Diagram, rays: Sequence[_Ray]) -> bool:
    """No words lie on other words, boxes or wires, no wire on a box, and wires of one side leave in the order in which they end."""
    placed = diagram.placed
    boxes = [
        _Rect(x, y, x + table.width, y + sum(table.heights))
        for (x, y), table in zip(placed.boxes, diagram.tables, strict=True)
    ]
    frames = [_Rect(*frame) for frame in placed.frames.values()]
    if any(ray.words.meets(frame) and not frame.holds(ray.words) for ray in rays for frame in frames):
        return False
    if any(abs(ray.bend) < _LEAST_BEND or ray.bend * (ray.end[0] - ray.middle[0]) <= 0 for ray in rays):
        return False
    for number, ray in enumerate(rays):
        left, right = sorted((ray.middle[0], ray.middle[0] + ray.bend))
        top, bottom = sorted((ray.middle[1], ray.end[1]))
        bent = _Rect(left + 1, top, right, bottom)
        if any(box.meets(ray.words) or box.meets(bent) for box in boxes):
            return False
        for other in (*rays[:number], *rays[number + 1 :]):
            is_same_side = (other.bend > 0) == (ray.bend > 0)
            if ray.words.meets(other.words) or ray.words.meets(other.straight):
                return False
            if is_same_side and ray.middle[1] < other.middle[1] and ray.end[1] > other.end[1]:
                return False
    return True


def _redrawn(diagram: Diagram, rays: dict[int, _Ray], middle: int, down: float) -> Placed:
    """With everything `down` points lower, where the first words need that."""
    placed = diagram.placed

    def lower(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x, y + down) for x, y in points)

    curves = [lower(curve) for curve in placed.curves]
    labels = list(placed.labels)
    for index, ray in rays.items():
        curve = lower(ray.curve)
        curves[index] = curve if diagram.lines[index].tail[0] == middle else curve[::-1]
        words = ray.words
        labels[index] = ((words.left + words.right) / 2, (words.top + words.bottom) / 2 + down)
    bottoms = (y + sum(table.heights) for (_, y), table in zip(placed.boxes, diagram.tables, strict=True))
    height = placed.height if placed.frames else max(bottoms) + down
    return Placed(lower(placed.boxes), tuple(curves), tuple(labels), placed.frames, placed.width, height)
