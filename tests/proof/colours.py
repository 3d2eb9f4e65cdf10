"""Contrast of two colours, as WCAG 2.2 defines it ("contrast ratio", "relative luminance")."""

from functools import cache


@cache
def _luminance(colour: str) -> float:
    """Of #rrggbb. WCAG 2.2 puts the knee of the curve at 0.04045 since its correction of 2021."""
    if len(colour) != 7 or not colour.startswith("#"):
        raise ValueError(f"a colour is #rrggbb, not {colour!r}")
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@cache
def contrast(one: str, other: str) -> float:
    """From 1 to 21."""
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)
