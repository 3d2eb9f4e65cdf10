"""An SVG as a list of what it paints, in painter's order: read by the standard library's parser and by nothing of the drawings' own.

Takes the text of an SVG; gives its paints and texts in points of the sheet. It raises ValueError for whatever it doesn't know, so
that nothing new is drawn without being looked at.
"""

from itertools import pairwise
from math import hypot
from typing import NamedTuple
from xml.etree import ElementTree as ET

from proof.glyphs import extent
from proof.shapes import SAME, Box, Matrix, Point, box_of, matrix, moved, scale_of, times, traced

SVG = "{http://www.w3.org/2000/svg}"
# A pattern of which so little is marked is read as a tint: its ground counts, not the marks (our own judgement).
_FAINT_PATTERN = 0.05


class Paint(NamedTuple):
    """A filled or stroked shape. `fills`: its colour, or all colours of its pattern, which may show what is under it.

    `order` is that of painting.
    """

    order: int
    box: Box
    corners: tuple[Point, ...]
    fills: tuple[str, ...]
    is_opaque: bool
    lines: tuple[tuple[Point, ...], ...]
    stroke: str
    weight: float
    dash: str
    is_rect: bool
    is_curve: bool

    @property
    def is_closed(self) -> bool:
        return all(line[0] == line[-1] for line in self.lines)

    @property
    def reach(self) -> Box:
        return self.box.grown(self.weight / 2)


class Written(NamedTuple):
    """A text. `box` is as wide as its letters advance and as high as their ink; `anchor` a point just inside it."""

    order: int
    words: str
    size: float
    colour: str
    box: Box
    anchor: Point
    said: float | None
    width: float
    missing: str
    clip: Box | None


class Sheet(NamedTuple):
    """What was read. `facts` are the root's attributes; `told` the root's own title and description, by id."""

    width: float
    height: float
    facts: dict[str, str]
    told: dict[str, tuple[str, str]]
    ids: tuple[str, ...]
    paints: tuple[Paint, ...]
    texts: tuple[Written, ...]


class _State(NamedTuple):
    by: Matrix
    clip: Box | None


def read(svg: str) -> Sheet:
    root = ET.fromstring(svg)  # noqa: S314  our own output
    reader = _Reader(root)
    left, top, wide, high = (float(each) for each in root.attrib["viewBox"].split())
    width, height = (_points(root.attrib[name]) for name in ("width", "height"))
    scale = width / wide
    reader.all_of(root, _State((scale, 0, 0, height / high, -left * scale, -top * scale), None))
    told = {
        child.get("id", ""): (child.tag.removeprefix(SVG), child.text or "")
        for child in root
        if child.tag in (f"{SVG}title", f"{SVG}desc")
    }
    ids = tuple(each.attrib["id"] for each in root.iter() if "id" in each.attrib)
    return Sheet(width, height, dict(root.attrib), told, ids, tuple(reader.paints), tuple(reader.texts))


def _points(length: str) -> float:
    if not length.endswith("pt"):
        raise ValueError(f"a sheet's size is in points, not {length}")
    return float(length.removesuffix("pt"))


