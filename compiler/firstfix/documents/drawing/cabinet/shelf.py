"""A shelf with what stands on it, each thing as wide and as tall as its part says it is.

Takes a shelf's standing, the area of its units and the scale; gives markup. A thing of unknown size is drawn as large as there is room.
"""

from typing import NamedTuple

from firstfix.documents.drawing.cabinet.faces import TALL, Area, Scale, draw_face, hint, tint
from firstfix.documents.drawing.cabinet.standing import Face, Standing
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import INK, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.squares import arrange, draw_rows
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
    parts = [svg.rect(*plate, fill=palette.PASSIVE_BAND, stroke=INK, weight=palette.OUTLINE)]
    if is_tall:
        words, room = hint(shelf, stand.mark), plate.width - 2 * inset
        base = plate.y + thick / 2 + 2.5
        parts.append(svg.text(plate.x + inset, base, words, SMALL_SIZE, colour=QUIET, room=room))
    standing = Area(area.x + inset, area.y + 1.5, area.width - 2 * inset, area.height - thick - 1.5)
    extents = [_extent(face, scale) for face in stand.carried]
    for face, extent, lane in zip(stand.carried, extents, _lanes(extents, standing), strict=True):
        parts.append(svg.group(hint(face, "on the shelf"), _thing(face, extent, lane)))
    return svg.group(hint(shelf, stand.mark), *parts)


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
    """At the left of its lane, on the plate; what is too small for its name has that above it."""
    most = lane.width - _GAP
    width = most if extent.width is None else min(extent.width, most)
    height = lane.height if extent.height is None else min(extent.height, lane.height)
    box = Area(lane.x + _GAP / 2, lane.y + lane.height - height, width, height)
    outline = svg.rect(*box, fill=tint(face), stroke=INK, weight=0.7, radius=min(2.0, height / 4))
    is_inside = height >= _INSIDE_HEIGHT and width >= min(most, _needed_inside(face, height))
    if is_inside or lane.height - height < _LABEL:
        return outline + (draw_face(face, box, 3.0, "") if height >= 8 else "")
    label = svg.text(box.x, box.y - 2.5, face.name, TEXT_SIZE, is_bold=True, room=most)
    return outline + label + _jacks(face, box)


def _needed_inside(face: Face, height: float) -> float:
    """How wide it must be for its name, and in a low one its jacks beside that."""
    jacks = arrange(face.squares, _ENDLESS, height - 3).size[0] if face.squares and height < TALL else 0.0
    return font.width(font.clean(face.name), TEXT_SIZE, True) + jacks + 16


def _jacks(face: Face, box: Area) -> str:
    if not face.squares or box.width < 6 or box.height < 6:
        return ""
    rows = arrange(face.squares, box.width - 4, box.height - 3)
    wide, high = rows.size
    return draw_rows(rows, box.x + max(2.0, (box.width - wide) / 2), box.y + (box.height - high) / 2)
