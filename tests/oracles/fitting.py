"""Fitting things into cabinets and pipes by other means than the compiler's formulas: by placing, turning and halving intervals.

Imports nothing of firstfix. Lengths in millimetres, masses in kilograms, angles in degrees.
"""

import math
from collections.abc import Callable
from fractions import Fraction


def _halved(wrong: float, right: float, holds: Callable[[float], bool]) -> float:
    """The edge between where something does not hold and where it does."""
    for _ in range(200):
        middle = (wrong + right) / 2
        wrong, right = (wrong, middle) if holds(middle) else (middle, right)
    return right


def two_in_a_bore(first: float, second: float) -> float:
    """The least bore: each pushed against its side of the wall, they must not overlap."""

    def apart(bore: float) -> bool:
        if max(first, second) > bore:
            return False
        # Centres on one line through the middle, each as far out as the wall lets it.
        return (bore - first) / 2 + (bore - second) / 2 >= (first + second) / 2

    return _halved(0.0, 2 * (first + second), apart)


def fill(diameters: list[float], bore: float) -> float:
    """Areas of circles, one by one."""
    return sum(math.pi * (each / 2) ** 2 for each in diameters) / (math.pi * (bore / 2) ** 2)


def bore_of_plug(width: float, height: float) -> float:
    """Twice the distance of the farthest corner from the middle: the plug may come in turned by any angle."""
    corners = [complex(x * width / 2, y * height / 2) for x in (-1, 1) for y in (-1, 1)]
    turned = [corner * complex(math.cos(a), math.sin(a)) for corner in corners for a in (0.0, 0.4, 1.1)]
    return 2 * max(abs(each) for each in turned)


def farthest_of_cord(plug: float, bend: float, thick: float) -> float:
    """Walk along a cord: straight out of its jack, then a quarter turn to the side; the farthest point of its jacket."""
    radius = bend + thick / 2
    points = [plug]
    for step in range(2001):
        angle = math.pi / 2 * step / 2000
        centre = plug + radius * math.sin(angle)
        points.append(centre + thick / 2 * math.sin(angle))
    return max(points)


def common_centre(masses: list[tuple[float, float]]) -> float:
    """Two at a time, by the law of the lever, in exact fractions."""
    weight, height = Fraction(0), Fraction(0)
    for mass, at in masses:
        each, where = Fraction(mass), Fraction(at)
        if weight + each:
            height += (where - height) * each / (weight + each)
        weight += each
    return float(height)


def tips_at(centre: float, base: float) -> float:
    """Turn it about its lower edge until the centre of gravity is no longer before that edge."""

    def fallen(angle: float) -> bool:
        a = math.radians(angle)
        # The edge is the origin; the centre starts half a base before it.
        return -base / 2 * math.cos(a) + centre * math.sin(a) >= 0

    return _halved(0.0, 90.0, fallen)


def shelf_verdict(
    things: list[tuple[float | None, float | None, float | None]], width: float, load: float, room: float
) -> tuple[str, str, str]:
    """For (width, mass, height) of what it carries: side by side, weight, and standing room; "fine", "bad" or "open"."""

    def judged(known: list[float | None], limit: float, together: bool) -> str:
        figures = [each for each in known if each is not None]
        total = (sum(figures) if together else max(figures, default=0.0)) if figures else 0.0
        if total > limit + 1e-6:
            return "bad"
        return "open" if None in known else "fine"

    widths, masses, heights = ([thing[i] for thing in things] for i in range(3))
    return judged(widths, width, True), judged(masses, load, True), judged(heights, room, False)
