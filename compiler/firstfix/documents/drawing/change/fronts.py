"""Cabinets that change, before and after side by side at one scale, with what is new, gone and moved marked in both.

Takes both sides; gives one block for each stretch of units in which anything changes, and the same in words.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.compare.changes import CHANGED, GONE, NEW, State
from firstfix.compare.records import kept_id
from firstfix.documents.drawing.cabinet.faces import Scale
from firstfix.documents.drawing.cabinet.front import View, mount_middle, side_picture, side_size
from firstfix.documents.drawing.cabinet.listing import height_words
from firstfix.documents.drawing.cabinet.standing import FRONT, REAR, Face, Standing, standings
from firstfix.documents.drawing.cabinet.stretches import stretches
from firstfix.documents.drawing.change.cards import SAMPLES
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.change.strands import WAS
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.marks import arrow_head
from firstfix.documents.drawing.kit.palette import MOVED_STROKE, NAME_SIZE, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.numbered import Block

_SCALE, _HALF_SCALE = Scale(5), Scale(3.5)
_HEAD = 32.0
_LANE_LEAST, _LANE_MOST = 3.0, 7.0
# How a mark begins, where that isn't the state's own word.
_MARKS = {WAS: "was here"}


class _Pair(NamedTuple):
    """A cabinet on both sides; None where it isn't there. `name`: as it is called now, or was at last."""

    old: Cabinet | None
    new: Cabinet | None

    @property
    def name(self) -> str:
        known = self.new or self.old
        return known.name if known else ""

    @property
    def id(self) -> str:
        known = self.new or self.old
        return known.id if known else ""


def front_blocks(sides: Sides, room: float, stem: str) -> list[Block]:
    """`room`: how tall a block may be, in points. `stem` begins the ids of patterns in the markup."""
    made: list[Block] = []
    for number, pair in enumerate(_pairs(sides)):
        for side in (FRONT, REAR):
            said = tuple(_said(sides, pair, side))
            if said:
                made += _blocks(sides, pair, side, said, room, f"{stem}cabinet-{number}-{side}")
    return made


def _pairs(sides: Sides) -> Iterator[_Pair]:
    """In the order of the new build, then those that are gone."""
    for id_, cabinet in sides.new.cabinets.items():
        yield _Pair(sides.old.cabinets.get(sides.changes.in_new(id_).old), cabinet)
    for id_, cabinet in sides.old.cabinets.items():
        if sides.changes.in_old(id_).new not in sides.new.cabinets:
            yield _Pair(cabinet, None)


def _blocks(
    sides: Sides, pair: _Pair, side: str, said: tuple[str, ...], room: float, stem: str
) -> Iterator[Block]:
    """One for each stretch that anything changes in; a change of the cabinet itself is told with the first."""
    known = pair.new or pair.old
    assert known is not None
    scale = _HALF_SCALE if known.part.rail_width == "half" else _SCALE
    stands = [_marked(sides, build, cabinet, side) for build, cabinet in _both(sides, pair)]
    tall = max((each for each in (pair.old, pair.new) if each), key=lambda each: each.units)
    together = tuple(stand for each in stands for stand in each)
    views = stretches(tall, together, scale, room - _HEAD, side)
    changed = [view for view in views if any(view.shows(each) and _mark_of(each) for each in together)]
    for view in changed or views[:1]:
        picture = _pair_picture(sides, pair, view, stands, scale, f"{stem}-{view.high}")
        yield Block(picture, f"{_title(pair, side)}: {'; '.join(said)}.")


def _both(sides: Sides, pair: _Pair) -> tuple[tuple[Build, Cabinet | None], tuple[Build, Cabinet | None]]:
    return (sides.old, pair.old), (sides.new, pair.new)


def _title(pair: _Pair, side: str) -> str:
    return f"Cabinet {pair.name}, {'from behind' if side == REAR else 'front'}"


def _marked(sides: Sides, build: Build, cabinet: Cabinet | None, side: str) -> tuple[Standing, ...]:
    """What stands in it, each with what becomes of it."""
    if cabinet is None:
        return ()
    is_old = build is sides.old
    found = []
    for stand in standings(build, cabinet, side):
        face = stand.face and stand.face._replace(change=_change(sides, stand.face.id, is_old))
        carried = tuple(each._replace(change=_change(sides, each.id, is_old)) for each in stand.carried)
        mark = stand.mark
        if stand.mount.is_kept_free:
            mark = _change(sides, kept_id(stand.mount), is_old) or mark
        found.append(stand._replace(face=face, carried=carried, mark=mark))
    return tuple(found)


