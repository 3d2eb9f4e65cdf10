"""Reads our SVG back, with the standard library's own parser: every text with the box it takes, every id, every size."""

from typing import NamedTuple
from xml.etree import ElementTree as ET

from firstfix.documents.drawing.kit import font

SVG = "{http://www.w3.org/2000/svg}"


class Box(NamedTuple):
    """Where a text stands, in points: its letters from the highest to the lowest."""

    words: str
    left: float
    top: float
    right: float
    bottom: float
    size: float
    said_width: float
    true_width: float
    colour: str
    ground: str

    def overlaps(self, other: "Box") -> bool:
        """By more than the tenth of a point to which coordinates are rounded."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > 0.2
            and min(self.bottom, other.bottom) - max(self.top, other.top) > 0.2
        )


def parse(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314  our own output


def texts(svg: str) -> list[Box]:
    found: list[Box] = []
    _collect(parse(svg), 0.0, 0.0, found, [])
    return found


class _Ground(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float
    colour: str


def _collect(element: ET.Element, dx: float, dy: float, found: list[Box], grounds: list[_Ground]) -> None:
    shift = element.get("transform")
    if shift:
        right, down = shift.removeprefix("translate(").removesuffix(")").split()
        dx, dy = dx + float(right), dy + float(down)
    if element.tag == f"{SVG}rect" and element.get("fill", "").startswith("#"):
        x, y, width, height = (float(element.attrib[name]) for name in ("x", "y", "width", "height"))
        grounds.append(_Ground(x + dx, y + dy, x + dx + width, y + dy + height, element.attrib["fill"]))
    if element.tag == f"{SVG}text":
        found.append(_box(element, dx, dy, grounds))
    for child in element:
        _collect(child, dx, dy, found, grounds)


def _box(element: ET.Element, dx: float, dy: float, grounds: list[_Ground]) -> Box:
    words, size = element.text or "", float(element.get("font-size", "0"))
    x, y = float(element.get("x", "0")) + dx, float(element.get("y", "0")) + dy
    said = float(element.get("textLength", "0"))
    left = x - {"end": said, "middle": said / 2}.get(element.get("text-anchor", ""), 0.0)
    true = font.width(words, size, element.get("font-weight") == "bold")
    middle_x, middle_y = left + said / 2, y - size / 3
    under = [
        each.colour
        for each in grounds
        if each.left <= middle_x <= each.right and each.top <= middle_y <= each.bottom
    ]
    top, bottom = y - font.ASCENT * size, y + font.DESCENT * size
    return Box(words, left, top, left + said, bottom, size, said, true, element.get("fill", ""), under[-1])


def overlapping(boxes: list[Box]) -> list[tuple[str, str]]:
    return [
        (one.words, other.words)
        for index, one in enumerate(boxes)
        for other in boxes[:index]
        if one.overlaps(other)
    ]


def ids(svg: str) -> list[str]:
    return [element.attrib["id"] for element in parse(svg).iter() if "id" in element.attrib]


def everything_said(svg: str) -> str:
    """All that a reader or a pointer can get at: texts, titles and the description."""
    return "\n".join(element.text or "" for element in parse(svg).iter())
