"""What is in each jack of a cabinet's things, read out of a build: the cord, where it goes, and what is at the far end.

Takes a build and faces; gives blocks of rows in words, one block a thing, one row a jack in use.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import RUN, Channel, Piece
from firstfix.build.hardware import Cabinet, Jack
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.documents.drawing.cabinet.standing import FRONT, REAR, Face
from firstfix.documents.drawing.kit.palette import Stroke, wire_stroke
from firstfix.documents.drawing.kit.squares import FREE, Square
from firstfix.documents.drawing.network.entries import building_name, ranges
from firstfix.documents.drawing.network.wiring import device_of, shown_jack
from firstfix.parts.facts import Fact
from firstfix.parts.part import TERMINATION_KINDS
from firstfix.units import metres


class JackRow(NamedTuple):
    """One jack in use: what the cable in it goes `to`, how long that is and in which colour, and what lies `beyond`."""

    square: Square
    to: str
    stroke: Stroke | None
    colour: str
    length: str
    beyond: str

    @property
    def words(self) -> str:
        cable = ", ".join(filter(None, (self.colour, self.length)))
        return ", ".join(filter(None, (f"{self.square.name} to {self.to}", cable, self.beyond)))


class Block(NamedTuple):
    """All rows of one thing. `beyond` heads their last column; `free` names its jacks without a cable."""

    name: str
    beside: str
    beyond: str
    rows: tuple[JackRow, ...]
    free: str = ""

    @property
    def words(self) -> str:
        return f"{self.name}: {'; '.join(row.words for row in self.rows)}."


class _Cables(NamedTuple):
    """Jack id to the piece in it; piece id to its channel; ids of pieces that carry PoE."""

    at: dict[str, Piece]
    channel: dict[str, Channel]
    powered: frozenset[str]


@once_per_build
def _cables(build: Build) -> _Cables:
    return _Cables(
        {end: piece for piece in build.pieces.values() for end in piece.ends},
        {piece: channel for channel in build.channels.values() for piece in channel.pieces},
        frozenset(piece for run in build.power_runs.values() for piece in run.pieces),
    )


def blocks(build: Build, cabinet: Cabinet, faces: Iterable[tuple[str, Face]]) -> tuple[Block, ...]:
    """`faces` with their heights in words. What has no cable in the jacks that one sees has no block."""
    found = []
    for height, face in faces:
        side = REAR if face.is_back else FRONT
        jacks = [jack for each in build.jacks_of.get(face.id, ()) if (jack := build.jacks[each]).face == side]
        if not jacks:
            continue
        rows = tuple(_rows(build, cabinet, jacks, face, side))
        if not rows:
            continue
        is_panel = face.part is not None and face.part.kind in TERMINATION_KINDS
        beyond = "By way of, from here" if side == REAR else "Behind it" if is_panel else "At the far end"
        free = [square.name for square in face.squares if square.state == FREE]
        found.append(Block(face.name, height, beyond, rows, ", ".join(ranges(free))))
    return tuple(found)


def _rows(build: Build, cabinet: Cabinet, jacks: list[Jack], face: Face, side: str) -> Iterator[JackRow]:
    cables = _cables(build)
    for jack, square in zip(jacks, face.squares, strict=True):
        piece, behind = cables.at.get(jack.id), cables.at.get(f"{jack.id}@rear")
        if piece is None and behind is None:
            continue
        if side == REAR:
            beyond = _ways(build, piece, jack.id)
        elif behind is not None:
            beyond = _across(build, cabinet, behind, f"{jack.id}@rear")
        else:
            beyond = _far(build, cabinet, piece, jack.id)
        if piece is None:
            yield JackRow(square, "no cord", None, "", "", beyond)
        else:
            to = _across(build, cabinet, piece, jack.id)
            yield JackRow(square, to, stroke_of(build, piece), piece.colour, length(piece), beyond)


def _across(build: Build, cabinet: Cabinet, piece: Piece, jack: str) -> str:
    """The other end of a piece, with its place where that isn't this cabinet."""
    return placed(build, cabinet, piece.ends[1] if piece.ends[0] == jack else piece.ends[0])