def _faces(stand: Standing) -> tuple[Face, ...]:
    return (*((stand.face,) if stand.face else ()), *stand.carried)


def _mark_of(stand: Standing) -> str:
    found = next((face.change for face in _faces(stand) if face.change), "")
    return found or (stand.mark if stand.mount.is_kept_free else "")


def _change(sides: Sides, id_: str, is_old: bool) -> str:
    """What becomes of a thing, as the drawing of that side has it; "" if it stays."""
    state = sides.changes.in_old(id_) if is_old else sides.changes.in_new(id_)
    if state.state in (NEW, GONE):
        return state.state
    was, now = _where(sides.old, state.old), _where(sides.new, state.new)
    was_here = _as_now(sides, was)
    if was_here != now:
        if was_here[0] == now[0]:
            return "was here" if is_old else "moved"
        return f"was here, now {_at(now)}" if is_old else f"moved from {_at(was)}"
    old, new = _part(sides.old, state.old), _part(sides.new, state.new)
    return CHANGED if old != new else ""


_Where = tuple[str, str, str]


def _where(build: Build, id_: str) -> _Where:
    """The cabinet, or else the room; the units, if any; what it stands on, if anything."""
    device = build.devices.get(id_)
    mount = _mounts(build).get(id_)
    if mount is not None:
        return mount.cabinet, f"{mount.low} {mount.high} {mount.face} {mount.side}", ""
    if device is not None and device.carried_by:
        return device.cabinet or device.room, "", device.carried_by
    return (device.room if device else ""), "", ""


def _mounts(build: Build) -> dict[str, Mount]:
    found = {mount.item: mount for mount in build.mounts if mount.item}
    return found | {kept_id(mount): mount for mount in build.mounts if mount.is_kept_free}


def _as_now(sides: Sides, where: _Where) -> _Where:
    return sides.now(where[0]), where[1], sides.now(where[2]) if where[2] else ""


def _at(where: _Where) -> str:
    """ "barn" for a cabinet, with units where it has them; or a room."""
    units = where[1].split()
    return " ".join(
        filter(None, (ids.path(where[0]), height_words(int(units[0]), int(units[1])) if units else ""))
    )


def _part(build: Build, id_: str) -> str:
    known = build.devices.get(id_) or build.fittings.get(id_)
    return known.part.name if known else ""


def _said(sides: Sides, pair: _Pair, side: str) -> Iterator[str]:
    """Each change in words, the one of the cabinet itself first; from behind only what is mounted there."""
    if pair.old is None or pair.new is None:
        if side == FRONT:
            yield f"the cabinet is {'new' if pair.old is None else 'gone'}"
    elif side == FRONT and sides.now(pair.old.room) != pair.new.room:
        yield f"the cabinet moved from {ids.path(pair.old.room)} to {ids.path(pair.new.room)}"
    for build, cabinet in _both(sides, pair):
        for stand in _marked(sides, build, cabinet, FRONT) if cabinet else ():
            if (stand.mount.face == REAR) == (side == REAR):
                yield from _stand_words(sides, stand, build is sides.old)


def _stand_words(sides: Sides, stand: Standing, is_old: bool) -> Iterator[str]:
    def came_from(face: Face) -> str:
        was = _where(sides.old, sides.changes.in_new(face.id).old) if face.change == "moved" else ("", "", "")
        return f" from {_at(was)}" if was[1] else ""

    height = height_words(stand.mount.low, stand.mount.high)
    for face in _faces(stand):
        if face.change and not (is_old and face.change in (CHANGED, "was here")):
            yield f"{face.name} at {height} {face.change}{came_from(face)}"
    if stand.mount.is_kept_free and stand.mark in (NEW, GONE, "moved", "was here"):
        yield f"units kept free for {stand.mount.what or 'later'} at {height} {stand.mark}"


