"""How large a drawing is to be: a width as one writes it, what scale that makes, and whether its letters can still be read."""

import re
from typing import TYPE_CHECKING, NamedTuple

from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut

if TYPE_CHECKING:
    from firstfix.documents.drawing.kit.svg import Drawing

_WIDTH = re.compile(r"([0-9]{1,5}(?:\.[0-9]{1,2})?) ?(mm|px)")
# In points: 72 to the inch; a pixel of a page is 1/96 inch (CSS Values and Units 3, section 5.2).
_POINTS = {"mm": 72 / 25.4, "px": 72 / 96}
# What one can see, and what a large plotter takes; from looking at drawings.
_SMALLEST, _LARGEST = 20.0, 3000.0
_LEAST_DOTS, _MOST_DOTS = 36, 720
_USUAL_DOTS = 144
# 8,000 by 5,000: more than any page or screen shows, and as much as is quickly drawn.
_MOST_PIXELS = 40_000_000


class Width(NamedTuple):
    value: float
    unit: str

    @property
    def points(self) -> float:
        return self.value * _POINTS[self.unit]

    @property
    def words(self) -> str:
        return f"{self.value:g} {self.unit}"


def width_of(text: str) -> Width:
    """`160mm`, `160 mm` or `1200px`."""
    found = _WIDTH.fullmatch(text.strip())
    if found is None:
        raise TroubleError(f"a width is written as 160mm or 1200px, not '{cut(text, 30)}'")
    width = Width(float(found[1]), found[2])
    if not _SMALLEST <= width.points / _POINTS["mm"] <= _LARGEST:
        raise TroubleError(f"a drawing is 20 mm to 3000 mm wide (76 px to 11338 px), not {width.words}")
    return width


def dots_of(text: str) -> int:
    """Dots per inch of a PNG."""
    if not (text.isascii() and text.isdigit() and _LEAST_DOTS <= int(text[:6]) <= _MOST_DOTS):
        raise TroubleError(
            f"a resolution is {_LEAST_DOTS} to {_MOST_DOTS} dots per inch, as in 300, not '{cut(text, 30)}'"
        )
    return int(text)


def pixel_scale(drawing: "Drawing", width: Width | None, dots: int | None) -> float:
    """Pixels of a PNG to each point of the drawing. A width in pixels is exact, whatever the resolution."""
    from firstfix.documents.drawing.kit.raster import LARGEST_SCALE

    if width is not None and width.unit == "px":
        scale = width.value / drawing.width
    else:
        points = drawing.width if width is None else width.points
        scale = points / drawing.width * (dots or _USUAL_DOTS) / 72
    if scale > LARGEST_SCALE or scale * scale * drawing.width * drawing.height > _MOST_PIXELS:
        raise TroubleError(
            "a PNG of that size has more pixels than can be drawn; take less, or an SVG, which has none"
        )
    return scale


def too_small(drawing: "Drawing", width: Width | None) -> str:
    """A sentence where letters come out below what can be read in print; else ""."""
    from firstfix.documents.drawing.kit.palette import SMALLEST_SIZE
    from firstfix.documents.drawing.sized import smallest_letters

    if width is None:
        return ""
    own = smallest_letters(drawing)
    size = own * width.points / drawing.width
    if not own or size >= SMALLEST_SIZE - 0.05:
        return ""
    needed = drawing.width * SMALLEST_SIZE / own
    return (
        f"at {width.words} the smallest letters are {size:.1f} pt, less than the {SMALLEST_SIZE:g} pt that can be read in print;"
        f" from {-(-needed // _POINTS[width.unit]):.0f} {width.unit} on they are large enough"
    )
