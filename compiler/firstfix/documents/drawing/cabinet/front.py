"""The front of a cabinet to scale: rails with their holes, unit numbers, and what stands in it."""

from firstfix.build.hardware import Cabinet
from firstfix.documents.drawing.cabinet.faces import Area, Scale, draw_face, hint, tint
from firstfix.documents.drawing.cabinet.shelf import draw_shelf
from firstfix.documents.drawing.cabinet.standing import Face, Standing
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import HAIR, INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE, Stroke
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.standards.cabinet import cabinet_dimensions

NUMBERS = 20.0
_FRAME = 5.0


def panel_width(cabinet: Cabinet) -> float:
    """Of what this cabinet takes between and on its rails, in millimetres."""
    dimensions = cabinet_dimensions()
    return (
        dimensions.half_panel_width if cabinet.part.rail_width == "half" else dimensions.panel_width
    ).value


def front_size(cabinet: Cabinet, scale: Scale) -> tuple[float, float]:
    """Width and height of the picture, in points."""
    high = scale.points(cabinet_dimensions().rack_unit.value) * cabinet.units
    return scale.points(panel_width(cabinet)) + 2 * (NUMBERS + _FRAME), high + 2 * _FRAME


def front_picture(cabinet: Cabinet, stands: tuple[Standing, ...], scale: Scale, pattern: str) -> Picture:
    """`pattern` is the id of the hatch for units kept free; the picture defines it."""
    width, height = front_size(cabinet, scale)
    unit = scale.points(cabinet_dimensions().rack_unit.value)
    opening = Area(NUMBERS + _FRAME, _FRAME, scale.points(panel_width(cabinet)), unit * cabinet.units)
    parts = [
        _hatch(pattern),
        svg.rect(NUMBERS, 0, width - 2 * NUMBERS, height, fill=PAPER, stroke=INK, weight=1.4),
        _rails(cabinet, opening, scale),
        _numbers(cabinet, opening, unit),
    ]
    for stand in stands:
        area = _area(cabinet, stand, opening, unit, scale)
        if area is not None:
            parts.append(_stand(stand, area, unit, _flange(cabinet, scale), pattern, scale))
    faces = [face for stand in stands for face in _faces(stand)]
    states = {square.state for face in faces for square in face.squares} | {tint(face) for face in faces}
    return Picture("".join(parts), width, height, frozenset(), frozenset(states))


def _faces(stand: Standing) -> tuple[Face, ...]:
    return (*stand.carried, *([stand.face] if stand.face else []))


def _flange(cabinet: Cabinet, scale: Scale) -> float:
    """How far a panel's ear lies on the rail: what text and jacks keep clear of."""
    dimensions = cabinet_dimensions()
    opening = dimensions.half_rail_opening if cabinet.part.rail_width == "half" else dimensions.rail_opening
    return scale.points((panel_width(cabinet) - opening.value) / 2)


def _hatch(pattern: str) -> str:
    strip = svg.path("M-1 7L7 -1M-1 13L13 -1M5 13L13 5", Stroke(palette.KEPT, 0.5))
    return svg.element(
        "defs",
        svg.element("pattern", strip, id=pattern, width=6, height=6, patternUnits="userSpaceOnUse"),
    )


def _rails(cabinet: Cabinet, opening: Area, scale: Scale) -> str:
    """Two strips with three holes to a unit, a hair between units."""
    dimensions = cabinet_dimensions()
    flange, unit = _flange(cabinet, scale), scale.points(dimensions.rack_unit.value)
    parts = []
    for x in (opening.x, opening.x + opening.width - flange):
        parts.append(
            svg.rect(
                x, opening.y, flange, opening.height, fill=palette.FIELD, stroke=HAIR, weight=palette.HAIRLINE
            )
        )
    parts += [
        svg.hair(opening.x, opening.y + row * unit, opening.x + opening.width, opening.y + row * unit)
        for row in range(1, cabinet.units)
    ]
    centres = dimensions.half_hole_centres if cabinet.part.rail_width == "half" else dimensions.hole_centres
    inset = scale.points((panel_width(cabinet) - centres.value) / 2)
    first, pitch = scale.points(dimensions.first_hole.value), scale.points(dimensions.hole_pitch.value)
    side = min(2.4, scale.points(dimensions.square_hole.value))
    holes = "".join(
        f"M{svg.number(x - side / 2)} {svg.number(opening.y + row * unit + first + hole * pitch - side / 2)}"
        f"h{svg.number(side)}v{svg.number(side)}h-{svg.number(side)}z"
        for x in (opening.x + inset, opening.x + opening.width - inset)
        for row in range(cabinet.units)
        for hole in range(round(dimensions.holes_per_unit.value))
    )
    return "".join(parts) + (svg.path(holes, Stroke(HAIR, 0.4)) if holes else "")