def _pair_picture(
    sides: Sides, pair: _Pair, view: View, stands: list[tuple[Standing, ...]], scale: Scale, stem: str
) -> Picture:
    """Both in the width of a sheet, arrows between them."""
    known = pair.new or pair.old
    assert known is not None
    width, height = side_size(known, view.units, scale)
    lefts = (0.0, palette.SHEET_INNER - width)
    parts = [svg.text(0, 9, _title(pair, view.side), NAME_SIZE, is_bold=True)]
    states: set[str] = set()
    for (build, cabinet), left, shown, head in zip(
        _both(sides, pair), lefts, stands, ("Before", "After"), strict=True
    ):
        parts.append(_head(build, cabinet, head, left + 20.0, width - 40.0))
        if cabinet is None:
            continue
        seen = _within(view, cabinet)
        picture = side_picture(cabinet, seen, shown, scale, f"{stem}-{head.lower()}")
        moved = f"translate({svg.number(left)} {svg.number(_HEAD + height - picture.height)})"
        parts.append(svg.element("g", picture.markup, transform=moved))
        states |= picture.states
    parts.append(_arrows(sides, stands, view, width, lefts[1], scale))
    return Picture(
        "".join(parts),
        palette.SHEET_INNER,
        _HEAD + height,
        frozenset(),
        frozenset(states),
        _samples(view, stands),
    )


def _samples(view: View, stands: list[tuple[Standing, ...]]) -> tuple[tuple[str, float, str], ...]:
    marks = {
        mark
        for each in stands
        for stand in each
        if view.shows(stand)
        for mark in (stand.mark, *(face.change for face in _faces(stand)))
    }
    found = [state for state in SAMPLES if any(mark.startswith(_MARKS.get(state, state)) for mark in marks)]
    return tuple(dict.fromkeys(SAMPLES[state] for state in found))


def _within(view: View, cabinet: Cabinet) -> View:
    return view._replace(high=max(view.low, min(view.high, cabinet.units)))


def _head(build: Build, cabinet: Cabinet | None, head: str, left: float, room: float) -> str:
    wide = font.width(head, TEXT_SIZE, True) + 6
    if cabinet is None:
        said = "not there"
    else:
        known = build.rooms.get(cabinet.room)
        said = palette.BETWEEN.join(
            (cabinet.name, known.name if known else "room not known", cabinet.part.title)
        )
    return svg.text(left, 25, head, TEXT_SIZE, is_bold=True) + svg.text(
        left + wide, 25, said, SMALL_SIZE, colour=QUIET, room=room - wide
    )


def _arrows(
    sides: Sides,
    stands: list[tuple[Standing, ...]],
    view: View,
    width: float,
    right: float,
    scale: Scale,
) -> str:
    """From where a thing was to where it is, each in a lane of its own."""
    before = {_state(sides, each, True).new: each for each in stands[0] if _moved(each)}
    ends = [
        (mount_middle(view, before[key].mount, scale), mount_middle(view, each.mount, scale))
        for each in stands[1]
        if (key := _state(sides, each, False).new) in before
        and all(view.shows(stand) for stand in (before[key], each))
    ]
    if not ends:
        return ""
    start, stop = width, right
    step = max(_LANE_LEAST, min(_LANE_MOST, (right - width) / (len(ends) + 1)))
    middle = (width + right) / 2
    parts = []
    # What goes up turns first, from the highest on, and what goes down from the lowest on: so few cross.
    ends.sort(key=lambda each: (each[1] > each[0], each[0] if each[1] < each[0] else -each[0]))
    for place, (old, new) in enumerate(ends):
        lane = middle + (place - (len(ends) - 1) / 2) * step
        n = svg.number
        data = f"M{n(start)} {n(_HEAD + old)}H{n(lane)}V{n(_HEAD + new)}H{n(stop - 4)}"
        parts += [svg.path(data, MOVED_STROKE), arrow_head(stop, _HEAD + new)]
    return "".join(parts)


def _state(sides: Sides, stand: Standing, is_old: bool) -> State:
    id_ = stand.face.id if stand.face else kept_id(stand.mount)
    return sides.changes.in_old(id_) if is_old else sides.changes.in_new(id_)


def _moved(stand: Standing) -> bool:
    change = stand.face.change if stand.face else stand.mark
    return change == "was here"
