"""The list beside a cabinet's front: what stands at which height, how deep and how heavy it is."""

from typing import NamedTuple

from firstfix.build.hardware import Cabinet
from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet.front import View
from firstfix.documents.drawing.cabinet.shelf import has_size
from firstfix.documents.drawing.cabinet.standing import Face, Standing, empty_units, wired_words
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import HAIR, INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.where import labelled
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import kilograms, millimetres

_HEAD = 16.0
_LOW, _HIGH = 13.0, 23.0
_UNITS, _DEPTH, _WEIGHT = 36.0, 78.0, 38.0
_NOT_KNOWN = "not known"
ON_IT = "on it"
_SHELF_NOTE = "On a shelf, what has no known size is drawn as large as there is room."


class Line(NamedTuple):
    """One line of the list, in words. `depth` is None where depth says nothing (empty, kept free). `has_size`: of what a shelf
    carries, whether it is drawn to scale. `title`: what it is, for who can't see the drawing, where `under` doesn't say it."""

    units: str
    name: str
    under: str
    depth: Figure | None
    weight: str
    is_thing: bool
    has_size: bool = True
    title: str = ""


def lines(
    build: Build, cabinet: Cabinet, stands: tuple[Standing, ...], view: View | None = None
) -> tuple[Line, ...]:
    """Of what is in view, from the top down; what a shelf carries comes below it."""
    view = view or View(1, cabinet.units)
    found: list[tuple[int, Line]] = []
    for stand in filter(view.shows, stands):
        height = height_words(stand.mount.low, stand.mount.high)
        if stand.face is None or stand.mount.is_kept_free:
            found.append((stand.mount.high, Line(height, "kept free", stand.mount.what, None, "", False)))
            continue
        found.append((stand.mount.high, _line(build, height, stand.face, stand.mark)))
        found += [
            (stand.mount.high, _line(build, ON_IT, face, "")._replace(has_size=has_size(face)))
            for face in stand.carried
        ]
    found += [
        (
            min(high, view.high),
            Line(height_words(max(low, view.low), min(high, view.high)), "empty", "", None, "", False),
        )
        for low, high in empty_units(build, cabinet)
        if low <= view.high and high >= view.low
    ]
    return tuple(line for _, line in sorted(found, key=lambda each: -each[0]))


def height_words(low: int, high: int) -> str:
    return f"U{low}" if low == high else f"U{low}–{high}"


def _line(build: Build, height: str, face: Face, mark: str) -> Line:
    under = (
        "; ".join(filter(None, (mark, labelled(build, face.id), wired_words(face), _air(face)))) or face.title
    )
    depth = face.part.rack.depth if face.part and face.part.rack else Unknown(_NOT_KNOWN)
    weight = face.part.weight if face.part else Unknown(_NOT_KNOWN)
    title = "" if under == face.title else face.title
    return Line(height, face.name, under, depth, _weight(weight), True, title=title)


def _air(face: Face) -> str:
    """What clear air a thing asks for, which is why the unit beside it may be empty."""
    if face.part is None:
        return ""
    cooling = face.part.cooling
    if cooling is None:
        return ""
    sides = (("above", cooling.above), ("below", cooling.below))
    asked = [
        f"{millimetres(each.high)} {side}" for side, each in sides if isinstance(each, Fact) and each.high > 0
    ]
    return f"asks for air: {', '.join(asked)}" if asked else ""


def _weight(figure: Figure) -> str:
    return kilograms(round(figure.high, 1)) if isinstance(figure, Fact) else "? kg"


def in_words(found: tuple[Line, ...]) -> str:
    """The elevation for who can't see it, from the top down."""
    return "; ".join(
        ", ".join(filter(None, (each.units, each.name, each.title, each.under, each.weight)))
        for each in found
    )


