"""Each label as it is printed: how large it is at least, and what stands on it in a given room.

A plate and a jack's label are one face. A flag wraps round the cable, and its two ends are stuck back to back: one face says both ends of the
cable, the nearer one first, the other bears the code. Measures are the library part's; where that has none, the writing's own need.
"""

from collections.abc import Callable, Mapping
from math import pi
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import svg
from firstfix.documents.drawing.kit.palette import HAIR, INK, Stroke
from firstfix.documents.labels.code import Code, code
from firstfix.documents.labels.grids import POINTS_PER_MM
from firstfix.documents.labels.lettering import Words, drawn, fits, fitted
from firstfix.graphs.labels import On, PhysicalLabel
from firstfix.parts.facts import Fact

# Millimetres of white inside an edge, so that a cut that is off by a little cuts no letter: common practice, no source.
_PAD = 1.0
# Round a cable whose diameter nobody said: a thick one of four pairs; common practice, no source.
_USUAL_DIAMETER = 8.0
# Where the library's part has no size: room for two short identifiers in the smallest letters.
_USUAL_FACE: Mapping[On, tuple[float, float]] = {
    On.THING: (50.0, 20.0), On.CABLE: (25.0, 13.0), On.JACK: (15.0, 9.0), On.CABLE_OUTDOORS: (60.0, 15.0),
}  # fmt: skip
_FOLD = Stroke(HAIR, 0.4, "1.5 1.5")
_LONGEST_CODE = 200
# Millimetres. What is wider still is squeezed; a flag fits between the margins of both papers.
_WIDEST, _MOST, _STEP = 80.0, 188.0, 1.0


class Form(NamedTuple):
    """Millimetres: `width` and `height` of the whole label at least, `wrap` of it round the cable. `qr`: its code, None where it has none."""

    label: PhysicalLabel
    width: float
    height: float
    wrap: float
    qr: Code | None


def form_of(build: Build, label: PhysicalLabel) -> Form:
    """The label in its own size, or wider where its identifier needs that. A code too large for its face is left out."""
    part = build.library.get(label.part)
    size = None if part is None else part.size
    wide, high = _USUAL_FACE[label.on]
    if size is not None and isinstance(size.width, Fact) and isinstance(size.height, Fact):
        wide, high = size.width.typical * 1000, size.height.typical * 1000
    made = _code_of(label)
    module = made.module_for(high) if made else 0.0
    beside = made.side(module) if made and label.on is On.THING else 0.0
    wrap = round(min(pi * _diameter(label), _MOST - 2 * wide), 1) if label.on is On.CABLE else 0.0
    widest = (_MOST - wrap) / 2 if label.on is On.CABLE else _WIDEST
    wide = _wide_enough(_needed(label), wide, high, beside, widest)
    whole = 2 * wide + wrap if label.on is On.CABLE else wide
    return Form(label, round(whole, 1), high, wrap, made if module else None)


def _wide_enough(words: tuple[Words, ...], wide: float, high: float, beside: float, widest: float) -> float:
    """The width from which on nothing of an identifier is broken within a part; `beside` of it is taken by the code."""
    while wide + _STEP <= widest and not fits(words, _points(wide - beside - 2 * _PAD), _points(high - _PAD)):
        wide += _STEP
    return wide


def _needed(label: PhysicalLabel) -> tuple[Words, ...]:
    """What must be on it whole."""
    return _both_ends(label) if label.on in (On.CABLE, On.CABLE_OUTDOORS) else (Words(label.near, True),)


def _points(millimetres: float) -> float:
    return millimetres * POINTS_PER_MM


def _diameter(label: PhysicalLabel) -> float:
    return label.diameter.high * 1000 if isinstance(label.diameter, Fact) else _USUAL_DIAMETER


def _code_of(label: PhysicalLabel) -> Code | None:
    return code(label.code) if 0 < len(label.code) <= _LONGEST_CODE else None


class Room(NamedTuple):
    """Millimetres, from the corner of the label."""

    x: float
    y: float
    width: float
    height: float


def draw(form: Form, width: float, height: float) -> str:
    """The markup of a label that fills `width` by `height` millimetres from (0, 0), in points."""
    return _DRAW[form.label.on](form, width, height)


def _plate(form: Form, width: float, height: float) -> str:
    label = form.label
    side = _code_side(form, min(height, width / 2))
    units = f"unit{'s' * ('-' in label.units)} {label.units}" if label.units else ""
    inside = ", ".join(filter(None, (label.cabinet, units)))
    where = (Words(each, False, 7.0) for each in (label.room, inside))
    text = _written(
        (Words(label.near, True), Words(label.name, False, 9.0), *where), Room(0, 0, width - side, height)
    )
    return text + _code(form, Room(width - side, (height - side) / 2, side, side))


def _flag(form: Form, width: float, height: float) -> str:
    """The words on the one face; on the other the code, or the words again where there is none."""
    face = (width - form.wrap) / 2
    side = _code_side(form, min(face, height))
    back = width - face
    words = _both_ends(form.label)
    middle = Room(back + (face - side) / 2, (height - side) / 2, side, side)
    return "".join(
        (
            _written(words, Room(0, 0, face, height), must=2),
            _fold(face, height),
            _fold(back, height),
            _code(form, middle) if side else _written(words, Room(back, 0, face, height), must=2),
        )
    )


def _jack(form: Form, width: float, height: float) -> str:
    label = form.label
    return _written(
        (Words(label.near, True, 10.0), Words(label.far, False, 8.0)),
        Room(0, 0, width, height),
        anchor="middle",
    )


def _tag(form: Form, width: float, height: float) -> str:
    return _written(_both_ends(form.label), Room(0, 0, width, height), anchor="middle", must=2)


_DRAW: Mapping[On, Callable[[Form, float, float], str]] = {
    On.THING: _plate, On.CABLE: _flag, On.JACK: _jack, On.CABLE_OUTDOORS: _tag,
}  # fmt: skip


def _both_ends(label: PhysicalLabel) -> tuple[Words, ...]:
    return Words(label.near, True, 11.0), Words(label.far, False, 9.0)


def _written(words: tuple[Words, ...], room: Room, anchor: str = "", must: int = 1) -> str:
    wide, high = _points(room.width - 2 * _PAD), _points(room.height - _PAD)
    if wide <= 0:
        return ""
    x = _points(room.x + (room.width / 2 if anchor else _PAD))
    return drawn(fitted(words, wide, high, must), x, _points(room.y + _PAD / 2), high, anchor)


def _code_side(form: Form, room: float) -> float:
    return 0.0 if form.qr is None else form.qr.side(form.qr.module_for(room))


def _code(form: Form, room: Room) -> str:
    made = form.qr
    if made is None or not room.width:
        return ""
    module = made.module_for(room.width)
    white = (made.side(module) - made.modules * module) / 2
    x, y = _points(room.x + white), _points(room.y + white)
    return svg.element(
        "path",
        d=made.path,
        fill=INK,
        transform=f"translate({x:.3f} {y:.3f}) scale({_points(module):.4f})",
    )


def _fold(x: float, height: float) -> str:
    return svg.line(_points(x), 0, _points(x), _points(height), _FOLD)