def _numbers(cabinet: Cabinet, opening: Area, unit: float) -> str:
    parts = []
    for number in range(1, cabinet.units + 1):
        base = opening.y + opening.height - (number - 0.5) * unit + SMALL_SIZE * 0.36
        parts.append(
            svg.text(opening.x - _FRAME - 4, base, str(number), SMALL_SIZE, colour=QUIET, anchor="end")
        )
        parts.append(
            svg.text(opening.x + opening.width + _FRAME + 4, base, str(number), SMALL_SIZE, colour=QUIET)
        )
    return "".join(parts)


def _area(cabinet: Cabinet, stand: Standing, opening: Area, unit: float, scale: Scale) -> Area | None:
    """Where a mount is drawn; None if it wants no unit that the cabinet has."""
    low, high = max(1, stand.mount.low), min(cabinet.units, stand.mount.high)
    if low > high:
        return None
    clearance = scale.points(cabinet_dimensions().panel_clearance.value)
    width = opening.width
    if stand.face and stand.face.part and stand.face.part.rack and stand.face.part.rack.width == "half":
        width = min(width, scale.points(cabinet_dimensions().half_panel_width.value))
    lane = width / stand.lanes
    top = opening.y + opening.height - high * unit + clearance / 2
    return Area(opening.x + stand.lane * lane, top, lane, (high - low + 1) * unit - clearance)


def _stand(stand: Standing, area: Area, unit: float, flange: float, pattern: str, scale: Scale) -> str:
    if stand.mount.is_kept_free or stand.face is None:
        return _kept_free(stand, area, pattern)
    inset = flange if stand.lanes == 1 else 2.0
    if (
        stand.face.part is not None
        and stand.face.part.kind == "shelf"
        and stand.mark not in ("clash", "rear")
    ):
        return draw_shelf(stand, stand.face, area, unit, inset, scale)
    plate = _plate(area, tint(stand.face), stand.mark)
    return svg.group(hint(stand.face, stand.mark), plate, draw_face(stand.face, area, inset, stand.mark))


def _plate(area: Area, tint: str, mark: str) -> str:
    colour, weight, dash = INK, palette.OUTLINE, ""
    if mark == "clash":
        colour, weight, dash = palette.ALARM, 2.0, palette.ALARM_DASH
    elif mark in ("rear", "behind"):
        dash = palette.ALARM_DASH
    return svg.rect(
        area.x, area.y, area.width, area.height, fill=tint, stroke=colour, weight=weight, dash=dash
    )


def _kept_free(stand: Standing, area: Area, pattern: str) -> str:
    what = f"kept free: {stand.mount.what}" if stand.mount.what else "kept free"
    words = font.clip(what, area.width - 24, TEXT_SIZE)
    wide = font.width(words, TEXT_SIZE) + 8
    middle, centre = area.y + area.height / 2, area.x + area.width / 2
    parts = [
        svg.rect(
            area.x, area.y, area.width, area.height, fill=f"url(#{pattern})", stroke=palette.KEPT, weight=0.8
        ),
        svg.rect(centre - wide / 2, middle - 5.4, wide, 10.8, fill=PAPER),
        svg.text(centre, middle + TEXT_SIZE * 0.36, words, TEXT_SIZE, colour=palette.KEPT, anchor="middle"),
    ]
    return svg.group(what, *parts)
