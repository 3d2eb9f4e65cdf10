"""The ways as a graph: rooms as boxes in their buildings, ways as pipes between them, each with its words at it."""

from collections import Counter, defaultdict, deque
from collections.abc import Mapping, Sequence
from itertools import groupby, pairwise
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import INK, NAME_SIZE, PAPER, QUIET, SMALL_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.network.diagram import curve_data
from firstfix.documents.drawing.network.layout import Placed, Point
from firstfix.documents.drawing.ways.boxes import CLEAR, LINE, PAD, WIDEST, RoomBox, WayLabel, laid_out
from firstfix.documents.drawing.ways.marks import BAR_HEIGHT, BAR_WIDTH, bar, pipe
from firstfix.documents.drawing.ways.passages import Passage, room_name
from firstfix.documents.drawing.where import building_label

_LABEL_ROOM = 126.0
_FRAME_LABEL_ROOM, _FRAME_LABEL_HEIGHT = 200.0, 9.0
# The first that fits in a sheet's width is taken: with more room, ways that leave one room cross less.
_RANK_GAPS = (26.0, 14.0)
# So many ways may leave a room to the right before some go to the left.
_MOST_RIGHT = 5


class WayGraph(NamedTuple):
    """Laid out, not yet drawn."""

    boxes: tuple[RoomBox, ...]
    labels: tuple[WayLabel, ...]
    frames: tuple[str, ...]
    placed: Placed

    @property
    def outline(self) -> Picture:
        return Picture("", self.placed.width, self.placed.height)

    @property
    def picture(self) -> Picture:
        return self.outline._replace(markup=_draw(self))


def way_graph(
    build: Build, rooms: frozenset[str], shown: Sequence[Passage], sheet_of: Mapping[str, str]
) -> WayGraph:
    """`rooms` and every way of `shown` that ends in one of them; rooms beyond point to their sheet by `sheet_of`."""
    drawn = [passage for passage in shown if rooms & set(passage.ends)]
    order = outward(drawn, build)
    needed = sorted({end for passage in drawn for end in passage.ends}, key=lambda room: (order[room], room))
    place = {room: number for number, room in enumerate(needed)}
    boxes = tuple(_box(build, room, room in rooms, sheet_of) for room in needed)
    buildings = [build.rooms[room].building if room in build.rooms else "" for room in needed]
    own = {building for room, building in zip(needed, buildings, strict=True) if room in rooms}
    # A room of another sheet stands in its building's frame too, if that is here.
    homes = [building if building in own else "" for building in buildings]
    frames = sorted(own - {""})
    labels = tuple(_label(passage) for passage in drawn)
    joins = directed(drawn, order)
    pairs = [(place[tail], place[head]) for tail, head in joins]
    sizes = {number: _frame_size(building_label(build, frame)) for number, frame in enumerate(frames)}
    in_frames = [frames.index(home) if home else -1 for home in homes]
    for gap in _RANK_GAPS:
        grown, placed = laid_out(boxes, in_frames, pairs, labels, sizes, gap)
        if placed.width <= palette.SHEET_INNER:
            break
    return WayGraph(grown, labels, tuple(building_label(build, frame) for frame in frames), placed)


def outward(shown: Sequence[Passage], build: Build) -> dict[str, int]:
    """Rooms by how many ways they are from the first: one with a cabinet, and of these the one with the most ways."""
    beside: defaultdict[str, set[str]] = defaultdict(set)
    for passage in shown:
        one, other = passage.ends
        beside[one].add(other)
        beside[other].add(one)
    with_cabinet = {cabinet.room for cabinet in build.cabinets.values()}
    depth: dict[str, int] = {}
    for root in sorted(beside, key=lambda room: (room not in with_cabinet, -len(beside[room]), room)):
        if root in depth:
            continue
        depth[root] = 0
        waiting = deque([root])
        while waiting:
            room = waiting.popleft()
            for other in sorted(beside[room] - depth.keys()):
                depth[other] = depth[room] + 1
                waiting.append(other)
    return depth


def directed(drawn: Sequence[Passage], order: Mapping[str, int]) -> list[tuple[str, str]]:
    """Each way's rooms, the left one first: away from the first room, but where many ways leave a room, half of those that end in
    a room of no other way go to the left."""
    count = Counter(end for passage in drawn for end in passage.ends)
    joins = []
    leaves: Counter[str] = Counter()
    leaving = Counter(min(passage.ends, key=lambda room: (order[room], room)) for passage in drawn)
    for passage in drawn:
        near, far = sorted(passage.ends, key=lambda room: (order[room], room))
        leaves[near] += count[far] == 1
        is_left = count[far] == 1 and leaving[near] > _MOST_RIGHT and leaves[near] % 2 == 0
        joins.append((far, near) if is_left else (near, far))
    return joins


@once_per_build
def _devices_in(build: Build) -> Counter[str]:
    return Counter(device.room for device in build.devices.values())


