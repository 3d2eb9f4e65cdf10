"""The tree drawn: a box for each bridge below the one it reaches the root through, and at the right the links that stand by."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import (
    INK,
    NAME_SIZE,
    OUTLINE,
    PAPER,
    QUIET,
    SMALL_SIZE,
    TEXT_SIZE,
    Stroke,
    wire_stroke,
)
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.numbered import WIDEST
from firstfix.documents.drawing.tree.rows import (
    BridgeRow,
    blocked_end,
    figures,
    meant_as,
    mine_and_other,
    port,
    role_words,
    root_words,
    thousands,
)
from firstfix.graphs.tree_view import TreeEdge

ROW = 34.0
_BOX = 26.0
_STEP = 26.0
_BOX_WIDTH = 178.0
_LANE = 15.0
LANES = 7
_LANES_WIDTH = LANES * _LANE + 8
_DEEPEST = 9


class Lane(NamedTuple):
    """A link that is on no way to the root, its letter, and in which lane it is drawn; rows of its two ends."""

    edge: TreeEdge
    letter: str
    lane: int
    top: int
    bottom: int


def tree_picture(
    build: Build, rows: tuple[BridgeRow, ...], marked: tuple[tuple[str, TreeEdge], ...]
) -> Picture:
    """`rows` of one sheet; of the `marked` links with their letters those that begin or end on it."""
    strokes: set[Stroke] = set()
    parts: list[str] = []
    for index, row in enumerate(rows):
        parts.append(_elbows(build, row, index * ROW, strokes))
    for index, row in enumerate(rows):
        parts.append(_bridge(build, row, index * ROW))
    left = min(WIDEST - _LANES_WIDTH, max(_words_end(build, row) for row in rows) + 12)
    found = lanes(rows, marked)
    for lane in found:
        parts.append(_lane(build, lane, rows, left, strokes))
    samples = (_sample([lane.edge for lane in found]),) if found else ()
    return Picture("".join(parts), WIDEST, len(rows) * ROW, frozenset(strokes), samples=samples)


def _sample(edges: Sequence[TreeEdge]) -> tuple[str, float, str]:
    """What a letter means, for the key. A link may stand by that the plan calls no spare, and a spare one may forward."""
    words = "stands by" if all(edge.stands_by for edge in edges) else "on no bridge's way to the root"
    stub = Stroke(palette.HAIR, OUTLINE)
    return svg.line(0, 9, 16, 9, stub) + letter(20.5, 9, "A"), 26.0, f"{words}: by its letter in the list"


def letter(x: float, y: float, letters: str) -> str:
    """On a disc: no jack and no device looks like that."""
    disc = svg.rect(x - 5.5, y - 5.5, 11, 11, fill=PAPER, stroke=INK, weight=0.9, radius=5.5)
    return disc + svg.text(x, y + 2.6, letters, SMALL_SIZE, is_bold=True, anchor="middle")


def stroke_of(build: Build, edge: TreeEdge) -> Stroke:
    channel = build.channels[edge.channels[0]]
    is_run = any(build.pieces[each].kind == RUN for each in channel.pieces if each in build.pieces)
    is_powered = any(run.channel in edge.channels for run in build.power_runs.values())
    return wire_stroke(channel.medium, is_run, is_powered)


def _left(depth: int) -> float:
    return _STEP * min(depth, _DEEPEST)


def _elbows(build: Build, row: BridgeRow, top: float, strokes: set[Stroke]) -> str:
    """Down from the bridges above where more is to come there, and into its own box, in the stroke of its cable."""
    quiet = Stroke(palette.HAIR, 0.9)
    parts = []
    for level in range(1, row.depth):
        if not row.is_last[level]:
            x = _left(level - 1) + 10
            parts.append(svg.line(x, top - ROW + _BOX, x, top + _BOX, quiet))
    if row.uplink is not None and row.depth:
        x, middle = _left(row.depth - 1) + 10, top + _BOX / 2
        if not row.is_last[row.depth]:
            parts.append(svg.line(x, middle, x, top + _BOX, quiet))
        stroke = stroke_of(build, row.uplink)
        strokes.add(stroke)
        n = svg.number
        parts.append(svg.line(x, top - ROW + _BOX, x, middle, quiet))
        parts.append(svg.path(f"M{n(x)} {n(middle)}H{n(_left(row.depth))}", stroke))
    return "".join(parts)


def _bridge(build: Build, row: BridgeRow, top: float) -> str:
    bridge, left = row.bridge, _left(row.depth)
    device = build.devices[bridge.device]
    room = build.rooms.get(device.room)
    words_x = left + _BOX_WIDTH + 10
    room_for_words = WIDEST - _LANES_WIDTH - words_x
    is_root = bridge.root == bridge.device
    first, second = _uplink_words(build, row)
    cost = "" if row.uplink is None else _cost(bridge.cost)
    under = palette.BETWEEN.join(filter(None, (f"priority {bridge.priority}" if bridge.speaks else "", cost)))
    return svg.group(
        f"{device.name}: {first}, {second}",
        svg.rect(left, top, _BOX_WIDTH, _BOX, fill=palette.BAND, stroke=INK, weight=OUTLINE * (2 if is_root else 1)),
        svg.text(left + 6, top + 11, device.name, NAME_SIZE, is_bold=True, room=_BOX_WIDTH * 0.6),
        svg.text(
            left + _BOX_WIDTH - 6, top + 11, "root" if is_root else room.name if room else "", SMALL_SIZE,
            is_bold=is_root, colour=INK if is_root else QUIET, anchor="end", room=_BOX_WIDTH * 0.3,
        ),
        svg.text(left + 6, top + 21.5, under, SMALL_SIZE, colour=QUIET, room=_BOX_WIDTH - 12),
        svg.text(words_x, top + 11, first, TEXT_SIZE, room=room_for_words),
        svg.text(words_x, top + 21.5, second, SMALL_SIZE, colour=QUIET, room=room_for_words),
    )  # fmt: skip


def _words_end(build: Build, row: BridgeRow) -> float:
    first, second = (font.clean(each) for each in _uplink_words(build, row))
    return (
        _left(row.depth) + _BOX_WIDTH + 10 + max(font.width(first, TEXT_SIZE), font.width(second, SMALL_SIZE))
    )


def _cost(cost: int | None) -> str:
    return "cost to the root not known" if cost is None else f"cost {thousands(cost)} to the root"


def _uplink_words(build: Build, row: BridgeRow) -> tuple[str, str]:
    bridge = row.bridge
    if row.uplink is None:
        return root_words(bridge), f"its address: {bridge.address or 'not read yet'}"
    mine, other = mine_and_other(row.uplink, bridge.device)
    return (
        f"uplink {port(build, mine)} – {port(build, other)}",
        palette.BETWEEN.join(
            filter(None, (figures(row.uplink), role_words(mine, other), meant_as(build, row.uplink)))
        ),
    )


def lanes(rows: tuple[BridgeRow, ...], marked: tuple[tuple[str, TreeEdge], ...]) -> tuple[Lane, ...]:
    """Links with at least one end among these rows, each in the first lane that is free there; none beyond LANES."""
    place = {row.bridge.device: index for index, row in enumerate(rows)}
    busy: list[list[tuple[int, int]]] = [[] for _ in range(LANES)]
    found = []
    for letter, edge in marked:
        ends = [place[end.device] for end in edge.ends if end.device in place]
        if not ends:
            continue
        top, bottom = min(ends), max(ends)
        for number, taken in enumerate(busy):
            if all(bottom < low or top > high for low, high in taken):
                taken.append((top, bottom))
                found.append(Lane(edge, letter, number, top, bottom))
                break
    return tuple(found)


def _lane(build: Build, lane: Lane, rows: tuple[BridgeRow, ...], left: float, strokes: set[Stroke]) -> str:
    """A bracket from one end's row to the other's, with a bar across at the end that is blocked; a stub where one is elsewhere."""
    edge = lane.edge
    stroke = stroke_of(build, edge)
    strokes.add(stroke)
    x = left + 14 + lane.lane * _LANE
    place = {row.bridge.device: index for index, row in enumerate(rows)}
    blocked = blocked_end(edge)
    parts = []
    middles: list[float] = []
    for end in edge.ends:
        if end.device not in place:
            continue
        y = (
            place[end.device] * ROW
            + _BOX / 2
            + (3 if len(middles) and edge.ends[0].device == edge.ends[1].device else 0)
        )
        middles.append(y)
        parts.append(svg.line(left, y, x, y, stroke))
        if end == blocked:
            parts.append(svg.rect(left + 1, y - 5, 3, 10, fill=palette.ALARM))
    if len(middles) == 2:
        parts.append(svg.line(x, middles[0], x, middles[1], stroke))
    y = sum(middles) / len(middles)
    parts.append(letter(x, y, lane.letter))
    return svg.group(lane.letter, *parts)
