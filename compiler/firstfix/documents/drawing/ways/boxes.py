"""Rooms as boxes and ways as labelled lines between them, and where they go: sizes in points, laid out by Graphviz.

Laid out twice: first to learn which way ends above which, then with a place of its own for each way at the sides of its rooms.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from firstfix.documents.drawing.kit import font
from firstfix.documents.drawing.kit.palette import NAME_SIZE, SMALL_SIZE
from firstfix.documents.drawing.network.layout import Box, Edge, Placed, layout
from firstfix.documents.drawing.ways.marks import BAR_WIDTH
from firstfix.documents.drawing.ways.passages import Passage

PAD = 5.0
LINE = 9.4
WIDEST = 120.0
# Above and below the words at a way: half a pipe, and some air.
CLEAR = 5.0
BAR_LINE = 9.0
_NARROWEST = 62.0
# Between two ways that leave a room on the same side.
_PITCH = 8


class RoomBox(NamedTuple):
    """A room; `on`: the sheet that shows it, where that is another one."""

    room: str
    lines: tuple[str, ...]
    on: str
    tall: float = 0.0

    @property
    def width(self) -> float:
        name = font.width(self.lines[0], NAME_SIZE, True)
        rest = (font.width(line, SMALL_SIZE) for line in self.lines[1:])
        return float(
            int(min(WIDEST, max(_NARROWEST, name + 2 * PAD, *(each + 2 * PAD for each in rest), 0.0)) + 1)
        )

    @property
    def height(self) -> float:
        return max(self.tall, float(int(18.0 + LINE * (len(self.lines) - 1))))


class WayLabel(NamedTuple):
    lines: tuple[str, ...]
    passage: Passage

    @property
    def size(self) -> tuple[float, float]:
        widths = [font.width(line, SMALL_SIZE, number == 0) for number, line in enumerate(self.lines)]
        wide = max(*widths, BAR_WIDTH if self.passage.shares else 0.0)
        bars = BAR_LINE if self.passage.shares else 0.0
        return float(int(wide) + 10), float(int(LINE * len(self.lines) + bars) + 2 * CLEAR)


def laid_out(
    boxes: tuple[RoomBox, ...],
    in_frames: Sequence[int],
    joins: Sequence[tuple[int, int]],
    labels: Sequence[WayLabel],
    frames: Mapping[int, tuple[float, float]],
    gap: float,
) -> tuple[tuple[RoomBox, ...], Placed]:
    """`joins`: places of boxes, the left one first. Boxes come back as tall as the ways at their sides ask for."""
    sizes = [label.size for label in labels]
    edges = [Edge((tail, 0), (head, 0), size) for (tail, head), size in zip(joins, sizes, strict=True)]
    plain = [Box(box.width, (box.height,), frame) for box, frame in zip(boxes, in_frames, strict=True)]
    first = layout(plain, edges, frames, gap)
    right, left = _at_sides(joins, boxes, first)
    grown = []
    made = []
    for number, (box, frame) in enumerate(zip(boxes, in_frames, strict=True)):
        count = max(1, len(right[number]), len(left[number]))
        each = box.height if count == 1 else float(max(_PITCH, -int(-box.height // count)))
        grown.append(box._replace(tall=each * count))
        made.append(Box(box.width, (each,) * count, frame))
    edges = [
        Edge((tail, _row(right[tail], edge, made[tail])), (head, _row(left[head], edge, made[head])), size)
        for edge, ((tail, head), size) in enumerate(zip(joins, sizes, strict=True))
    ]
    return tuple(grown), layout(made, edges, frames, gap)


def _at_sides(
    joins: Sequence[tuple[int, int]], boxes: Sequence[RoomBox], placed: Placed
) -> tuple[dict[int, list[int]], dict[int, list[int]]]:
    """By box: the ways at its right side and at its left side, each from the top down by where they end."""

    def height(box: int) -> float:
        return placed.boxes[box][1] + boxes[box].height / 2

    right: defaultdict[int, list[int]] = defaultdict(list)
    left: defaultdict[int, list[int]] = defaultdict(list)
    for edge, (tail, _) in sorted(enumerate(joins), key=lambda each: (height(each[1][1]), each[0])):
        right[tail].append(edge)
    for edge, (_, head) in sorted(enumerate(joins), key=lambda each: (height(each[1][0]), each[0])):
        left[head].append(edge)
    return right, left


def _row(ordered: Sequence[int], edge: int, box: Box) -> int:
    """In the middle of the side, where it has more places than ways."""
    return ordered.index(edge) + (len(box.heights) - len(ordered)) // 2
