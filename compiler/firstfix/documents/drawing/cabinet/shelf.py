"""A shelf with what stands on it, each thing as wide and as tall as its part says it is.

Takes a shelf's standing, the area of its units and the scale; gives markup. A thing of unknown size is drawn as large as there is room.
"""

from typing import NamedTuple

from firstfix.documents.drawing.cabinet import jack_rows
from firstfix.documents.drawing.cabinet.faces import TALL, Area, Scale, draw_face, hint, tint
from firstfix.documents.drawing.cabinet.standing import BACK, Face, Standing
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.marks import NEW, PLUS_ROOM, change_stroke, in_short, is_struck, strike
from firstfix.documents.drawing.kit.palette import INK, QUIET, SMALL_SIZE, TEXT_SIZE, Stroke
from firstfix.parts.facts import Fact

_GAP = 3.0
# A thing lower than this, in points, has its name above it instead of inside.
_INSIDE_HEIGHT = 10.0
_ENDLESS = 10_000.0
_LABEL = TEXT_SIZE + 2.5


class _Extent(NamedTuple):
    """Of one thing, in points; None where its part does not say."""

    width: float | None
    height: float | None


def has_size(face: Face) -> bool:
    """Whether the thing can be drawn to scale."""
    return (
        face.part is not None
        and face.part.size is not None
        and all(isinstance(each, Fact) for each in (face.part.size.width, face.part.size.height))
    )


def draw_shelf(stand: Standing, shelf: Face, area: Area, unit: float, inset: float, scale: Scale) -> str:
    """A plate at the bottom of its units, and on it what it carries; `unit` and `inset` in points."""
    is_tall = area.height > 1.5 * unit or not stand.carried
    thick = min(area.height, max(10.0, 0.34 * unit)) if is_tall else max(2.0, 0.12 * unit)
    plate = Area(area.x, area.y + area.height - thick, area.width, thick)
    dash, fill = (palette.ALARM_DASH, palette.PAPER) if stand.mark == BACK else ("", palette.PASSIVE_BAND)
    mark = shelf.change or stand.mark
    line = change_stroke(shelf.change) or Stroke(INK, palette.OUTLINE, dash)
    parts = [svg.rect(*plate, fill=fill, stroke=line.colour, weight=line.weight, dash=line.dash)]
    if is_tall:
        words, room = hint(shelf, mark), plate.width - 2 * inset
        base = plate.y + thick / 2 + 2.5
        parts.append(svg.text(plate.x + inset, base, words, SMALL_SIZE, colour=QUIET, room=room))
    standing = Area(area.x + inset, area.y + 1.5, area.width - 2 * inset, area.height - thick - 1.5)
    # From behind, what stands at the left is seen at the right.
    carried = stand.carried[::-1] if shelf.is_back else stand.carried
    extents = [_extent(face, scale) for face in carried]
    for face, extent, lane in zip(carried, extents, _lanes(extents, standing), strict=True):
        parts.append(svg.group(hint(face, "on the shelf"), _thing(face, extent, lane)))
    return svg.group(hint(shelf, mark), *parts)


def _extent(face: Face, scale: Scale) -> _Extent:
    size = face.part.size if face.part is not None else None
    if size is None:
        return _Extent(None, None)
    width, height = (
        scale.points(each.typical * 1000) if isinstance(each, Fact) else None
        for each in (size.width, size.height)
    )
    return _Extent(width, height)


def _lanes(extents: list[_Extent], room: Area) -> list[Area]:
    """Side by side, as wide as each thing and its share of what is left; narrower than they are where they don't fit."""
    known = sum(each.width for each in extents if each.width is not None)
    unknown = sum(each.width is None for each in extents)
    # Things of unknown width get what an equal share would be, as far as the others leave it.
    free = room.width - known
    share = max(0.0, min(room.width / len(extents), free / unknown)) if unknown else 0.0
    wanted = [share if each.width is None else each.width for each in extents]
    over = room.width - sum(wanted)
    wide = [each * room.width / sum(wanted) if over < 0 else each + over / len(extents) for each in wanted]
    lanes, left = [], room.x
    for each in wide:
        lanes.append(Area(left, room.y, each, room.height))
        left += each
    return lanes


def _thing(face: Face, extent: _Extent, lane: Area) -> str:
    """At the left of its lane (as seen from the front), on the plate; what is too small for its name has that above it."""
    most = lane.width - _GAP
    width = most if extent.width is None else min(extent.width, most)
    height = lane.height if extent.height is None else min(extent.height, lane.height)
    left = lane.x + (lane.width - _GAP / 2 - width if face.is_back else _GAP / 2)
    box = Area(left, lane.y + lane.height - height, width, height)
    line = change_stroke(face.change) or Stroke(INK, 0.7)
    outline = svg.rect(
        *box,
        fill=tint(face),
        stroke=line.colour,
        weight=line.weight,
        dash=line.dash,
        radius=min(2.0, height / 4),
    )
    is_inside = height >= _INSIDE_HEIGHT and width >= min(most, _needed_inside(face, height))
    if is_inside or lane.height - height < _LABEL:
        return outline + (draw_face(face, box, 3.0, face.change) if height >= 8 else "")
    return outline + _label(face, box, most) + _jacks(face, box)


def _label(face: Face, box: Area, room: float) -> str:
    """Above a thing that has no room for its name, with what becomes of it."""
    base = box.y - 2.5
    change = f"({face.change})" if face.change else ""
    if font.width(font.clean(face.name), TEXT_SIZE, True) + font.width(change, SMALL_SIZE) + _GAP > room:
        change = f"({in_short(face.change)})" if face.change else ""
    if face.change.startswith(NEW):
        change = f"+ {change}"
    more = font.width(change, SMALL_SIZE) + _GAP if change else 0.0
    name = font.clip(face.name, room - more, TEXT_SIZE, True)
    right, anchor = (box.x + box.width, "end") if face.is_back else (box.x, "")
    start = right - more if anchor else right
    wide = font.width(name, TEXT_SIZE, True)
    left = start - wide if anchor else start
    parts = [svg.text(start, base, name, TEXT_SIZE, is_bold=True, anchor=anchor)]
    if is_struck(face.change) and name:
        parts.append(strike(left, base, wide, TEXT_SIZE))
    parts.append(svg.text(left + wide + _GAP, base, change, SMALL_SIZE, colour=QUIET))
    return "".join(parts)


def _needed_inside(face: Face, height: float) -> float:
    """How wide it must be for its name, and in a low one its jacks beside that."""
    jacks = (
        jack_rows.fit(face.squares, _ENDLESS, height - 3).size[0] if face.squares and height < TALL else 0.0
    )
    change = font.width(in_short(face.change), SMALL_SIZE) + 12 + PLUS_ROOM if face.change else 0.0
    return font.width(font.clean(face.name), TEXT_SIZE, True) + jacks + change + 16


def _jacks(face: Face, box: Area) -> str:
    if not face.squares or box.width < 6 or box.height < 6:
        return ""
    rows = jack_rows.fit(face.squares, box.width - 4, box.height - 3)
    wide, high = rows.size
    x, y = box.x + max(2.0, (box.width - wide) / 2), box.y + (box.height - high) / 2
    return jack_rows.draw(rows, x, y, face.colours, face.is_back)
