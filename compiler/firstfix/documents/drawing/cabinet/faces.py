"""One thing as it looks from the front: its name and title, and its jacks, in whatever room there is."""

from typing import NamedTuple

from firstfix.documents.drawing.cabinet.standing import Face
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import PAPER, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.squares import arrange, draw_rows

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
    rows = arrange(face.squares, max(room * 0.5, min(room * 0.72, room - name)), area.height - 3)
    wide, high = rows.size
    drawn = draw_rows(rows, left + room - wide, area.y + (area.height - high) / 2)
    return _words(face, mark, left, base, room - wide - 6) + drawn


def _tall_face(face: Face, area: Area, left: float, room: float, mark: str) -> str:
    """The jacks below the words; the title below the name where it doesn't fit beside it."""
    beside = (
        font.width(font.clean(face.name), TEXT_SIZE, True)
        + font.width(font.clean(face.title), SMALL_SIZE)
        + 5
    )
    is_stacked = beside > room and bool(face.title) and not mark and area.height >= TALL + 11
    head = 21.0 if is_stacked else 10.5
    rows = arrange(face.squares, room, min(area.height - head - 4, 28.0)) if face.squares else None
    top = area.y + max(1.0, (area.height - head - (rows.size[1] + 2 if rows else 0)) / 2)
    shown = face._replace(title="") if is_stacked else face
    parts = [_words(shown, mark, left, top + 8, room)]
    if is_stacked:
        parts.append(svg.text(left, top + 18, face.title, SMALL_SIZE, colour=QUIET, room=room))
    if rows:
        parts.append(draw_rows(rows, left, top + head + 2))
    return "".join(parts)


def _words(face: Face, mark: str, left: float, base: float, room: float) -> str:
    """The name in bold, then its title and mark as far as there is room."""
    marked = f"({mark})" if mark else ""
    mark_width = font.width(marked, SMALL_SIZE) + 5 if mark else 0.0
    name = font.clip(face.name, room - mark_width, TEXT_SIZE, True)
    after = left + font.width(name, TEXT_SIZE, True) + 5
    title_room = room - (after - left) - mark_width
    title = font.clip(face.title, title_room, SMALL_SIZE) if title_room > 24 else ""
    colour = palette.ALARM if mark == "clash" else QUIET
    return (
        svg.text(left, base, name, TEXT_SIZE, is_bold=True)
        + svg.text(after, base, title, SMALL_SIZE, colour=QUIET)
        + svg.text(left + room, base, marked, SMALL_SIZE, colour=colour, anchor="end")
    )
