"""One side of a cabinet to scale, whole or some of its units: rails with their holes, unit numbers, and what stands in it."""

from typing import NamedTuple

from firstfix.build.hardware import Cabinet, Mount
from firstfix.documents.drawing.cabinet.faces import Area, Scale, draw_face, hint, tint
from firstfix.documents.drawing.cabinet.shelf import draw_shelf
from firstfix.documents.drawing.cabinet.standing import BACK, CLASH, FRONT, REAR, Face, Standing
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.marks import change_stroke, is_struck, strike
from firstfix.documents.drawing.kit.palette import HAIR, INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE, Stroke
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.standards.cabinet import cabinet_dimensions

NUMBERS = 20.0
_FRAME = 5.0


class View(NamedTuple):
    """Units `low` to `high`, both included, as seen from `side`."""

    low: int
    high: int
    side: str = FRONT

    @property
    def units(self) -> int:
        return self.high - self.low + 1

    def shows(self, stand: Standing) -> bool:
        """Whether any of its units is in view; what is out of the cabinet's height counts to its highest or lowest unit."""
        return stand.mount.low <= self.high and stand.mount.high >= self.low


def panel_width(cabinet: Cabinet) -> float:
    """Of what this cabinet takes between and on its rails, in millimetres."""
    dimensions = cabinet_dimensions()
    return (
        dimensions.half_panel_width if cabinet.part.rail_width == "half" else dimensions.panel_width
    ).value


def side_size(cabinet: Cabinet, units: int, scale: Scale) -> tuple[float, float]:
    """Width and height of the picture of so many units, in points."""
    high = scale.points(cabinet_dimensions().rack_unit.value) * units
    return scale.points(panel_width(cabinet)) + 2 * (NUMBERS + _FRAME), high + 2 * _FRAME


def side_picture(
    cabinet: Cabinet, view: View, stands: tuple[Standing, ...], scale: Scale, pattern: str
) -> Picture:
    """`pattern` is the id of the hatch for units kept free; the picture defines it."""
    width, height = side_size(cabinet, view.units, scale)
    unit = scale.points(cabinet_dimensions().rack_unit.value)
    opening = Area(NUMBERS + _FRAME, _FRAME, scale.points(panel_width(cabinet)), unit * view.units)
    shown = [stand for stand in stands if view.shows(stand)]
    parts = [
        _hatch(pattern) if any(stand.mount.is_kept_free or stand.face is None for stand in shown) else "",
        _frame(cabinet, view, width, height),
        _rails(cabinet, view, opening, scale),
        _numbers(view, opening, unit),
    ]
    for stand in shown:
        if stand.is_seen:
            area = _area(view, stand, opening, unit, scale)
            parts.append(_stand(stand, area, unit, _flange(cabinet, scale), pattern, scale))
    faces = [face for stand in shown if stand.is_seen for face in _faces(stand)]
    states = {square.state for face in faces for square in face.squares}
    states |= {tint(face) for stand in shown if stand.is_seen for face in _tinted(stand)}
    return Picture("".join(parts), width, height, frozenset(), frozenset(states))


def _frame(cabinet: Cabinet, view: View, width: float, height: float) -> str:
    """The cabinet's own outline; open at an end where it goes on, on another sheet."""
    left, right = NUMBERS, width - NUMBERS
    stroke = Stroke(INK, 1.4)
    parts = [
        svg.rect(left, 0, right - left, height, fill=PAPER),
        svg.line(left, 0, left, height, stroke),
        svg.line(right, 0, right, height, stroke),
    ]
    for is_end, y in ((view.high == cabinet.units, 0.0), (view.low == 1, height)):
        if is_end:
            parts.append(svg.line(left - 0.7, y, right + 0.7, y, stroke))
        else:
            parts.append(_torn(left, right, y))
    return "".join(parts)


def _torn(left: float, right: float, y: float) -> str:
    """A break line: the cabinet goes on."""
    count = 24
    step = (right - left) / count
    points = [
        f"{svg.number(left + index * step)} {svg.number(y + (-2.2 if index % 2 else 2.2))}"
        for index in range(1, count)
    ]
    data = f"M{svg.number(left)} {svg.number(y)}L{' '.join(points)} {svg.number(right)} {svg.number(y)}"
    return svg.path(data, Stroke(INK, 0.8))


def _faces(stand: Standing) -> tuple[Face, ...]:
    return (*stand.carried, *([stand.face] if stand.face else []))


def _tinted(stand: Standing) -> tuple[Face, ...]:
    """The back of a thing has no tint; what stands on a shelf has."""
    return stand.carried if stand.mark in (BACK, REAR) else _faces(stand)


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


