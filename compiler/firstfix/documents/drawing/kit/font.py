"""How wide a text is in the font that we ship, and what of a stranger's text may stand in a drawing at all.

Never measured with what the machine happens to have: two machines must draw the same.
"""

import unicodedata
from functools import cache, lru_cache
from pathlib import Path

from firstfix.documents.drawing.kit.letters import legible

FAMILY = "Firstfix Sans"
_FOLDER = Path(__file__).parents[2] / "font"
REGULAR = _FOLDER / "FirstfixSans-Regular.ttf"
BOLD = _FOLDER / "FirstfixSans-Bold.ttf"

# Of the size: how far letters rise above and fall below the line they stand on (the font's own d and p, rounded up).
ASCENT = 0.77
DESCENT = 0.24

ELLIPSIS = "…"
LONGEST = 400
_MOST_MARKS = 2
# Blocks of marks that go on any letter and can be stacked without end; the sensible ones have become one letter by then (NFC).
_STACKING = ((0x300, 0x36F), (0x1AB0, 0x1AFF), (0x1DC0, 0x1DFF), (0x20D0, 0x20FF), (0xFE00, 0xFE2F))
_DROPPED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


@cache
def _advances(is_bold: bool) -> dict[str, float]:
    """Character to advance width, in ems."""
    from fontTools.ttLib import TTFont

    with TTFont(BOLD if is_bold else REGULAR, lazy=True) as font:
        unit, widths = font["head"].unitsPerEm, font["hmtx"]
        return {chr(code): widths[glyph][0] / unit for code, glyph in font.getBestCmap().items()}


@lru_cache(maxsize=1 << 16)
def width(text: str, size: float, is_bold: bool = False) -> float:
    """How wide `text` is at `size` as it is drawn (see `shown`), both in points."""
    known = _advances(is_bold)
    return size * sum(known[character] for character in legible(text, known))


def shown(text: str, is_bold: bool = False) -> str:
    """`text` in letters that the font has: what stands in a drawing for it."""
    return legible(text, _advances(is_bold))


def clip(text: str, room: float, size: float, is_bold: bool = False) -> str:
    """`text` as it is drawn, if it fits in `room` points, else as much of its beginning as fits before an ellipsis; "" if even
    that is too much."""
    known = _advances(is_bold)
    text = legible(clean(text), known)
    if size * sum(known[character] for character in text) <= room:
        return text
    left = room / size - known[ELLIPSIS]
    if left < 0:
        return ""
    kept = 0
    for character in text:
        left -= known[character]
        if left < 0:
            break
        kept += 1
    return text[:kept].rstrip() + ELLIPSIS


def clean(text: str, longest: int = LONGEST) -> str:
    """`text` without what could break out of its line or out of XML: control, direction and unassigned characters are dropped,
    stacked marks too, and white space becomes one space."""
    if text.isascii() and text.isprintable() and "  " not in text:
        return text[:longest].strip()
    kept: list[str] = []
    marks = 0
    for character in unicodedata.normalize("NFC", text[: 2 * longest]):
        category = unicodedata.category(character)
        marks = marks + 1 if category in ("Mn", "Me") else 0
        if character.isspace():
            kept.append(" ")
        elif category not in _DROPPED and marks <= _MOST_MARKS and not _stacks(character):
            kept.append(character)
    return " ".join("".join(kept).split())[:longest]


def _stacks(character: str) -> bool:
    return any(first <= ord(character) <= last for first, last in _STACKING)


def wrap(text: str, room: float, size: float, most: int) -> tuple[str, ...]:
    """`text` in at most `most` lines of `room` points, broken at spaces; what is too long is clipped."""
    words, lines = clean(text).split(" "), [""]
    for word in words:
        longer = f"{lines[-1]} {word}".strip()
        if not lines[-1] or width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > most:
        lines[most - 1 :] = [" ".join(lines[most - 1 :])]
    return tuple(clip(line, room, size) for line in lines if line)
