"""One sheet of hubs: their tables laid out, the wires between them, and the buildings round them."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing import font, kit, palette
from firstfix.documents.drawing.entries import tables
from firstfix.documents.drawing.labels import NARROW_LABEL, WIDE_LABEL, Label, draw_label, trunk_label
from firstfix.documents.drawing.layout import Box, Edge, Placed, Point, layout
from firstfix.documents.drawing.palette import BETWEEN, NAME_SIZE, Stroke, wire_stroke
from firstfix.documents.drawing.picture import Picture
from firstfix.documents.drawing.squares import POWERED, WIRED
from firstfix.documents.drawing.tables import Table, draw_table
from firstfix.documents.drawing.wiring import Wire, Wiring

NOWHERE = "place not known"
_FRAME_LABEL_ROOM = 230.0


class _Column(NamedTuple):
    hub: str
    table: Table
    number: int


def building_of(build: Build, device: str) -> str:
    """The id of the building a device is in; "" if that isn't known."""
    known = build.devices.get(device)
    room = build.rooms.get(known.room) if known else None
    return room.building if room else ""


def site_of(build: Build, device: str) -> str:
    """The id of the site a device is at; "" if that isn't known."""
    building = build.buildings.get(building_of(build, device))
    return building.site if building else ""


def site_name(build: Build, site: str) -> str:
    known = build.sites.get(site)
    return known.name if known else "site not known"


def building_label(build: Build, building: str) -> str:
    known = build.buildings.get(building)
    if known is None:
        return NOWHERE
    return f"{site_name(build, known.site)} / {known.name}"


def hub_picture(wiring: Wiring, hubs: Iterable[str], sheet_of: Mapping[str, int]) -> Picture:
    """Draw `hubs` and the trunks among them. `sheet_of` tells on which sheet each other hub is.

    If that is wider than a sheet, the words at the trunks are broken into more and shorter lines.
    """
    chosen = sorted(hubs)
    within = set(chosen)
    inside = [wire for wire in wiring.trunks if {wiring.device(wire.near), wiring.device(wire.far)} <= within]
    elsewhere = {hub: number for hub, number in sheet_of.items() if hub not in within}
    outward = frozenset(wire.near for wire in inside)
    columns = [
        _Column(hub, table, number)
        for hub in chosen
        for number, table in enumerate(tables(wiring, wiring.hubs[hub], outward, elsewhere))
    ]
    wide = _lay_out(wiring, columns, inside, WIDE_LABEL)
    return wide if wide.width <= palette.A4_INNER else _lay_out(wiring, columns, inside, NARROW_LABEL)


def _lay_out(wiring: Wiring, columns: list[_Column], inside: list[Wire], label_room: float) -> Picture:
    buildings = sorted({building_of(wiring.build, column.hub) for column in columns})
    labels = _labels(wiring, inside, label_room)
    edges = [_edge(wiring, columns, wire, label) for wire, label in zip(inside, labels, strict=True)]
    edges += [
        Edge((index - 1, 0), (index, 0), (0, 0), False)
        for index, column in enumerate(columns)
        if column.number > 0
    ]  # fmt: skip
    boxes = [
        Box(each.table.width, each.table.heights, buildings.index(building_of(wiring.build, each.hub))) for each in columns
    ]
    names = [building_label(wiring.build, each) for each in buildings]
    placed = layout(boxes, edges, {index: frame_size(name) for index, name in enumerate(names)})
    strokes = [wire_stroke(wire.medium, wire.is_run, bool(wire.power), bool(wire.spare_for)) for wire in inside]
    return assemble([column.table for column in columns], strokes, labels, names, placed)


def _labels(wiring: Wiring, inside: list[Wire], room: float) -> list[Label]:
    """One for each trunk; lanes of one aggregate share the first's."""
    lanes = Counter(_pair(wiring, wire) for wire in inside)
    seen: set[tuple[str, str, str]] = set()
    labels = []
    for wire in inside:
        pair = _pair(wiring, wire)
        labels.append(Label(()) if pair in seen else trunk_label(wiring.build, wire, lanes[pair], room))
        seen.add(pair)
    return labels


def _pair(wiring: Wiring, wire: Wire) -> tuple[str, str, str]:
    link = wiring.build.channels[wire.channel].link
    return link, wiring.device(wire.near), wiring.device(wire.far)


def _edge(wiring: Wiring, columns: list[_Column], wire: Wire, label: Label) -> Edge:
    return Edge(_spot(wiring, columns, wire.near), _spot(wiring, columns, wire.far), label.size)


def _spot(wiring: Wiring, columns: list[_Column], jack: str) -> tuple[int, int]:
    """The box and the row of a jack: rows stand in the hub's order, so the n-th row of a hub is its n-th entry."""
    hub = wiring.device(jack)
    row = next(index for index, each in enumerate(wiring.hubs[hub].rows) if each.wire.near == jack)
    for index, column in enumerate(columns):
        if column.hub == hub:
            if row < len(column.table.entries):
                return index, row + 1
            row -= len(column.table.entries)
    raise AssertionError(f"{jack} has no row")


def frame_size(label: str) -> tuple[float, float]:
    """Room for a frame's name, in whole points."""
    return float(int(min(_FRAME_LABEL_ROOM, font.width(label, NAME_SIZE, True))) + 2), 3.0


def assemble(
    tables_: Sequence[Table],
    strokes: Sequence[Stroke],
    labels: Sequence[Label],
    frames: Sequence[str],
    placed: Placed,
) -> Picture:
    """Draw what was laid out: frames by their names, one stroke and one label a wire, one table a box.

    `placed` may have more curves than there are strokes: the last ones are unseen.
    """
    parts = [_frame(frames[index], *box) for index, box in sorted(placed.frames.items())]
    for stroke, curve in zip(strokes, placed.curves, strict=False):
        parts.append(kit.path(curve_data(curve), stroke))
    for label, centre in zip(labels, placed.labels, strict=False):
        if centre is not None and label.lines:
            parts.append(draw_label(label, centre, _ground(centre, placed)))
    parts += [draw_table(table, *corner) for table, corner in zip(tables_, placed.boxes, strict=True)]
    stubs = {entry.stroke for table in tables_ for entry in table.entries if entry.stroke}
    states = {POWERED if entry.is_powered else WIRED for table in tables_ for entry in table.entries if entry.side}
    return Picture("".join(parts), placed.width, placed.height, frozenset((*strokes, *stubs)), frozenset(states))


def _frame(label: str, left: float, top: float, right: float, bottom: float) -> str:
    box = kit.rect(left, top, right - left, bottom - top, fill=palette.FIELD, stroke=palette.HAIR, weight=palette.HAIRLINE)
    words = kit.text(left + 8, top + 13, label, NAME_SIZE, is_bold=True, colour=palette.QUIET, room=right - left - 16)
    return kit.group(label.replace(" / ", BETWEEN), box, words)


def _ground(centre: Point, placed: Placed) -> str:
    """The colour under a label: a building's field, or the paper between buildings."""
    x, y = centre
    within = any(left < x < right and top < y < bottom for left, top, right, bottom in placed.frames.values())
    return palette.FIELD if within else palette.PAPER


def curve_data(points: tuple[Point, ...]) -> str:
    """SVG path data of a Bézier curve of 1 + 3n points."""
    if not points:
        return "M0 0"
    shown = [f"{kit.number(x)} {kit.number(y)}" for x, y in points]
    return f"M{shown[0]}C{' '.join(shown[1:])}"
