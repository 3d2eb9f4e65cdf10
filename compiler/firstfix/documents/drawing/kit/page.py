"""A finished sheet: the title at the top, pictures one below the other, where they continue, the key, the foot."""

from collections.abc import Sequence

from firstfix.documents.drawing.kit import font, palette, svg, themes
from firstfix.documents.drawing.kit.key import key
from firstfix.documents.drawing.kit.palette import BETWEEN, MARGIN, QUIET, TEXT_SIZE, TITLE_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward, flags

HEAD = 38.0
# The line at the very bottom: whose plan, by whom, which sheet of the set. `foot` draws it.
FOOT = 12.0
_GAP = 10.0
_LEAST_WIDTH = 420.0
_POINTS = 72 / 25.4
# 10 mm of margin on both sides, less a hundredth of a point for the rounding of sizes.
_BORDERS = 20 * _POINTS - 0.01
# Pairs of sheets that follow each other, in mm: ISO 216, and ANSI/ASME Y14.1 sizes A to E (11 x 8.5 in to 44 x 34 in).
_PAPERS = (
    ("", (297, 210), (279.4, 215.9)),
    ("A3 or ANSI B", (420, 297), (431.8, 279.4)),
    ("A2 or ANSI C", (594, 420), (558.8, 431.8)),
    ("A1 or ANSI D", (841, 594), (863.6, 558.8)),
    ("A0 or ANSI E", (1189, 841), (1117.6, 863.6)),
)


def page_size(pictures: Sequence[Picture], onward: Sequence[Onward] = ()) -> tuple[float, float]:
    """The size of a sheet with these pictures, in points."""
    width = max([_LEAST_WIDTH, *(picture.width for picture in pictures)]) + 2 * MARGIN
    blocks = _blocks(pictures, onward, width - 2 * MARGIN)
    strip = _key(pictures, width - 2 * MARGIN)
    return width, HEAD + sum(each.height + _GAP for each in blocks) + strip.height + FOOT + 2 * MARGIN


def fits_sheet(pictures: Sequence[Picture], onward: Sequence[Onward] = ()) -> bool:
    """Whether the sheet prints at full size on A4 and on Letter, lying."""
    width, height = page_size(pictures, onward)
    return width <= palette.SHEET_LONG and height <= palette.SHEET_SHORT


def picture_room(is_lying: bool = True, key_lines: int = 2, onward_lines: int = 0) -> tuple[float, float]:
    """Width and height of the one picture that a sheet has room for, beside title, foot and so many lines of key and flags."""
    long, short = palette.SHEET_LONG, palette.SHEET_SHORT
    width, height = (long, short) if is_lying else (short, long)
    flag_lines = 15.0 * onward_lines + _GAP if onward_lines else 0.0
    return width - 2 * MARGIN, height - 2 * MARGIN - HEAD - FOOT - _GAP - 15.0 * key_lines - flag_lines


def of_group(number: int, of: int) -> str:
    """For `note`: which sheet of its group a sheet is; "" for the only one."""
    return f"sheet {number} of {of}" if of > 1 else ""


def page(
    name: str,
    prefix: str,
    title: str,
    under: str,
    note: str,
    alt: str,
    pictures: Sequence[Picture],
    dot: str = "",
    onward: Sequence[Onward] = (),
) -> svg.Drawing:
    """`under` stands below the title, `note` at the right of it. Ids start with `prefix` and the drawing's name.

    `onward`: the sheets that this one continues on; flags below the pictures say so, and the description too.
    """
    width, height = page_size(pictures, onward)
    note = BETWEEN.join(filter(None, (note, _paper(width, height))))
    inner = width - 2 * MARGIN
    note_width = font.width(font.clean(note), TEXT_SIZE)
    parts = [
        svg.text(MARGIN, MARGIN + 13, title, TITLE_SIZE, is_bold=True, room=inner - note_width - 12),
        svg.text(width - MARGIN, MARGIN + 13, note, TEXT_SIZE, colour=QUIET, anchor="end"),
        svg.text(MARGIN, MARGIN + 26, under, TEXT_SIZE, colour=QUIET, room=inner),
    ]
    top = MARGIN + HEAD
    for picture in _blocks(pictures, onward, inner):
        parts.append(_placed(picture, top))
        top += picture.height + _GAP
    parts += [_placed(_key(pictures, inner), top), themes.FOOT_SLOT]
    markup = svg.document(f"{prefix}{name}-", title, alt, width, height, *parts)
    return svg.Drawing(name, title, alt, markup, dot, width, height, tuple(each.sheet for each in onward))


def _blocks(pictures: Sequence[Picture], onward: Sequence[Onward], width: float) -> list[Picture]:
    return [*pictures, flags(onward, width)] if onward else list(pictures)


def _placed(picture: Picture, top: float) -> str:
    return svg.element("g", picture.markup, transform=f"translate({svg.number(MARGIN)} {svg.number(top)})")


def _paper(width: float, height: float) -> str:
    """Which sheets it takes at full size, where those aren't A4 and Letter."""
    long, short = sorted((width + _BORDERS, height + _BORDERS), reverse=True)
    for name, *papers in _PAPERS:
        if all(long <= one * _POINTS and short <= other * _POINTS for one, other in papers):
            return f"larger than A4 and Letter: print on {name}" if name else ""
    return "larger than A0 and ANSI E"


def _key(pictures: Sequence[Picture], width: float) -> Picture:
    strokes = frozenset(stroke for picture in pictures for stroke in picture.strokes)
    states = frozenset(state for picture in pictures for state in picture.states)
    samples = dict.fromkeys(sample for picture in pictures for sample in picture.samples)
    return key(strokes, states, width, tuple(samples))