def schedule_picture(found: tuple[Line, ...], usable: Figure, width: float, tallest: float) -> Picture:
    """`width` wide; with a second line for each thing if that is no taller than `tallest` points, else without."""
    is_full = _HEAD + sum(_height(line, True) for line in found) <= tallest
    parts = [_heads(width)]
    top = _HEAD
    for line in found:
        height = _height(line, is_full)
        parts += [svg.hair(0, top, width, top), _draw(line, usable, top, width, is_full)]
        top += height
    parts.append(svg.hair(0, top, width, top))
    if any(line.units == ON_IT and not line.has_size for line in found):
        parts.append(svg.text(0, top + 11, _SHELF_NOTE, SMALL_SIZE, colour=QUIET, room=width))
        top += 14
    return Picture("".join(parts), width, top)


def _height(line: Line, is_full: bool) -> float:
    return _HIGH if is_full and line.is_thing else _LOW


def _heads(width: float) -> str:
    def head(x: float, words: str, anchor: str = "") -> str:
        return svg.text(x, 10, words, SMALL_SIZE, is_bold=True, colour=QUIET, anchor=anchor)

    depth_x = width - _WEIGHT - _DEPTH
    return (
        head(0, "Height")
        + head(_UNITS, "What")
        + head(depth_x, "Depth of usable")
        + head(width, "Weight", "end")
    )


def _draw(line: Line, usable: Figure, top: float, width: float, is_full: bool) -> str:
    base = top + 9.6
    room = width - _WEIGHT - _DEPTH - _UNITS - 8
    colour = INK if line.is_thing else QUIET
    parts = [
        svg.text(0, base, line.units, TEXT_SIZE, colour=colour, room=_UNITS - 4),
        svg.text(width, base, line.weight, TEXT_SIZE, anchor="end", room=_WEIGHT - 4),
    ]
    if not line.is_thing:
        words = f"{line.name}: {line.under}" if line.under else line.name
        parts.append(svg.text(_UNITS, base, words, TEXT_SIZE, colour=colour, room=width - _UNITS))
        return "".join(parts)
    if is_full and not line.under:
        for number, words in enumerate(font.wrap(line.name, room * 0.84, TEXT_SIZE, 2)):
            parts.append(svg.text(_UNITS, base + 9.6 * number, words, TEXT_SIZE, is_bold=True, room=room))
    else:
        parts.append(_what(line, base, room, is_full))
    if line.depth is not None:
        parts.append(_depth(line.depth, usable, width - _WEIGHT - _DEPTH, top, is_full))
    if is_full:
        parts.append(svg.text(_UNITS, base + 9.6, line.under, SMALL_SIZE, colour=QUIET, room=room))
    return svg.group(", ".join(filter(None, (line.units, line.name, line.under))), *parts)


def _what(line: Line, base: float, room: float, is_full: bool) -> str:
    name = font.clip(line.name, room, TEXT_SIZE, True)
    after = _UNITS + font.width(name, TEXT_SIZE, True) + 5
    left = room - (after - _UNITS)
    rest = "" if is_full or left < 24 else line.under
    return svg.text(_UNITS, base, name, TEXT_SIZE, is_bold=True) + svg.text(
        after, base, rest, SMALL_SIZE, colour=QUIET, room=left
    )


def _depth(depth: Figure, usable: Figure, x: float, top: float, is_full: bool) -> str:
    """In words, and below it as a bar whose whole length is the usable depth."""
    of = millimetres(usable.low) if isinstance(usable, Fact) else "? mm"
    used = millimetres(depth.high).removesuffix(" mm") if isinstance(depth, Fact) else "?"
    words = svg.text(x, top + 9.6, f"{used} of {of}", TEXT_SIZE, room=_DEPTH - 4)
    if not is_full or not isinstance(depth, Fact) or not isinstance(usable, Fact) or usable.low <= 0:
        return words
    long = _DEPTH - 12
    share = depth.high / usable.low
    fill = palette.ALARM if share > 1 else HAIR
    bar = svg.rect(x, top + 14, long, 4.5, fill=PAPER, stroke=HAIR, weight=0.5) + svg.rect(
        x, top + 14, max(0.5, long * min(1.0, share)), 4.5, fill=fill
    )
    return (
        words
        + bar
        + (
            ""
            if share <= 1
            else svg.text(x + long + 2, top + 19, "!", TEXT_SIZE, is_bold=True, colour=palette.ALARM)
        )
    )
