"""A finished sheet: the title at the top, pictures one below the other, the key at the foot."""

from collections.abc import Sequence

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.key import key
from firstfix.documents.drawing.kit.palette import BETWEEN, MARGIN, QUIET, TEXT_SIZE, TITLE_SIZE
from firstfix.documents.drawing.kit.picture import Picture

HEAD = 38.0
_GAP = 10.0
_LEAST_WIDTH = 420.0
_POINTS = 72 / 25.4
# 10 mm of margin on both sides, less a hundredth of a point for the rounding of sizes.
_BORDERS = 20 * _POINTS - 0.01


def page_size(pictures: Sequence[Picture]) -> tuple[float, float]:
    """The size of a sheet with these pictures, in points."""
    width = max([_LEAST_WIDTH, *(picture.width for picture in pictures)]) + 2 * MARGIN
    strip = _key(pictures, width - 2 * MARGIN)
    height = HEAD + sum(picture.height + _GAP for picture in pictures) + strip.height + 2 * MARGIN
    return width, height


def fits_a4(pictures: Sequence[Picture]) -> bool:
    """Whether the sheet prints on A4, lying, at full size."""
    width, height = page_size(pictures)
    return width <= palette.A4_LONG and height <= palette.A4_SHORT


def page(
    name: str,
    prefix: str,
    title: str,
    under: str,
    note: str,
    alt: str,
    pictures: Sequence[Picture],
    dot: str = "",
) -> svg.Drawing:
    """`under` stands below the title, `note` at the right of it. Ids start with `prefix` and the drawing's name."""
    width, height = page_size(pictures)
    note = BETWEEN.join(filter(None, (note, _paper(width, height))))
    inner = width - 2 * MARGIN
    note_width = font.width(font.clean(note), TEXT_SIZE)
    parts = [
        svg.text(MARGIN, MARGIN + 13, title, TITLE_SIZE, is_bold=True, room=inner - note_width - 12),
        svg.text(width - MARGIN, MARGIN + 13, note, TEXT_SIZE, colour=QUIET, anchor="end"),
        svg.text(MARGIN, MARGIN + 26, under, TEXT_SIZE, colour=QUIET, room=inner),
    ]
    top = MARGIN + HEAD
    for picture in pictures:
        parts.append(
            svg.element("g", picture.markup, transform=f"translate({svg.number(MARGIN)} {svg.number(top)})")
        )
        top += picture.height + _GAP
    strip = _key(pictures, inner)
    parts.append(
        svg.element("g", strip.markup, transform=f"translate({svg.number(MARGIN)} {svg.number(top)})")
    )
    markup = svg.document(f"{prefix}{name}-", title, alt, width, height, *parts)
    return svg.Drawing(name, title, alt, markup, dot, width, height)


def _paper(width: float, height: float) -> str:
    """Which sheet it takes at full size, where that isn't A4: each is twice the one before (ISO 216)."""
    long, short = sorted((width + _BORDERS, height + _BORDERS), reverse=True)
    sheet_long, sheet_short = 297.0, 210.0
    for name in ("A4", "A3", "A2", "A1", "A0"):
        if long <= sheet_long * _POINTS and short <= sheet_short * _POINTS:
            return "" if name == "A4" else f"drawn for {name}"
        sheet_long, sheet_short = 2 * sheet_short, sheet_long
    return "larger than A0"


def _key(pictures: Sequence[Picture], width: float) -> Picture:
    strokes = frozenset(stroke for picture in pictures for stroke in picture.strokes)
    states = frozenset(state for picture in pictures for state in picture.states)
    return key(strokes, states, width)
