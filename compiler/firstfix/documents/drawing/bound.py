"""drawings.pdf: all sheets of the set, a page each at full size, on the paper that the plan asks for."""

from collections.abc import Sequence

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.pdf import Leaf, pdf
from firstfix.documents.drawing.kit.svg import Drawing

_POINTS = 72 / 25.4
_EDGES = 20 * _POINTS
# ISO 216, and ANSI/ASME Y14.1 size A; in points, lying.
PAPERS = {"a4": (297 * _POINTS, 210 * _POINTS), "letter": (11.0 * 72, 8.5 * 72)}


def bound(build: Build, drawings: Sequence[Drawing]) -> bytes:
    """At least one drawing. A sheet that is larger than the paper has a page of its own size."""
    leaves = [
        Leaf(each.svg, each.width, each.height, each.alt, each.title, _page(each, PAPERS[build.looks.paper]))
        for each in drawings
    ]
    return pdf(leaves, f"Drawings of {build.name}")


def _page(drawing: Drawing, paper: tuple[float, float]) -> tuple[float, float]:
    """Lying if it fits so, else standing; 10 mm stay free all round."""
    wide, high = drawing.width + _EDGES, drawing.height + _EDGES
    for page in (paper, paper[::-1]):
        if wide <= page[0] + 0.1 and high <= page[1] + 0.1:
            return page
    return wide, high
