"""Measures of colours, written down here on their own: contrast, and what a colour-blind reader sees of a colour."""

import math

Linear = tuple[float, float, float]

# Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision deficiency" (IEEE TVCG 15:6, 2009),
# the matrices for a severity of 1.0, on linear RGB; from memory. A row adds up to 1: white stays white.
SIGHTS: dict[str, tuple[Linear, Linear, Linear]] = {
    "all cones": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protanopia": (
        (0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)
    ),
}  # fmt: skip


def linear(colour: str) -> Linear:
    """#rrggbb without its gamma: IEC 61966-2-1, as WCAG 2.2 writes it."""
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels
    )
    return red, green, blue


def luminance(colour: str) -> float:
    """Relative luminance by the definition in WCAG 2.2."""
    red, green, blue = linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def seen(colour: str, sight: str) -> Linear:
    given = linear(colour)
    red, green, blue = (
        min(1.0, max(0.0, sum(part * each for part, each in zip(row, given, strict=True))))
        for row in SIGHTS[sight]
    )
    return red, green, blue


def apart(one: Linear, other: Linear) -> float:
    """The difference of two colours, CIE 1976 L*a*b* (ISO/CIE 11664-4) under D65. About 2.3 is just noticed (from memory)."""
    return math.dist(_lab(one), _lab(other))


def _lab(colour: Linear) -> Linear:
    red, green, blue = colour
    x = _cube_root((0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505)
    y = _cube_root(0.2126 * red + 0.7152 * green + 0.0722 * blue)
    z = _cube_root((0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.089)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _cube_root(part: float) -> float:
    return part ** (1 / 3) if part > (6 / 29) ** 3 else part / (3 * (6 / 29) ** 2) + 4 / 29