def _rails(cabinet: Cabinet, view: View, opening: Area, scale: Scale) -> str:
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
        for row in range(1, view.units)
    ]
    centres = dimensions.half_hole_centres if cabinet.part.rail_width == "half" else dimensions.hole_centres
    inset = scale.points((panel_width(cabinet) - centres.value) / 2)
    first, pitch = scale.points(dimensions.first_hole.value), scale.points(dimensions.hole_pitch.value)
    side = min(2.4, scale.points(dimensions.square_hole.value))
    holes = "".join(
        f"M{svg.number(x - side / 2)} {svg.number(opening.y + row * unit + first + hole * pitch - side / 2)}"
        f"h{svg.number(side)}v{svg.number(side)}h-{svg.number(side)}z"
        for x in (opening.x + inset, opening.x + opening.width - inset)
        for row in range(view.units)
        for hole in range(round(dimensions.holes_per_unit.value))
    )
    return "".join(parts) + (svg.path(holes, Stroke(HAIR, 0.4)) if holes else "")


def _numbers(view: View, opening: Area, unit: float) -> str:
    parts = []
    for row, number in enumerate(range(view.high, view.low - 1, -1)):
        base = opening.y + (row + 0.5) * unit + SMALL_SIZE * 0.36
        parts.append(
            svg.text(opening.x - _FRAME - 4, base, str(number), SMALL_SIZE, colour=QUIET, anchor="end")
        )
        parts.append(
            svg.text(opening.x + opening.width + _FRAME + 4, base, str(number), SMALL_SIZE, colour=QUIET)
        )
    return "".join(parts)


def _area(view: View, stand: Standing, opening: Area, unit: float, scale: Scale) -> Area:
    """Where a mount is drawn, as far as it is in view."""
    low, high = max(view.low, stand.mount.low), min(view.high, stand.mount.high)
    clearance = scale.points(cabinet_dimensions().panel_clearance.value)
    width = opening.width
    if not stand.mount.side and _is_half(stand):
        width = min(width, scale.points(cabinet_dimensions().half_panel_width.value))
    lane = width / stand.lanes
    # One of half the width that nobody gave a side stands at the left, and so at the right as seen from behind.
    start = opening.x + (opening.width - width if view.side == REAR != stand.mount.face else 0.0)
    top = opening.y + (view.high - high) * unit + clearance / 2
    return Area(start + stand.lane * lane, top, lane, (high - low + 1) * unit - clearance)


def mount_middle(view: View, mount: Mount, scale: Scale) -> float:
    """How far below the top of the picture the middle of a mount is, as far as it is in view."""
    low, high = max(view.low, mount.low), min(view.high, mount.high)
    unit = scale.points(cabinet_dimensions().rack_unit.value)
    return _FRAME + (view.high + 0.5 - (low + high) / 2) * unit


def _is_half(stand: Standing) -> bool:
    part = stand.face.part if stand.face else None
    return part is not None and part.rack is not None and part.rack.width == "half"


def _stand(stand: Standing, area: Area, unit: float, flange: float, pattern: str, scale: Scale) -> str:
    if stand.mount.is_kept_free or stand.face is None:
        return _kept_free(stand, area, pattern)
    inset = flange if stand.lanes == 1 else 3.0
    if stand.face.part is not None and stand.face.part.kind == "shelf" and stand.mark not in (CLASH, REAR):
        return draw_shelf(stand, stand.face, area, unit, inset, scale)
    mark = stand.face.change or stand.mark
    plate = _plate(area, PAPER if stand.mark in (BACK, REAR) else tint(stand.face), mark)
    return svg.group(hint(stand.face, mark), plate, draw_face(stand.face, area, inset, mark))


def _plate(area: Area, tint: str, mark: str) -> str:
    colour, weight, dash = INK, palette.OUTLINE, ""
    change = change_stroke(mark)
    if change:
        colour, weight, dash = change.colour, change.weight, change.dash
    elif mark == CLASH:
        colour, weight, dash = palette.ALARM, 2.0, palette.ALARM_DASH
    elif mark in (REAR, BACK, "behind"):
        dash = palette.ALARM_DASH
    return svg.rect(
        area.x, area.y, area.width, area.height, fill=tint, stroke=colour, weight=weight, dash=dash
    )


def _kept_free(stand: Standing, area: Area, pattern: str) -> str:
    what = f"kept free: {stand.mount.what}" if stand.mount.what else "kept free"
    change = change_stroke(stand.mark)
    after = f" ({stand.mark})" if change else ""
    words = font.clip(what, area.width - 24 - font.width(after, TEXT_SIZE), TEXT_SIZE) + after
    wide = font.width(words, TEXT_SIZE) + 8
    middle, centre = area.y + area.height / 2, area.x + area.width / 2
    parts = [
        svg.rect(
            area.x, area.y, area.width, area.height, fill=f"url(#{pattern})", stroke=change.colour if change else palette.KEPT,
            weight=change.weight if change else 0.8, dash=change.dash if change else "",
        ),
        svg.rect(centre - wide / 2, middle - 5.4, wide, 10.8, fill=PAPER),
        svg.text(centre, middle + TEXT_SIZE * 0.36, words, TEXT_SIZE, colour=palette.KEPT, anchor="middle"),
    ]  # fmt: skip
    if is_struck(stand.mark):
        struck = font.width(words.removesuffix(after), TEXT_SIZE)
        parts.append(strike(centre - wide / 2 + 4, middle + TEXT_SIZE * 0.36, struck, TEXT_SIZE))
    return svg.group(what + after, *parts)
