"""A stop and the piece that leads on from it, drawn: the stop a box on the left, the cable a line down from it, words beside both."""

from collections.abc import Iterator

from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.paints import BY_WORD
from firstfix.documents.drawing.kit.palette import INK, NAME_SIZE, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.squares import POWERED, WIRED, Square, jack_square
from firstfix.documents.drawing.numbered import Block
from firstfix.documents.drawing.run.stops import Along, JackLine, Stop

WIDTH = palette.SHEET_INNER_SHORT
_BOX = 300.0
_PAD = 6.0
_HEAD = 34.0
_JACK = 16.0
_LINE_X = 26.0
_BESIDE = 46.0
_LINE = 10.0
_ROOM = WIDTH - _BESIDE
_SQUARE = 7.0
_MOST_SUM_LINES = 3


def stop_block(stop: Stop) -> Block:
    """The whole of one stop, down to where the next begins."""
    box_height = _HEAD + _JACK * len(stop.jacks)
    parts = [_box(stop, box_height), _beside(stop, box_height)]
    height = box_height
    strokes: frozenset[palette.Stroke] = frozenset()
    if stop.along is not None:
        drawn, depth = _along(stop.along, box_height)
        parts.append(drawn)
        height += depth
        strokes = frozenset({stop.along.stroke})
    states = {palette.PASSIVE_BAND if stop.is_passive else palette.BAND}
    states |= {POWERED if jack.is_powered else WIRED for jack in stop.jacks}
    return Block(Picture("".join(parts), WIDTH, height, strokes, frozenset(states)), in_words(stop))


def in_words(stop: Stop) -> str:
    jacks = ", ".join(f"jack {jack.name}" for jack in stop.jacks)
    said = ", ".join(filter(None, (stop.part, stop.place, jacks, stop.power)))
    here = f"{stop.name} ({said})"
    if stop.along is None:
        return f"{here}."
    piece = stop.along
    ways = f" through {', '.join(piece.ways)}" if piece.ways else ""
    colour = f"{piece.colour} " if piece.colour else ""
    note = f", {piece.note}" if piece.note else ""
    return f"{here}, then {colour}{piece.kind} of {piece.length}, {piece.part}, labelled {piece.label}{ways}{note}."


def _box(stop: Stop, height: float) -> str:
    tint = palette.PASSIVE_BAND if stop.is_passive else palette.BAND
    parts = [
        svg.rect(0, 0, _BOX, height, fill=PAPER),
        svg.rect(0, 0, _BOX, _HEAD, fill=tint),
        svg.text(_PAD, 11.5, stop.name, NAME_SIZE, is_bold=True, room=_BOX - 2 * _PAD),
        svg.text(_PAD, 21, stop.part, SMALL_SIZE, colour=QUIET, room=_BOX - 2 * _PAD),
        svg.text(_PAD, 30, stop.place, SMALL_SIZE, colour=QUIET, room=_BOX - 2 * _PAD),
    ]
    for index, jack in enumerate(stop.jacks):
        parts.append(_jack(jack, _HEAD + index * _JACK))
    parts.append(svg.rect(0, 0, _BOX, height, stroke=INK, weight=palette.OUTLINE))
    return svg.group(in_words(stop), *parts)


def _jack(jack: JackLine, top: float) -> str:
    wide = max(28.0, min(60.0, font.width(font.clean(jack.name), TEXT_SIZE, True) + 8))
    state = POWERED if jack.is_powered else WIRED
    left = wide + _PAD
    how = font.clip(jack.how, (_BOX - left) * 0.6, SMALL_SIZE)
    room = _BOX - left - 2 * _PAD - font.width(how, SMALL_SIZE)
    return (
        svg.hair(0, top, _BOX, top)
        + jack_square(0, top + 0.8, wide, _JACK - 1.6, Square(jack.name, state))
        + svg.text(left, top + 10.8, jack.label, SMALL_SIZE, is_bold=True, room=room)
        + svg.text(_BOX - _PAD, top + 10.8, how, SMALL_SIZE, colour=QUIET, anchor="end")
    )


def _beside(stop: Stop, height: float) -> str:
    """To the right of the box: how far along the run it stands, and the power that it gives or takes."""
    left, room = _BOX + 12, WIDTH - _BOX - 12
    parts = []
    if stop.reached:
        parts.append(svg.text(left, 11.5, f"after {stop.reached}", TEXT_SIZE, room=room))
    if stop.power:
        lines = font.wrap(stop.power, room, SMALL_SIZE, 2)
        base = height - 5.2 - _LINE * (len(lines) - 1)
        parts += [
            svg.text(left, base + _LINE * index, line, SMALL_SIZE, colour=palette.POWER)
            for index, line in enumerate(lines)
        ]
    return "".join(parts)


def _along(piece: Along, top: float) -> tuple[str, float]:
    """The markup of the piece below a box that ends at `top`, and how far down it reaches."""
    lines = list(_lines(piece))
    depth = 7 + _LINE * (1 + len(lines)) + 6
    parts = [svg.line(_LINE_X, top, _LINE_X, top + depth, piece.stroke)]
    base = top + 14
    parts.append(_title(piece, base))
    for words in lines:
        base += _LINE
        parts.append(svg.text(_BESIDE, base, words, SMALL_SIZE, colour=QUIET, room=_ROOM))
    return svg.group(piece.label, *parts), depth


def _title(piece: Along, base: float) -> str:
    """Kind and length, the colour it is sold in, and the label on the cable itself."""
    title = f"{piece.kind}, {piece.length}"
    parts, left = [svg.text(_BESIDE, base, title, TEXT_SIZE, is_bold=True)], _BESIDE
    left += font.width(title, TEXT_SIZE, True) + 10
    paint = BY_WORD.get(piece.colour)
    if paint is not None:
        top, said = base - _SQUARE + 0.5, f"{paint.letters} {paint.word}"
        parts.append(svg.rect(left, top, _SQUARE, _SQUARE, fill=paint.role, stroke=INK, weight=0.5))
        parts.append(svg.text(left + _SQUARE + 3, base, said, SMALL_SIZE, colour=QUIET))
        left += _SQUARE + 3 + font.width(said, SMALL_SIZE) + 10
    note = font.width(piece.note, SMALL_SIZE) + 10 if piece.note else 0.0
    parts.append(svg.text(left, base, piece.label, SMALL_SIZE, is_bold=True, room=WIDTH - left - note))
    parts.append(svg.text(WIDTH, base, piece.note, SMALL_SIZE, colour=QUIET, anchor="end"))
    return "".join(parts)


def _lines(piece: Along) -> Iterator[str]:
    yield piece.part
    if piece.ways:
        yield from font.wrap(f"in {', '.join(piece.ways)}", _ROOM, SMALL_SIZE, 3)
    if piece.sum_of:
        yield from font.wrap(piece.sum_of, _ROOM, SMALL_SIZE, _MOST_SUM_LINES)