class _Reader:
    def __init__(self, root: ET.Element) -> None:
        self.paints: list[Paint] = []
        self.texts: list[Written] = []
        self.order = 0
        self.by_id = {each.attrib["id"]: each for each in root.iter() if "id" in each.attrib}

    def all_of(self, parent: ET.Element, state: _State) -> None:
        for element in parent:
            self._one(element, self._inner(element, state))

    def _inner(self, element: ET.Element, state: _State) -> _State:
        by = times(state.by, matrix(element.get("transform", "")))
        named = element.get("clip-path", "")
        if not named:
            return state._replace(by=by)
        cut = self._named(named)[0]
        box = box_of(_corners(cut.tag.removeprefix(SVG), cut, by))
        if state.clip is not None:
            box = Box(
                max(box.left, state.clip.left),
                max(box.top, state.clip.top),
                min(box.right, state.clip.right),
                min(box.bottom, state.clip.bottom),
            )
        return _State(by, box)

    def _named(self, url: str) -> ET.Element:
        return self.by_id[url.removeprefix("url(#").removesuffix(")")]

    def _one(self, element: ET.Element, state: _State) -> None:
        kind = element.tag.removeprefix(SVG)
        if kind in ("title", "desc", "defs"):
            return
        if kind == "g":
            self.all_of(element, state)
            return
        self.order += 1
        if kind == "text":
            self.texts.append(self._text(element, state))
        else:
            self.paints.append(self._paint(kind, element, state.by))

    def _paint(self, kind: str, element: ET.Element, by: Matrix) -> Paint:
        lines: tuple[tuple[Point, ...], ...]
        if kind == "path":
            lines = tuple(moved(by, line) for line in traced(element.attrib["d"]))
        elif kind == "line":
            ends = [(_value(element, f"x{n}"), _value(element, f"y{n}")) for n in (1, 2)]
            lines = (moved(by, ends),)
        elif kind == "polyline":
            lines = (moved(by, _listed(element)),)
        else:
            corners = _corners(kind, element, by)
            lines = ((*corners, corners[0]),)
        stroke = element.get("stroke", "none")
        weight = _value(element, "stroke-width", 1.0) * scale_of(by) if stroke != "none" else 0.0
        points = [point for line in lines for point in line]
        return Paint(
            self.order,
            box_of(points),
            lines[0],
            *self._fills(element.get("fill", "#000000")),
            lines,
            "" if stroke == "none" else stroke,
            weight,
            element.get("stroke-dasharray", ""),
            kind == "rect",
            kind == "path" and "C" in element.attrib["d"],
        )

    def _fills(self, fill: str) -> tuple[tuple[str, ...], bool]:
        """The colours, and whether nothing under them is seen."""
        if fill == "none":
            return (), False
        if not fill.startswith("url("):
            return (fill,), True
        pattern = self._named(fill)
        marks, ground, share = set(), set(), 0.0
        whole = _value(pattern, "width") * _value(pattern, "height")
        for mark in pattern:
            for name in ("fill", "stroke"):
                colour = mark.get(name, "none")
                if colour != "none" and _covered(mark, name) >= whole:
                    ground.add(colour)
                elif colour != "none":
                    marks.add(colour)
                    share += _covered(mark, name) / whole
        seen = ground if ground and share < _FAINT_PATTERN else ground | marks
        return tuple(sorted(seen)), bool(ground)

    def _text(self, element: ET.Element, state: _State) -> Written:
        if len(element):
            raise ValueError("a text with elements in it")
        words, size = element.text or "", _value(element, "font-size")
        is_bold = element.get("font-weight") == "bold"
        found = extent(words, size, is_bold)
        x, y = _value(element, "x"), _value(element, "y")
        said = _value(element, "textLength") if "textLength" in element.attrib else None
        anchor = element.get("text-anchor", "start")
        left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * found.width
        right, top, bottom = left + found.width, y - found.above, y + found.below
        corners = moved(state.by, [(left, top), (right, top), (right, bottom), (left, bottom)])
        inward = {"start": 1.0, "middle": 0.0, "end": -1.0}[anchor]
        (inside,) = moved(state.by, [(x + inward, y - size / 4)])
        return Written(
            self.order,
            words,
            size * scale_of(state.by),
            element.get("fill", "#000000"),
            box_of(corners),
            inside,
            said,
            found.width,
            found.missing,
            state.clip,
        )


def _value(element: ET.Element, name: str, otherwise: float = 0.0) -> float:
    return float(element.get(name, otherwise))


def _listed(element: ET.Element) -> list[Point]:
    numbers = [float(each) for each in element.attrib["points"].replace(",", " ").split()]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _corners(kind: str, element: ET.Element, by: Matrix) -> tuple[Point, ...]:
    """Of a closed shape; a circle is the square that it fits in."""
    if kind == "rect":
        x, y = _value(element, "x"), _value(element, "y")
        right, bottom = x + _value(element, "width"), y + _value(element, "height")
        return moved(by, [(x, y), (right, y), (right, bottom), (x, bottom)])
    if kind == "polygon":
        return moved(by, _listed(element))
    if kind == "circle":
        x, y, r = (_value(element, name) for name in ("cx", "cy", "r"))
        return moved(by, [(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)])
    raise ValueError(f"an element that this reader doesn't know: {kind}")


def _covered(mark: ET.Element, name: str) -> float:
    """About how much of a pattern's square a mark covers."""
    kind = mark.tag.removeprefix(SVG)
    if name == "fill" and kind in ("rect", "circle"):
        return box_of(_corners(kind, mark, SAME)).area
    if kind != "path" or name == "fill":
        raise ValueError(f"a pattern's mark that this reader doesn't know: {kind}")
    lengths = [
        hypot(x2 - x1, y2 - y1) for line in traced(mark.attrib["d"]) for (x1, y1), (x2, y2) in pairwise(line)
    ]
    return sum(lengths) * _value(mark, "stroke-width", 1.0)
