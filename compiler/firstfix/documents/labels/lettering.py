"""Identifiers in the room there is: as large as they fit, broken only where a part of the identifier ends.

Takes paragraphs and a room in points; gives lines with their size. An identifier that doesn't fit even in the smallest letters is
broken anywhere, and what is still too long ends in an ellipsis: the table has it whole.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.palette import INK, SMALLEST_SIZE

LEADING = 1.14
# Height of a capital in the shipped font, of the size.
_CAPITAL = 0.73
_SIZES = (16.0, 14.0, 12.0, 11.0, 10.0, 9.0, 8.0, 7.5, SMALLEST_SIZE)
# Our own judgement from looking at sheets.
_FOR_EACH_BREAK = 0.65
# A part ends after one of these.
_PARTS = re.compile(r"[^/:.\- ]*(?:[/:.\-]+|\s+|$)")


class Words(NamedTuple):
    """One paragraph. `largest`: its letters are no larger than this, in points."""

    text: str
    is_bold: bool = False
    largest: float = _SIZES[0]


class Line(NamedTuple):
    text: str
    size: float
    is_bold: bool


def fitted(words: Sequence[Words], width: float, height: float, must: int = 1) -> tuple[Line, ...]:
    """Lines that fill at most `width` by `height`. What doesn't fit is left out from the end, but for the first `must`."""
    said = [each for each in words if font.clean(each.text)]
    while said:
        lines = _best(said, width, height)
        if lines is not None:
            return lines
        if len(said) <= must:
            return tuple(_squeezed(said, width, height))
        said.pop()
    return ()


def fits(words: Sequence[Words], width: float, height: float) -> bool:
    """Whether all of it can stand there, broken only between parts."""
    lines = _at(words, SMALLEST_SIZE, width)
    return lines is not None and _height(lines) <= height


def _best(said: Sequence[Words], width: float, height: float) -> tuple[Line, ...] | None:
    """Large letters count for much, but an identifier in one piece for more."""
    found: list[tuple[float, tuple[Line, ...]]] = []
    for size in _SIZES:
        lines = _at(said, size, width)
        if lines is not None and _height(lines) <= height:
            found.append((size * _FOR_EACH_BREAK ** (len(lines) - len(said)), tuple(lines)))
    return max(found, key=lambda each: each[0])[1] if found else None


def _at(said: Sequence[Words], size: float, width: float) -> list[Line] | None:
    """None where a part of an identifier is wider than the room."""
    lines: list[Line] = []
    for each in said:
        own = min(size, each.largest)
        broken = _broken(each, own, width)
        if broken is None:
            return None
        lines += [Line(text, own, each.is_bold) for text in broken]
    return lines


def _broken(words: Words, size: float, width: float) -> list[str] | None:
    lines = [""]
    for part in filter(None, _PARTS.findall(font.clean(words.text))):
        longer = lines[-1] + part
        if font.width(longer.rstrip(), size, words.is_bold) <= width:
            lines[-1] = longer
        elif font.width(part.rstrip(), size, words.is_bold) > width:
            return None
        else:
            lines.append(part)
    return [line.strip() for line in lines if line.strip()]


def _height(lines: Sequence[Line]) -> float:
    return sum(line.size * LEADING for line in lines)


def _squeezed(said: Sequence[Words], width: float, height: float) -> Iterator[Line]:
    """In the smallest letters, broken anywhere, each paragraph with its share of the lines."""
    most = max(int(height / (SMALLEST_SIZE * LEADING) / len(said)), 1)
    for each in said:
        rest = font.clean(each.text)
        for _ in range(most - 1):
            head = _head(rest, width, each.is_bold)
            yield Line(head, SMALLEST_SIZE, each.is_bold)
            rest = rest[len(head) :]
            if not rest:
                break
        if rest:
            yield Line(font.clip(rest, width, SMALLEST_SIZE, each.is_bold), SMALLEST_SIZE, each.is_bold)


def _head(text: str, width: float, is_bold: bool) -> str:
    """As much of the beginning as fits, at least one character."""
    length = 1
    while length < len(text) and font.width(text[: length + 1], SMALLEST_SIZE, is_bold) <= width:
        length += 1
    return text[:length]


def drawn(lines: Sequence[Line], x: float, y: float, height: float, anchor: str = "") -> str:
    """The lines in the middle of `height`, from `y` down; `x` is their left edge, or their middle with `anchor` middle."""
    top = y + (height - _height(lines)) / 2
    parts: list[str] = []
    for line in lines:
        # Capitals stand on the line, and nothing hangs below it.
        base = top + line.size * (LEADING + _CAPITAL) / 2
        parts.append(svg.text(x, base, line.text, line.size, is_bold=line.is_bold, colour=INK, anchor=anchor))
        top += line.size * LEADING
    return "".join(parts)
