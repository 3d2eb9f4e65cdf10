"""A tall cabinet in stretches of units, one a sheet: cut between things, never through one, and drawn at the same scale."""

from firstfix.build.hardware import Cabinet
from firstfix.documents.drawing.cabinet import jack_rows
from firstfix.documents.drawing.cabinet.faces import Scale
from firstfix.documents.drawing.cabinet.front import View, panel_width, side_size
from firstfix.documents.drawing.cabinet.standing import Standing
from firstfix.standards.cabinet import cabinet_dimensions

# A narrow cabinet is drawn larger, or its things would have no room for their names; a ruler copes with all three.
USUAL, NARROW, SMALLER = Scale(4), Scale(3), Scale(5)
_EARS_AND_PAD = 40.0


def scale_for(cabinet: Cabinet, stands: tuple[Standing, ...], room: float) -> Scale:
    """`room`: how high a picture may be, in points. Slightly smaller where that saves a sheet and no jack loses its number."""
    usual = NARROW if cabinet.part.rail_width == "half" else USUAL
    if _most(cabinet, usual, room) >= cabinet.units:
        return usual
    smaller = USUAL if usual is NARROW else SMALLER
    if _most(cabinet, smaller, room) >= cabinet.units and _names_fit(cabinet, stands, smaller):
        return smaller
    return usual


def _most(cabinet: Cabinet, scale: Scale, room: float) -> int:
    """How many units fit."""
    none, one = side_size(cabinet, 0, scale)[1], side_size(cabinet, 1, scale)[1]
    return max(1, int((room - none) / (one - none)))


def _names_fit(cabinet: Cabinet, stands: tuple[Standing, ...], scale: Scale) -> bool:
    unit = scale.points(cabinet_dimensions().rack_unit.value)
    wide = scale.points(panel_width(cabinet)) - _EARS_AND_PAD
    return all(
        jack_rows.fit(stand.face.squares, wide / stand.lanes * 0.8, unit - 4).names_fit
        for stand in stands
        if stand.face and stand.face.squares
    )


def stretches(
    cabinet: Cabinet, stands: tuple[Standing, ...], scale: Scale, room: float, side: str
) -> tuple[View, ...]:
    """From the top down, as level as what stands there lets them be."""
    most = _most(cabinet, scale, room)
    count = -(-cabinet.units // most)
    found: list[View] = []
    high = cabinet.units
    while high:
        left = max(1, count - len(found))
        aim = min(most, -(-high // left))
        low = _cut(stands, high, aim, most)
        found.append(View(low, high, side))
        high = low - 1
    return tuple(found)


def _cut(stands: tuple[Standing, ...], high: int, aim: int, most: int) -> int:
    """The lowest unit of a stretch from `high` down: near to `aim` units, and where nothing stands on both sides of the cut."""
    sizes = sorted(range(1, min(most, high) + 1), key=lambda size: (abs(size - aim), size))
    for size in sizes:
        low = high - size + 1
        if low == 1 or not any(stand.mount.low < low <= stand.mount.high for stand in stands):
            return low
    return max(1, high - aim + 1)
