"""Plain geometry of what an SVG draws: transforms, path data and boxes, in points, y downwards."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, hypot, radians, sin
from typing import NamedTuple

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
SAME: Matrix = (1, 0, 0, 1, 0, 0)
_STEPS = 16
_TOKEN = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_CALL = re.compile(r"(\w+)\s*\(([^)]*)\)")


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    def has(self, point: Point, slack: float = 0.0) -> bool:
        x, y = point
        return self.left - slack <= x <= self.right + slack and self.top - slack <= y <= self.bottom + slack

    def holds(self, other: "Box", slack: float = 0.0) -> bool:
        return self.has((other.left, other.top), slack) and self.has((other.right, other.bottom), slack)

    def meets(self, other: "Box", by: float = 0.0) -> bool:
        """Whether they share more than `by` in both directions."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > by and down > by

    def grown(self, by: float) -> "Box":
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    @property
    def area(self) -> float:
        return (self.right - self.left) * (self.bottom - self.top)


def box_of(points: Sequence[Point]) -> Box:
    across, down = [x for x, _ in points], [y for _, y in points]
    return Box(min(across), min(down), max(across), max(down))


def matrix(text: str) -> Matrix:
    """Of a `transform` attribute. ValueError for a kind that none of the drawings needs."""
    made = SAME
    for name, said in _CALL.findall(text):
        given = [float(each) for each in re.split(r"[\s,]+", said.strip())]
        made = times(made, _one(name, given))
    return made


def _one(name: str, given: list[float]) -> Matrix:
    if name == "translate":
        return (1, 0, 0, 1, given[0], given[1] if len(given) > 1 else 0)
    if name == "scale":
        return (given[0], 0, 0, given[-1], 0, 0)
    if name == "matrix":
        a, b, c, d, e, f = given
        return (a, b, c, d, e, f)
    if name == "rotate":
        turn, (x, y) = radians(given[0]), (given[1:] or [0, 0])
        a, b = cos(turn), sin(turn)
        return (a, b, -b, a, x - a * x + b * y, y - b * x - a * y)
    raise ValueError(f"a transform that this reader doesn't know: {name}")


def times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + c * h,
        b * g + d * h,
        a * i + c * j,
        b * i + d * j,
        a * k + c * m + e,
        b * k + d * m + f,
    )


def moved(by: Matrix, points: Sequence[Point]) -> tuple[Point, ...]:
    a, b, c, d, e, f = by
    return tuple((a * x + c * y + e, b * x + d * y + f) for x, y in points)


def scale_of(by: Matrix) -> float:
    return hypot(by[0], by[1])


def traced(data: str) -> list[tuple[Point, ...]]:
    """The polylines of path data; curves in sixteen steps. ValueError for a command that this reader doesn't know."""
    return [tuple(line) for line in _Pen(data).lines if len(line) > 1]


class _Pen:
    """Follows path data (SVG 2, section 9.3). Capital letters are places, small ones are steps from where the pen is."""

    def __init__(self, data: str) -> None:
        self.tokens = _TOKEN.findall(data)
        self.lines: list[list[Point]] = []
        self.at: Point = (0.0, 0.0)
        self.index = 0
        letter = ""
        while self.index < len(self.tokens):
            if self.tokens[self.index].isalpha():
                letter = self.tokens[self.index]
                self.index += 1
            self._draw(letter)
            letter = {"M": "L", "m": "l"}.get(letter, letter)

    def _number(self) -> float:
        self.index += 1
        return float(self.tokens[self.index - 1])

    def _point(self, is_step: bool) -> Point:
        x, y = self._number(), self._number()
        return (self.at[0] + x, self.at[1] + y) if is_step else (x, y)

    def _draw(self, letter: str) -> None:
        is_step, kind = letter.islower(), letter.upper()
        if kind == "M":
            self.at = self._point(is_step)
            self.lines.append([self.at])
        elif kind == "L":
            self._to(self._point(is_step))
        elif kind == "H":
            x = self._number()
            self._to((self.at[0] + x if is_step else x, self.at[1]))
        elif kind == "V":
            y = self._number()
            self._to((self.at[0], self.at[1] + y if is_step else y))
        elif kind in "CQ":
            start = self.at
            others = [self._point(is_step) for _ in range(3 if kind == "C" else 2)]
            for step in range(1, _STEPS + 1):
                self._to(_on_curve((start, *others), step / _STEPS))
        elif kind == "Z":
            self._to(self.lines[-1][0])
            self.lines.append([self.at])
        else:
            raise ValueError(f"a path command that this reader doesn't know: {letter}")

    def _to(self, point: Point) -> None:
        self.lines[-1].append(point)
        self.at = point


def _on_curve(points: Sequence[Point], share: float) -> Point:
    """By de Casteljau's method, for a curve of any degree."""
    while len(points) > 1:
        points = [(x1 + (x2 - x1) * share, y1 + (y2 - y1) * share) for (x1, y1), (x2, y2) in pairwise(points)]
    return points[0]


def within(line: Sequence[Point], box: Box) -> Iterator[tuple[Point, Point]]:
    """The parts of a polyline inside a box (Liang and Barsky's clipping)."""
    for (x1, y1), (x2, y2) in pairwise(line):
        enter, leave = 0.0, 1.0
        for step, low, high in (
            (x2 - x1, box.left - x1, box.right - x1),
            (y2 - y1, box.top - y1, box.bottom - y1),
        ):
            if step == 0:
                enter, leave = (enter, leave) if low < 0 < high else (1.0, 0.0)
                continue
            near, far = sorted((low / step, high / step))
            enter, leave = max(enter, near), min(leave, far)
        if enter < leave:
            yield (
                (x1 + (x2 - x1) * enter, y1 + (y2 - y1) * enter),
                (x1 + (x2 - x1) * leave, y1 + (y2 - y1) * leave),
            )


def is_inside(point: Point, corners: Sequence[Point]) -> bool:
    """By counting edges to the right of the point."""
    x, y = point
    inside = False
    for (x1, y1), (x2, y2) in pairwise([*corners, corners[0]]):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside
