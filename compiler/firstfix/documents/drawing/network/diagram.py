"""Tables, the wires between them and the frames round them: laid out, and then drawn."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import BETWEEN, NAME_SIZE, Stroke
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.squares import POWERED, WIRED
from firstfix.documents.drawing.network.labels import Label, draw_label
from firstfix.documents.drawing.network.layout import Box, Edge, Placed, Point, layout
from firstfix.documents.drawing.network.tables import Table, draw_table

_FRAME_LABEL_ROOM = 230.0
# Less than the name's own height: Graphviz adds a margin of its own to a label.
_FRAME_LABEL_HEIGHT = 3.0
Spot = tuple[int, int]


class Line(NamedTuple):
    """A wire from (table, row) to (table, row); row 0 is the table's band. `stroke` None: unseen, it only holds apart."""

    tail: Spot
    head: Spot
    stroke: Stroke | None
    label: Label = Label(())


class Diagram(NamedTuple):
    """What was laid out. `frames` are the frames' names."""

    tables: tuple[Table, ...]
    lines: tuple[Line, ...]
    frames: tuple[str, ...]
    placed: Placed

    @property
    def outline(self) -> Picture:
        """The picture without its markup: enough to know whether it fits."""
        entries = [entry for table in self.tables for entry in table.entries]
        strokes = {line.stroke for line in self.lines} | {entry.stroke for entry in entries}
        states = {POWERED if entry.is_powered else WIRED for entry in entries if entry.side}
        seen = frozenset(stroke for stroke in strokes if stroke)
        return Picture("", self.placed.width, self.placed.height, seen, frozenset(states))

    @property
    def picture(self) -> Picture:
        return self.outline._replace(markup=_draw(self))


def make_diagram(
    tables: Sequence[Table],
    frame_of: Sequence[int],
    frames: Sequence[str],
    lines: Sequence[Line],
    rank_gap: float = 24.0,
    node_gap: float = 18.0,
) -> Diagram:
    """Lay out. `frame_of` gives each table's place in `frames`, or -1."""
    boxes = [Box(table.width, table.heights, frame) for table, frame in zip(tables, frame_of, strict=True)]
    edges = [Edge(line.tail, line.head, line.label.size, line.stroke is not None) for line in lines]
    sizes: Mapping[int, tuple[float, float]] = {index: _frame_size(name) for index, name in enumerate(frames)}
    return Diagram(
        tuple(tables), tuple(lines), tuple(frames), layout(boxes, edges, sizes, rank_gap, node_gap)
    )


def _frame_size(label: str) -> tuple[float, float]:
    return float(int(min(_FRAME_LABEL_ROOM, font.width(label, NAME_SIZE, True))) + 2), _FRAME_LABEL_HEIGHT


def _draw(diagram: Diagram) -> str:
    placed = diagram.placed
    parts = [_frame(diagram.frames[index], *box) for index, box in sorted(placed.frames.items())]
    for line, curve in zip(diagram.lines, placed.curves, strict=True):
        if line.stroke:
            parts.append(svg.path(curve_data(curve), line.stroke))
    for line, centre in zip(diagram.lines, placed.labels, strict=True):
        if centre is not None and line.label.lines:
            parts.append(draw_label(line.label, centre, _ground(centre, placed)))
    parts += [draw_table(table, *corner) for table, corner in zip(diagram.tables, placed.boxes, strict=True)]
    return "".join(parts)


def _frame(label: str, left: float, top: float, right: float, bottom: float) -> str:
    box = svg.rect(
        left,
        top,
        right - left,
        bottom - top,
        fill=palette.FIELD,
        stroke=palette.HAIR,
        weight=palette.HAIRLINE,
    )
    words = svg.text(
        left + 8, top + 13, label, NAME_SIZE, is_bold=True, colour=palette.QUIET, room=right - left - 16
    )
    return svg.group(label.replace(" / ", BETWEEN), box, words)


def _ground(centre: Point, placed: Placed) -> str:
    """The colour under a label: a building's field, or the paper between buildings."""
    x, y = centre
    within = any(left < x < right and top < y < bottom for left, top, right, bottom in placed.frames.values())
    return palette.FIELD if within else palette.PAPER


def curve_data(points: tuple[Point, ...]) -> str:
    """SVG path data of a Bézier curve of 1 + 3n points."""
    if not points:
        return "M0 0"
    shown = [f"{svg.number(x)} {svg.number(y)}" for x, y in points]
    return f"M{shown[0]}C{' '.join(shown[1:])}"