def _far(build: Build, cabinet: Cabinet, piece: Piece | None, jack: str) -> str:
    """The channel's end on the side that `piece` leaves to; "" where that is the other end of the piece itself."""
    channel = _cables(build).channel.get(piece.id) if piece else None
    if piece is None or channel is None:
        return ""
    across = piece.ends[1] if piece.ends[0] == jack else piece.ends[0]
    far = _far_end(build, channel, piece, jack)
    return "" if far == across else placed(build, cabinet, far)


def _far_end(build: Build, channel: Channel, piece: Piece, jack: str) -> str:
    """The end that is reached from `jack` through `piece`: the one that isn't on the side of the device's other piece."""
    if jack in channel.ends:
        return channel.ends[1] if channel.ends[0] == jack else channel.ends[0]
    first = build.pieces.get(channel.pieces[0])
    starts = first is None or channel.ends[0] in first.ends
    near, far = channel.ends if starts else channel.ends[::-1]
    at = channel.pieces.index(piece.id)
    device = device_of(build, jack)
    following = build.pieces.get(channel.pieces[at + 1]) if at + 1 < len(channel.pieces) else None
    is_back = following is not None and any(device_of(build, end) == device for end in following.ends)
    return near if is_back else far


def _ways(build: Build, piece: Piece | None, jack: str) -> str:
    """In order from that jack on."""
    if piece is None:
        return ""
    names = [build.ways[way].name for way in piece.route if way in build.ways]
    if jack == piece.ends[1]:
        names.reverse()
    if names or piece.kind != RUN:
        return ", ".join(names)
    rooms = {known.room if (known := build.devices.get(device_of(build, end))) else "" for end in piece.ends}
    return "inside the room" if len(rooms) == 1 and "" not in rooms else "not known"


def placed(build: Build, cabinet: Cabinet, jack: str) -> str:
    """`panel/3`, or `ap-house, landing`; with the building where that is another one."""
    shown = shown_jack(build, jack)
    device = build.devices.get(device_of(build, jack))
    if device is None or device.cabinet == cabinet.id:
        return shown
    room, own = build.rooms.get(device.room), build.rooms.get(cabinet.room)
    if room is None:
        return f"{shown}, {ids.path(device.room)}"
    if own is None or room.building == own.building:
        return f"{shown}, {room.name}"
    return f"{shown}, {room.name}, {building_name(build, room.building)}"


def stroke_of(build: Build, piece: Piece) -> Stroke:
    part = build.library.get(piece.part)
    medium = part.cable.medium if part and part.cable else "copper"
    return wire_stroke(medium, piece.kind == RUN, piece.id in _cables(build).powered)


def length(piece: Piece) -> str:
    """To a tenth of a metre: a drawing is no cutting list."""
    figure = piece.length.figure
    return metres(round(figure.high, 1) or figure.high) if isinstance(figure, Fact) else "? m"


def leaving(build: Build, cabinet: Cabinet) -> dict[str, list[tuple[Piece, str, str]]]:
    """Pieces with one end in the cabinet, by the way they take first, or "" without one: with the ends in and outside."""
    found: dict[str, list[tuple[Piece, str, str]]] = {}
    for piece in build.pieces.values():
        inside = [end for end in piece.ends if _is_in(build, cabinet, end)]
        if len(inside) != 1:
            continue
        outside = piece.ends[1] if piece.ends[0] == inside[0] else piece.ends[0]
        route = piece.route if piece.ends[0] == inside[0] else piece.route[::-1]
        found.setdefault(route[0] if route else "", []).append((piece, inside[0], outside))
    return dict(sorted(found.items(), key=lambda each: (not each[0], each[0])))


def _is_in(build: Build, cabinet: Cabinet, jack: str) -> bool:
    device = build.devices.get(device_of(build, jack))
    return device is not None and device.cabinet == cabinet.id
