"""Labels laid on sheets: into the cells of a sheet that is cut already, as far as they fit there, and on plain paper to cut.

Takes forms; gives pages as SVG of the paper's own size, to be printed without scaling.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from firstfix.documents.drawing.kit import font, svg, themes
from firstfix.documents.drawing.kit.palette import HAIR, HAIRLINE, INK, NAME_SIZE, QUIET, SMALL_SIZE, Stroke
from firstfix.documents.drawing.kit.pdf import Leaf
from firstfix.documents.labels.forms import Form, draw
from firstfix.documents.labels.grids import GRIDS, PAPERS, POINTS_PER_MM, Cell, Grid
from firstfix.graphs.labels import On

# Millimetres. Most printers leave as much white: common practice, no source.
_MARGIN = 10.0
_HEAD = 8.0
_FOOT = 8.0
# Between labels that are cut out.
_GAP = 2.0
_BETWEEN_KINDS = 6.0
# The sticky part of a cell that may be off when a sheet is fed: common practice, no source.
_MISFEED = 1.5
_RULER = 100.0

# What a kind of label is, and what to do with it.
_HEADS = {
    On.THING: (
        "Plates for cabinets and devices",
        "stuck where they are seen before a door or a cover is opened",
    ),
    On.CABLE: (
        "Flags for cables",
        "the part between the dotted lines goes round the cable, the faces are stuck back to back",
    ),
    On.JACK: ("Labels for jacks", "device by device, in the order of the jacks"),
    On.CABLE_OUTDOORS: ("Tags for cables outdoors", "to engrave, or to print on what bears sun and rain"),
}


class Placed(NamedTuple):
    form: Form
    cell: Cell


class Head(NamedTuple):
    """`y`: millimetres from the top of the page to the top of the head."""

    on: On
    y: float


class Page(NamedTuple):
    """`heads` stand above their labels, on paper that is cut; a sheet with cells has no room for them."""

    paper: str
    heads: tuple[Head, ...]
    placed: tuple[Placed, ...]
    is_cut: bool


def leaves(forms: Sequence[Form], sheets: str, plan: str, is_draft: bool) -> tuple[Leaf, ...]:
    """All pages in order. A draft is always on paper, where there is room to say so."""
    grid = None if is_draft else GRIDS.get(sheets)
    paper = sheets if sheets in PAPERS else GRIDS[sheets].paper
    in_cells = [form for form in forms if grid is not None and _fits(form, grid)]
    cut = [form for form in forms if grid is None or not _fits(form, grid)]
    pages = [*(_in_cells(in_cells, grid) if grid else ()), *_on_paper(cut, paper)]
    plan = f"{plan} (draft: the plan has errors)" if is_draft else plan
    return tuple(_leaf(page, number, len(pages), plan) for number, page in enumerate(pages, 1))


def _fits(form: Form, grid: Grid) -> bool:
    wide, high = grid.label
    return form.width <= wide - 2 * _MISFEED and form.height <= high


def _in_cells(forms: Sequence[Form], grid: Grid) -> Iterator[Page]:
    cells = tuple(grid.cells())
    for first in range(0, len(forms), len(cells)):
        some = forms[first : first + len(cells)]
        yield Page(
            grid.paper, (), tuple(Placed(*each) for each in zip(some, cells, strict=False)), is_cut=False
        )


def _on_paper(forms: Sequence[Form], paper: str) -> Iterator[Page]:
    """Row after row, kind after kind, each below a head that is said again on the next page."""
    laying = _Laying(paper)
    for on, some in groupby(forms, key=lambda form: form.label.on):
        laying.begin(on)
        for form in some:
            laying.lay(form)
    laying.turn()
    yield from laying.pages


class _Laying:
    """Where the next label goes; millimetres from the upper left corner of the paper."""

    def __init__(self, paper: str) -> None:
        self.pages: list[Page] = []
        self._paper = paper
        self._right, self._bottom = (each - _MARGIN for each in PAPERS[paper])
        self._bottom -= _FOOT
        self._heads: list[Head] = []
        self._placed: list[Placed] = []
        self._on, self._has_head = On.THING, False
        self._x, self._y, self._row = _MARGIN, _MARGIN, 0.0

    def begin(self, on: On) -> None:
        """A new kind of label, below what is there already."""
        if self._placed:
            self._y += self._row + _BETWEEN_KINDS
        self._x, self._row, self._on = _MARGIN, 0.0, on
        self._has_head = False

    def lay(self, form: Form) -> None:
        if self._x > _MARGIN and self._x + form.width > self._right:
            self._x, self._y, self._row = _MARGIN, self._y + self._row + _GAP, 0.0
        head = 0.0 if self._has_head else _HEAD
        if self._placed and self._y + head + form.height > self._bottom:
            self.turn()
        if not self._has_head:
            self._heads.append(Head(self._on, self._y))
            self._y, self._has_head = self._y + _HEAD, True
        self._placed.append(Placed(form, Cell(self._x, self._y, form.width, form.height)))
        self._x, self._row = self._x + form.width + _GAP, max(self._row, form.height)

    def turn(self) -> None:
        """A new page."""
        if self._placed:
            self.pages.append(Page(self._paper, tuple(self._heads), tuple(self._placed), is_cut=True))
        self._heads, self._placed, self._has_head = [], [], False
        self._x, self._y, self._row = _MARGIN, _MARGIN, 0.0


def _leaf(page: Page, number: int, of: int, plan: str) -> Leaf:
    wide, high = (each * POINTS_PER_MM for each in PAPERS[page.paper])
    title = f"{', '.join(_HEADS[head.on][0] for head in page.heads) or 'Labels'}: sheet {number} of {of}"
    said = "; ".join(placed.form.label.identifier for placed in page.placed)
    alt = f"{len(page.placed)} labels: {said}"
    inside = [_label(placed, page.is_cut) for placed in page.placed]
    if page.is_cut:
        inside += _around(page, number, of, plan, wide, high)
    markup = svg.document(f"labels-{number}-", title, alt, wide, high, *inside)
    return Leaf(themes.finish(markup, themes.PRINT), wide, high, alt, title)


def _label(placed: Placed, is_cut: bool) -> str:
    cell = placed.cell
    inset = 0.0 if is_cut else _MISFEED
    width, height = cell.width - 2 * inset, cell.height - (0.0 if is_cut else inset)
    x, y = (cell.x + inset) * POINTS_PER_MM, (cell.y + (0.0 if is_cut else inset / 2)) * POINTS_PER_MM
    edge = (
        svg.rect(0, 0, width * POINTS_PER_MM, height * POINTS_PER_MM, stroke=HAIR, weight=HAIRLINE)
        if is_cut
        else ""
    )
    return svg.element("g", edge, draw(placed.form, width, height), transform=f"translate({x:.2f} {y:.2f})")


def _around(page: Page, number: int, of: int, plan: str, wide: float, high: float) -> list[str]:
    """The heads, and a line to hold a ruler against."""
    left, right = _MARGIN * POINTS_PER_MM, wide - _MARGIN * POINTS_PER_MM
    foot = high - _MARGIN * POINTS_PER_MM
    ruler = left + _RULER * POINTS_PER_MM
    words = f"{plan} · sheet {number} of {of}"
    line = Stroke(INK, 0.6)
    return [
        *(_head(head, left, right) for head in page.heads),
        svg.line(left, foot, ruler, foot, line),
        svg.line(left, foot - 4, left, foot + 4, line),
        svg.line(ruler, foot - 4, ruler, foot + 4, line),
        svg.text(left, foot - 6, "100 mm: print without scaling", SMALL_SIZE, colour=QUIET),
        svg.text(right, foot, words, SMALL_SIZE, colour=QUIET, anchor="end", room=right - ruler - 12),
    ]


def _head(head: Head, left: float, right: float) -> str:
    title, hint = _HEADS[head.on]
    base = (head.y + 4.5) * POINTS_PER_MM
    after = left + font.width(title, NAME_SIZE, True) + 6
    return svg.text(left, base, title, NAME_SIZE, is_bold=True) + svg.text(
        after, base, hint, SMALL_SIZE, colour=QUIET, room=right - after
    )
