"""One thing as it looks from one side: its name and title, and its jacks, in whatever room there is."""

from typing import NamedTuple

from firstfix.documents.drawing.cabinet import jack_rows
from firstfix.documents.drawing.cabinet.standing import Face
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.marks import NEW, PLUS_ROOM, in_short, is_struck, plus, strike
from firstfix.documents.drawing.kit.palette import PAPER, QUIET, SMALL_SIZE, TEXT_SIZE

_PAD = 4.0
_POINTS_PER_MM = 72 / 25.4
# From this height on, in points, a face has its jacks below its name instead of beside it.
TALL = 26.0


class Scale(NamedTuple):
    """One to `denominator` on paper."""

    denominator: float

    def points(self, millimetres: float) -> float:
        return millimetres * _POINTS_PER_MM / self.denominator

    @property
    def words(self) -> str:
        return f"1 : {svg.number(self.denominator)}"


class Area(NamedTuple):
    x: float
    y: float
    width: float
    height: float


def tint(face: Face) -> str:
    """A cover panel has none: there is nothing in it."""
    if face.is_active:
        return palette.BAND
    return PAPER if face.part is not None and face.part.kind == "cover-panel" else palette.PASSIVE_BAND


def hint(face: Face, mark: str) -> str:
    return ", ".join(filter(None, (face.name, face.title, mark)))


def draw_face(face: Face, area: Area, inset: float, mark: str) -> str:
    """Name, title and jacks, in as many lines as there is height for."""
    left, room = area.x + inset + _PAD / 2, area.width - 2 * inset - _PAD
    if area.height >= TALL:
        return _tall_face(face, area, left, room, mark)
    base = area.y + area.height / 2 + TEXT_SIZE * 0.36
    if not face.squares or area.height < 8:
        return _words(face, mark, left, base, room)
    name = font.width(font.clean(face.name), TEXT_SIZE, True) + 6
    name += font.width(f"({mark})", SMALL_SIZE) + 5 + PLUS_ROOM if face.change else 0.0
    least = 0.35 if face.change else 0.5
    rows = jack_rows.fit(face.squares, max(room * least, room - name), area.height - 3)
    wide, high = rows.size
    drawn = jack_rows.draw(
        rows, left + room - wide, area.y + (area.height - high) / 2, face.colours, face.is_back
    )
    return _words(face, mark, left, base, room - wide - 6) + drawn


def _tall_face(face: Face, area: Area, left: float, room: float, mark: str) -> str:
    """The jacks below the words; the title below the name where it doesn't fit beside it."""
    beside = (
        font.width(font.clean(face.name), TEXT_SIZE, True)
        + font.width(font.clean(face.title), SMALL_SIZE)
        + 5
    )
    if face.change:
        beside += font.width(f"({mark})", SMALL_SIZE) - font.width(font.clean(face.title), SMALL_SIZE)
    is_stacked = beside > room and bool(face.title) and mark == face.change and area.height >= TALL + 11
    head = 20.0 if is_stacked else 9.6
    rows = jack_rows.fit(face.squares, room, min(area.height - head - 2, 28.0)) if face.squares else None
    top = area.y + max(0.6, (area.height - head - (rows.size[1] + 1 if rows else 0)) / 2)
    shown = face._replace(title="") if is_stacked else face
    parts = [_words(shown, "" if is_stacked else mark, left, top + 8, room, is_struck(mark))]
    if is_stacked:
        below = f"({in_short(mark)})" if mark else face.title
        parts.append(svg.text(left, top + 18, below, SMALL_SIZE, colour=QUIET, room=room))
    if rows:
        x = left + room - rows.size[0] if face.is_back else left
        parts.append(jack_rows.draw(rows, x, top + head + 0.8, face.colours, face.is_back))
    return "".join(parts)


def _words(face: Face, mark: str, left: float, base: float, room: float, is_gone: bool = False) -> str:
    """The name in bold, then its title and mark as far as there is room; a plus sign before what is new."""
    sign = ""
    if face.change.startswith(NEW):
        sign = plus(left, base - TEXT_SIZE * 0.36)
        left, room = left + PLUS_ROOM, room - PLUS_ROOM
    whole = font.width(font.clean(face.name), TEXT_SIZE, True) + font.width(f"({mark})", SMALL_SIZE) + 5
    if face.change and mark and whole > room:
        mark = in_short(mark)
    marked = f"({mark})" if mark else ""
    mark_width = font.width(marked, SMALL_SIZE) + 5 if mark else 0.0
    size = (
        TEXT_SIZE if font.width(font.clean(face.name), TEXT_SIZE, True) <= room - mark_width else SMALL_SIZE
    )
    name = font.clip(face.name, room - mark_width, size, True)
    after = left + font.width(name, size, True) + 5
    title_room = room - (after - left) - mark_width
    title = font.clip(face.title, title_room, SMALL_SIZE) if title_room > 24 else ""
    colour = palette.ALARM if mark == "clash" else QUIET
    return (
        sign
        + svg.text(left, base, name, size, is_bold=True)
        + (
            strike(left, base, font.width(name, size, True), size)
            if (is_gone or is_struck(mark)) and name
            else ""
        )
        + svg.text(after, base, title, SMALL_SIZE, colour=QUIET)
        + svg.text(left + room, base, marked, SMALL_SIZE, colour=colour, anchor="end")
    )
