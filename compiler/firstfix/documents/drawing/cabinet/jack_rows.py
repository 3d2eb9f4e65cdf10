"""The jacks of one face as squares in rows, each with a band in the colour of the cord that is in it.

Takes squares, their colours and the room there is, in points; gives markup.
"""

from collections.abc import Iterator, Sequence

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.paints import BY_WORD, Paint
from firstfix.documents.drawing.kit.palette import PAPER, SMALL_SIZE, Stroke
from firstfix.documents.drawing.kit.squares import (
    LEAST_HEIGHT,
    POWERED,
    WIRED,
    Square,
    SquareRows,
    arrange,
    jack_square,
)

_GAP = 1.0
_WITH_OUTLINE = 4.0
# What the kit's square leaves free beside a number, and a little for rounding.
_TIGHT = 1.02
# How far below the middle of a square its number stands, and how far some letters hang below that; digits don't.
_HALF_LETTER = 0.36 * SMALL_SIZE
_BELOW = font.DESCENT * SMALL_SIZE
_HANGING = frozenset("gjpqyQ,;()[]{}|/_@$")
# A square lower than this, in points, has no room for a line above its number.
_LOW = 11.5


def fit(squares: tuple[Square, ...], room: float, height: float) -> SquareRows:
    """As the kit arranges them; where their numbers don't fit so, in two rows as narrow as numbers can stand."""
    usual = arrange(squares, room, height)
    if usual.names_fit:
        return usual
    return next((each for count in (1, 2) if (each := _tight(squares, count, room, height))), usual)


def _tight(squares: tuple[Square, ...], count: int, room: float, height: float) -> SquareRows | None:
    row_height = min(13.0, (height - _GAP * (count - 1)) / count)
    if row_height < LEAST_HEIGHT:
        return None
    widths = [
        max(7.5, font.width(font.clean(each.name), SMALL_SIZE, each.state in (WIRED, POWERED)) + _TIGHT)
        for each in squares
    ]
    rows: list[list[int]] = [[]]
    taken = 0.0
    for index, width in enumerate(widths):
        if rows[-1] and taken + width > room:
            rows.append([])
            taken = 0.0
        rows[-1].append(index)
        taken += width + _GAP
    if len(rows) > count or max(widths, default=0.0) > room:
        return None
    return SquareRows(
        tuple(tuple(squares[index] for index in row) for row in rows),
        tuple(tuple(widths[index] for index in row) for row in rows),
        row_height,
        True,
    )


def draw(arranged: SquareRows, x: float, y: float, colours: Sequence[str], is_mirrored: bool = False) -> str:
    """`colours`: a word for each square in its order, "" for none."""
    parts: list[str] = []
    for index, (square, left, top, width) in enumerate(_places(arranged, x, y, is_mirrored)):
        colour = colours[index] if index < len(colours) else ""
        paint = BY_WORD.get(colour)
        least = font.width(font.clean(square.name), SMALL_SIZE, True) + _WITH_OUTLINE
        is_narrow = width < least or (arranged.height < _LOW and paint is not None)
        if paint is None and not (is_narrow and square.state == POWERED):
            parts.append(jack_square(left, top, width, arranged.height, square, SMALL_SIZE))
        else:
            parts.append(_corded(left, top, width, arranged.height, square, paint, is_narrow))
    return "".join(parts)


def _corded(
    left: float, top: float, width: float, height: float, square: Square, paint: Paint | None, is_narrow: bool
) -> str:
    """The kit's square with a band along its lower edge and its number above that.

    Of the white outline of a powered one the band takes the lower side; where a number leaves no room, only the upper one is drawn.
    """
    is_powered = square.state == POWERED
    body = jack_square(
        left, top, width, height, square._replace(name="", state=WIRED if is_powered else square.state)
    )
    if is_powered:
        body = body.replace(palette.COPPER, palette.POWER)
    base = height / 2 + _HALF_LETTER
    is_hanging = not square.name.isascii() or bool(_HANGING & set(square.name))
    below, thinnest = (_BELOW, 1.5) if is_hanging else (0.6, 1.5) if height < _LOW else (0.3, 2.2)
    thick = thinnest if height < _LOW else max(thinnest, min(3.0, height - base - below))
    if paint is not None:
        base = min(base, height - thick - below)
        body += svg.rect(
            left + 0.3,
            top + height - thick,
            width - 0.6,
            thick - 0.3,
            fill=paint.role,
            stroke=PAPER,
            weight=0.4,
        )
    if is_powered and is_narrow:
        body += svg.rect(left + 0.8, top + 0.6, width - 1.6, 0.8, fill=PAPER)
    elif is_powered:
        n, foot = svg.number, top + height - thick
        sides = f"M{n(left + 1.5)} {n(foot)}V{n(top + 1.5)}H{n(left + width - 1.5)}V{n(foot)}"
        body += svg.path(sides, Stroke(PAPER, 0.7))
    is_filled = square.state in (WIRED, POWERED)
    name = svg.text(
        left + width / 2, top + base, square.name, SMALL_SIZE, is_bold=is_filled,
        colour=PAPER if is_filled else palette.QUIET, anchor="middle", room=width - 0.8,
    )  # fmt: skip
    return body + name


def _places(
    arranged: SquareRows, x: float, y: float, is_mirrored: bool
) -> Iterator[tuple[Square, float, float, float]]:
    """In the order of the squares; mirrored, the first of each row stands at the right."""
    whole = arranged.size[0]
    for row, widths in zip(arranged.rows, arranged.widths, strict=True):
        left = x
        for square, width in zip(row, widths, strict=True):
            yield square, 2 * x + whole - left - width if is_mirrored else left, y, width
            left += width + _GAP
        y += arranged.height + _GAP
