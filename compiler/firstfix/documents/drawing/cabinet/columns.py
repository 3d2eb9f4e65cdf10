"""Lines of text and rows of jacks, poured into columns and from sheet to sheet.

A strip knows how tall it is at a given width and draws itself there. A group's head is repeated where the group goes on.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from firstfix.documents.drawing.cabinet.cords import Block, JackRow
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.paints import BY_WORD
from firstfix.documents.drawing.kit.palette import HAIR, INK, QUIET, SMALL_SIZE, TEXT_SIZE, Stroke
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.squares import jack_square

_ROW, _LINE = 13.0, 9.4
_HEAD = 26.0
# Long enough for the dashes of a fibre to repeat.
_LINE_SAMPLE = 15.0
_SQUARES, _CABLE = (22.0, 52.0), 70.0
_PAD = 4.0
_CONTINUED = " (continued)"
_SWATCHES = "colour of the cable, also along the lower edge of its jack:"


class Strip(NamedTuple):
    """`lines` and `draw` are given the width of the column; `draw` gets the number of lines of text as well.

    `head`: which group it belongs to, as an index of the strips; its own where it is the head.
    """

    height: Callable[[float], float]
    draw: Callable[[float, bool], str]
    head: int
    words: str = ""
    strokes: frozenset[Stroke] = frozenset()
    states: frozenset[str] = frozenset()
    name: str = ""


class Space(NamedTuple):
    width: float
    height: float


class Poured(NamedTuple):
    """What went into a space, and the first strip that didn't."""

    picture: Picture
    following: int
    words: tuple[str, ...]
    names: tuple[str, ...] = ()


def pour(strips: Sequence[Strip], start: int, space: Space, is_rest_kept: bool = True) -> Poured:
    """As many strips from `start` as there is room for; never a head without its first row. Without `is_rest_kept` at least one goes in."""
    parts: list[str] = []
    top, index = 0.0, start
    strokes: set[Stroke] = set()
    states: set[str] = set()
    words: list[str] = []
    names: list[str] = []
    while index < len(strips):
        strip = strips[index]
        drawn = [(strip, False)]
        if index == start and strip.head != index:
            drawn.insert(0, (strips[strip.head], True))
        if strip.head == index and index + 1 < len(strips) and strips[index + 1].head == index:
            drawn.append((strips[index + 1], False))
        needed = sum(each.height(space.width) for each, _ in drawn)
        if top + needed > space.height and (is_rest_kept or index > start):
            break
        for each, is_again in drawn:
            parts.append(
                svg.element(
                    "g", each.draw(space.width, is_again), transform=f"translate(0 {svg.number(top)})"
                )
            )
            top += each.height(space.width)
            strokes |= each.strokes
            states |= each.states
            names += [each.name] if each.name else []
            words += [each.words] if each.words and not is_again else []
        index += sum(not is_again for _, is_again in drawn)
    picture = Picture("".join(parts), space.width, top, frozenset(strokes), frozenset(states))
    return Poured(picture, index, tuple(words), tuple(names))


def strips_of(groups: Sequence[Sequence[Strip]]) -> tuple[Strip, ...]:
    """Groups one after the other, each a head and its rows; heads are given their places."""
    found: list[Strip] = []
    for group in groups:
        head = len(found)
        found += [strip._replace(head=head) for strip in group]
    return tuple(found)


def rest_of(strips: Sequence[Strip], start: int) -> list[list[Strip]]:
    """The groups from `start` on, to be poured elsewhere; one that was begun has its head again."""
    groups: list[list[Strip]] = []
    for index in range(start, len(strips)):
        strip = strips[index]
        if strip.head == index:
            groups.append([strip])
        elif not groups:
            groups.append([_again(strips[strip.head]), strip])
        else:
            groups[-1].append(strip)
    return groups


def _again(head: Strip) -> Strip:
    def draw(width: float, _: bool) -> str:
        return head.draw(width, True)

    return head._replace(draw=draw, words="")


def jack_group(block: Block) -> list[Strip]:
    square = _square_width(block)
    rows = [_jack_strip(row, square) for row in block.rows]
    free = [text_strip("", f"free: {block.free}", False)] if block.free else []
    return [_block_head(block, square), *rows, *free]


def _square_width(block: Block) -> float:
    """Wide enough for the longest name of a jack, within reason."""
    least, most = _SQUARES
    wide = max(font.width(font.clean(row.square.name), SMALL_SIZE, True) for row in block.rows)
    return min(most, max(least, wide + 6.0))


def _block_head(block: Block, square: float) -> Strip:
    def draw(width: float, is_again: bool) -> str:
        to, cable, beyond = _stops(width, square)
        again = _CONTINUED if is_again else ""
        name = font.clip(f"{block.name}{again}", width - 60, palette.NAME_SIZE, True)
        after = font.width(name, palette.NAME_SIZE, True) + 6
        labels = ((0.0, "Jack"), (to, "Goes to"), (cable, "Cable"), (beyond, block.beyond))
        return (
            svg.rect(0, 2, width, 12.5, fill=palette.FIELD)
            + svg.text(2, 11.4, name, palette.NAME_SIZE, is_bold=True)
            + svg.text(after, 11.4, block.beside, SMALL_SIZE, colour=QUIET, room=width - after - 2)
            + "".join(svg.text(x, 22.8, label, SMALL_SIZE, colour=QUIET) for x, label in labels)
        )

    return Strip(lambda _: _HEAD, draw, 0, f"{block.name}:", name=block.name)


