"""SVG to PNG, with the shipped font and nothing of the machine's own."""

import re
from math import ceil

from firstfix.documents.drawing.kit.svg import number
from firstfix.documents.drawing.kit.typeset import Leaf, typeset

LARGEST_SCALE = 10.0
_DOTS_PER_INCH = 72.0
# Of a pixel: so much more than a whole one is the rounding of sizes.
_ROUNDING = 0.01
# In points. The renderer rounds up to whole pixels, first the width, then the height by the image's own shape: so much less in both, and
# twice as much in height, and no rounding of its own makes it one pixel more.
_LESS = 0.001
_ROOT = re.compile(r'<svg xmlns="[^"]*" viewBox="[^"]*" width="[^"]*" height="[^"]*"')
_SIZE = re.compile(r'<svg[^>]*? viewBox="0 0 ([0-9.]+) ([0-9.]+)"')


def png(svg: str, scale: float = 2.0) -> bytes:
    """The PNG of one of our drawings, `scale` pixels to a point: 2 is 144 dots per inch. The same bytes for the same SVG.

    What the SVG leaves open is transparent. Raises ValueError for a scale that is not above 0 and at most 10, and for what is no SVG.
    """
    if not 0 < scale <= LARGEST_SCALE:
        raise ValueError(f"a scale is above 0 and at most {LARGEST_SCALE:g}, not {scale:g}")
    found = _SIZE.search(svg)
    if found is None:
        raise ValueError("what is no SVG of a known size has no PNG")
    leaf = _on_whole_pixels(svg, float(found[1]), float(found[2]), scale)
    return typeset([leaf], "png", dots=scale * _DOTS_PER_INCH)[0]


def _on_whole_pixels(svg: str, width: float, height: float, scale: float) -> Leaf:
    """The sheet, and the ground under it, up to the next whole pixel at the right and below.

    The renderer first draws an image in whole pixels and then fits that into the page: a page with part of a pixel loses a row of them
    somewhere, and with it the upper or lower edge of a line of text.
    """
    wide, high = (ceil(length * scale - _ROUNDING) / scale for length in (width, height))
    was, now = (f'width="{number(w)}" height="{number(h)}"' for w, h in ((width, height), (wide, high)))
    svg = svg.replace(f'<rect x="0" y="0" {was}', f'<rect x="0" y="0" {now}', 1)
    whole = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.4f} {high:.4f}" width="{wide:.4f}pt" height="{high - 2 * _LESS:.4f}pt"'
    return Leaf(_ROOT.sub(whole, svg, count=1), wide - _LESS, high - 4 * _LESS, paper=(wide, high))