def _box(build: Build, room: str, is_own: bool, sheet_of: Mapping[str, str]) -> RoomBox:
    known = build.rooms.get(room)
    name = font.clip(room_name(build, room), WIDEST - 2 * PAD, NAME_SIZE, True)
    if known is None:
        return RoomBox(room, (name, "place not known"), "")
    if not is_own:
        on = sheet_of.get(room, "")
        said = (building_label(build, known.building), f"continues on {on}" if on else "")
        return RoomBox(
            room,
            (name, *(font.clip(each, WIDEST - 2 * PAD, SMALL_SIZE) for each in said if each)),
            on or "elsewhere",
        )
    devices = _devices_in(build)[room]
    cabinets = [f"cabinet {cabinet.name}" for cabinet in build.cabinets.values() if cabinet.room == room]
    spot = "outdoors" if known.is_outdoors else f"floor {known.floor}"
    many = f", {devices} device{'' if devices == 1 else 's'}" if devices else ""
    facts = (f"{spot}{many}", *cabinets)
    return RoomBox(room, (name, *(font.clip(each, WIDEST - 2 * PAD, SMALL_SIZE) for each in facts)), "")


def _label(passage: Passage) -> WayLabel:
    lines = [font.clip(passage.name, _LABEL_ROOM, SMALL_SIZE, True)]
    lines += font.wrap(passage.what, _LABEL_ROOM, SMALL_SIZE, 3)
    is_asked = passage.runs and (passage.shares or passage.bore)
    said = f"{passage.cables}, {passage.full}" if is_asked else passage.cables
    lines += font.wrap(said, _LABEL_ROOM, SMALL_SIZE, 4)
    return WayLabel(tuple(lines), passage)


def _frame_size(label: str) -> tuple[float, float]:
    return float(
        int(min(_FRAME_LABEL_ROOM, font.width(font.clean(label), NAME_SIZE, True))) + 2
    ), _FRAME_LABEL_HEIGHT


def _draw(graph: WayGraph) -> str:
    placed = graph.placed
    parts = [_frame(graph.frames[number], *box) for number, box in sorted(placed.frames.items())]
    for label, curve in zip(graph.labels, placed.curves, strict=True):
        parts.append(svg.path(curve_data(curve), pipe(label.passage.exposure)))
    for label, centre in zip(graph.labels, placed.labels, strict=True):
        if centre is not None:
            parts.append(_draw_label(label, centre, placed))
    parts += [_draw_box(box, corner) for box, corner in zip(graph.boxes, placed.boxes, strict=True)]
    return "".join(parts)


def _frame(label: str, left: float, top: float, right: float, bottom: float) -> str:
    return svg.group(
        label,
        svg.rect(
            left, top, right - left, bottom - top, fill=palette.FIELD, stroke=palette.HAIR, weight=palette.HAIRLINE
        ),
        svg.text(left + 8, top + 13, label, NAME_SIZE, is_bold=True, colour=QUIET, room=right - left - 16),
    )  # fmt: skip


def _ground(x: float, y: float, placed: Placed) -> str:
    within = any(left < x < right and top < y < bottom for left, top, right, bottom in placed.frames.values())
    return palette.FIELD if within else PAPER


def _patch(label: WayLabel, centre: Point, placed: Placed) -> str:
    """The sheet's ground again under each line of words: at the edge of a building's field nothing is bitten out of that."""
    width, height = label.size
    left, top = centre[0] - width / 2 + 3, centre[1] - height / 2 + CLEAR - 1
    bottom = top + height - 2 * CLEAR + 2
    cuts = [top, *(top + 1 + LINE * number for number in range(1, len(label.lines))), bottom]
    bands = (
        (upper, lower, _ground(centre[0], (upper + lower) / 2, placed)) for upper, lower in pairwise(cuts)
    )
    parts = []
    for ground, of_ground in groupby(bands, lambda band: band[2]):
        same = list(of_ground)
        parts.append(svg.rect(left, same[0][0], width - 6, same[-1][1] - same[0][0], fill=ground))
    return "".join(parts)


def _draw_box(box: RoomBox, corner: Point) -> str:
    x, y = corner
    fill, dash = (PAPER, palette.ALARM_DASH) if box.on else (PAPER, "")
    parts = [
        svg.rect(x, y, box.width, box.height, fill=fill, stroke=INK, weight=palette.OUTLINE, dash=dash),
        svg.text(x + PAD, y + 12, box.lines[0], NAME_SIZE, is_bold=True, room=box.width - 2 * PAD + 1),
    ]
    for number, line in enumerate(box.lines[1:]):
        parts.append(
            svg.text(
                x + PAD,
                y + 12 + 9.6 + LINE * number,
                line,
                SMALL_SIZE,
                colour=QUIET,
                room=box.width - 2 * PAD + 1,
            )
        )
    return svg.group(palette.BETWEEN.join(box.lines), *parts)


def _draw_label(label: WayLabel, centre: Point, placed: Placed) -> str:
    width, height = label.size
    top = centre[1] - height / 2
    parts = [_patch(label, centre, placed)]
    base = top + CLEAR + SMALL_SIZE * font.ASCENT
    for number, line in enumerate(label.lines):
        is_name = number == 0
        is_verdict = label.passage.is_over and number == len(label.lines) - 1
        colour = palette.ALARM if is_verdict else INK if is_name else QUIET
        parts.append(
            svg.text(
                centre[0],
                base,
                line,
                SMALL_SIZE,
                is_bold=is_name,
                colour=colour,
                anchor="middle",
                room=width - 3,
            )
        )
        base += LINE
    if label.passage.shares:
        parts.append(
            bar(
                centre[0] - BAR_WIDTH / 2,
                base - BAR_HEIGHT - 0.2,
                label.passage.shares,
                label.passage.is_over,
            )
        )
    return svg.group(
        palette.BETWEEN.join(
            (label.passage.name, label.passage.what, label.passage.cables, label.passage.full)
        ),
        *parts,
    )
