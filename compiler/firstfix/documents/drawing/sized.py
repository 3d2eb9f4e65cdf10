"""A drawing in another size than its own: how large its letters then are, and SVG and PDF of it.

A sheet is laid out once, at print size; a size asked for is a scale. Nothing is laid out anew, so what says whether it can still be read
is the size of the smallest letters.
"""

import re

from firstfix.documents.drawing.kit.pdf import Leaf, pdf
from firstfix.documents.drawing.kit.svg import Drawing

_ROOT = re.compile(r' width="[0-9.]+pt" height="[0-9.]+pt"')
_FONT_SIZE = re.compile(r' font-size="([0-9.]+)"')


def smallest_letters(drawing: Drawing) -> float:
    """In points at print size; 0 for a drawing without any."""
    return min((float(size) for size in _FONT_SIZE.findall(drawing.svg)), default=0.0)


def sized_svg(drawing: Drawing, width: float, unit: str) -> str:
    """With its width, in `unit` (mm or px), and the height that follows."""
    height = width * drawing.height / drawing.width
    return _ROOT.sub(
        f' width="{_number(width)}{unit}" height="{_number(height)}{unit}"', drawing.svg, count=1
    )


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def sized_pdf(drawings: tuple[Drawing, ...], title: str, scale: float = 1.0) -> bytes:
    """A page each, as large as the sheet is at that scale."""
    leaves = [
        Leaf(each.svg, each.width * scale, each.height * scale, each.alt, each.title) for each in drawings
    ]
    return pdf(leaves, title)