def _stops(width: float, square: float) -> tuple[float, float, float]:
    """Where the columns of a row begin."""
    rest = width - square - _CABLE - 5 * _PAD
    to = square + 1.5 * _PAD
    cable = to + 0.48 * rest
    return to, cable, cable + _CABLE + 3 * _PAD


def _jack_strip(row: JackRow, square: float) -> Strip:
    def lines(width: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
        to, cable, beyond = _stops(width, square)
        return (
            font.wrap(row.to, cable - to - _PAD, TEXT_SIZE, 3),
            font.wrap(row.beyond, width - beyond, TEXT_SIZE, 3),
        )

    def height(width: float) -> float:
        return _ROW + _LINE * (max(1, *map(len, lines(width))) - 1)

    def draw(width: float, _: bool) -> str:
        to, cable, beyond = _stops(width, square)
        one, other = lines(width)
        parts = [
            svg.hair(0, 0, width, 0),
            jack_square(0, 1.2, square, 10.6, row.square, SMALL_SIZE),
            *(svg.text(to, 9.4 + _LINE * n, line, TEXT_SIZE) for n, line in enumerate(one)),
            *(svg.text(beyond, 9.4 + _LINE * n, line, TEXT_SIZE) for n, line in enumerate(other)),
            _cable(row, cable),
        ]
        return svg.group(row.words, *parts)

    return Strip(
        height,
        draw,
        0,
        f"{row.words};",
        frozenset([row.stroke] if row.stroke else []),
        frozenset([row.square.state]),
    )


def _cable(row: JackRow, x: float) -> str:
    """A sample of its line, a swatch of its colour with letters, its length."""
    parts = [svg.line(x, 6.5, x + _LINE_SAMPLE, 6.5, row.stroke)] if row.stroke else []
    paint = BY_WORD.get(row.colour)
    if paint:
        parts.append(svg.rect(x + _LINE_SAMPLE + 3, 2.8, 7, 7, fill=paint.role, stroke=INK, weight=0.5))
        parts.append(svg.text(x + _LINE_SAMPLE + 11.5, 9.2, paint.letters, SMALL_SIZE, colour=QUIET))
    parts.append(
        svg.text(
            x + _CABLE,
            9.4,
            row.length,
            TEXT_SIZE,
            anchor="end",
            room=_CABLE - _LINE_SAMPLE - (24 if paint else 2),
        )
    )
    return "".join(parts)


def head_strip(words: str) -> Strip:
    def draw(width: float, is_again: bool) -> str:
        shown = words + (_CONTINUED if is_again else "")
        return svg.rect(0, 2, width, 12.5, fill=palette.FIELD) + svg.text(
            2, 11.4, shown, palette.NAME_SIZE, is_bold=True, room=width - 4
        )

    return Strip(lambda _: 16.0, draw, 0, f"{words}:", name=words)


def text_strip(name: str, words: str, is_ruled: bool = True) -> Strip:
    """A name in bold and what is said of it, in as many lines as that takes, up to six."""

    def lines(width: float) -> tuple[str, ...]:
        first = font.width(font.clean(name), TEXT_SIZE, True) + 6 if name else 0.0
        if first > width / 2:
            return ("", *font.wrap(words, width - 8, SMALL_SIZE, 6))
        beside = font.wrap(words, width - first, SMALL_SIZE, 99)
        if len(beside) <= 1:
            return beside
        rest = font.clean(words).removeprefix(beside[0]).strip()
        return (beside[0], *font.wrap(rest, width - 8, SMALL_SIZE, 6))

    def height(width: float) -> float:
        return 12.4 + _LINE * (max(1, len(lines(width))) - 1)

    def draw(width: float, _: bool) -> str:
        shown = font.clip(name, width, TEXT_SIZE, True)
        first = font.width(shown, TEXT_SIZE, True) + 6 if shown else 0.0
        parts = [svg.hair(0, 0, width, 0, HAIR)] if is_ruled else []
        parts.append(svg.text(0, 9.2, shown, TEXT_SIZE, is_bold=True))
        for number, line in enumerate(lines(width)):
            x = first if number == 0 else 8.0
            parts.append(svg.text(x, 9.2 + _LINE * number, line, SMALL_SIZE, colour=QUIET, room=width - x))
        return svg.group(f"{name} {words}", *parts)

    return Strip(height, draw, 0, f"{name} {words};".strip())


def swatches(colours: Sequence[str], width: float) -> Picture:
    """What the letters of the cords' colours mean: only those on the sheet. Empty without any."""
    parts = [svg.text(0, 9, _SWATCHES, SMALL_SIZE, colour=QUIET)]
    x = font.width(_SWATCHES, SMALL_SIZE) + 8
    for word in colours:
        paint = BY_WORD.get(word)
        if paint is None:
            continue
        said = f"{paint.letters} {paint.word}"
        wide = 11 + font.width(said, SMALL_SIZE)
        if x + wide > width:
            break
        parts.append(svg.rect(x, 2, 8, 8, fill=paint.role, stroke=INK, weight=0.5))
        parts.append(svg.text(x + 11, 9, said, SMALL_SIZE, colour=QUIET))
        x += wide + 12
    return Picture("".join(parts), width, 12.0) if len(parts) > 1 else Picture("", 0, 0)
