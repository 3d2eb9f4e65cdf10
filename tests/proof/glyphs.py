"""How far a text reaches in the font that is shipped, by the font's own tables: a second method beside the drawings' own.

Takes words, their size and weight; gives advance width, and how high and how deep the glyphs' outlines really go.
"""

import unicodedata
from functools import cache
from pathlib import Path
from typing import NamedTuple

from fontTools.ttLib import TTFont

import firstfix

_FOLDER = Path(firstfix.__file__).parent / "documents" / "font"
_FILES = {False: "FirstfixSans-Regular.ttf", True: "FirstfixSans-Bold.ttf"}
_NO_GLYPH = ".notdef"


class Extent(NamedTuple):
    """In points: the width, and the ink above and below the line that the text stands on; characters without a glyph."""

    width: float
    above: float
    below: float
    missing: str


class _Glyph(NamedTuple):
    advance: int
    low: int
    high: int


@cache
def _font(is_bold: bool) -> TTFont:
    return TTFont(_FOLDER / _FILES[is_bold])


@cache
def _glyph(character: str, is_bold: bool) -> _Glyph | None:
    """None for what takes no room: marks of direction and the like. What the font lacks is its empty box."""
    font = _font(is_bold)
    if unicodedata.category(character) == "Cf":
        return None
    name = font.getBestCmap().get(ord(character), _NO_GLYPH)
    outline = font["glyf"][name]
    low, high = (outline.yMin, outline.yMax) if outline.numberOfContours else (0, 0)
    return _Glyph(font["hmtx"][name][0], low, high)


def extent(words: str, size: float, is_bold: bool) -> Extent:
    """Of `words` in one line."""
    unit = _font(is_bold)["head"].unitsPerEm
    known = _font(is_bold).getBestCmap()
    glyphs = [glyph for character in words if (glyph := _glyph(character, is_bold))]
    scale = size / unit
    return Extent(
        scale * sum(glyph.advance for glyph in glyphs),
        scale * max((glyph.high for glyph in glyphs), default=0),
        scale * -min((glyph.low for glyph in glyphs), default=0),
        "".join(sorted({each for each in words if ord(each) not in known})),
    )
