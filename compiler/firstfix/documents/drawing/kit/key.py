"""The strip at the foot of a sheet that says what its lines and squares mean: only those that are on it."""

from collections.abc import Sequence

from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.palette import (
    BAND,
    INK,
    OUTLINE,
    PASSIVE_BAND,
    QUIET,
    SMALL_SIZE,
    Stroke,
    wire_stroke,
)
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.squares import CABLED_BEHIND, FREE, POWERED, WIRED, Square, jack_square

_LINE = 15.0
_SAMPLE = 26.0
_SPACE = 16.0
_SQUARE = 16.0
_THING = 24.0
# Markup from y = 3 to 15, its width, and what it means.
Sample = tuple[str, float, str]

# What a stroke means, in the order of the strip. A stroke with power is drawn the same whatever the cable is.
MEANINGS: tuple[tuple[Stroke, str], ...] = (
    (wire_stroke("copper", False, False), "cord"),
    (wire_stroke("copper", True, False), "installed run"),
    (wire_stroke("fibre", False, False), "fibre cord"),
    (wire_stroke("fibre", True, False), "installed fibre"),
    (wire_stroke("twinax", False, False), "twinax cord"),
    (wire_stroke("copper", True, True), "carries PoE"),
    (wire_stroke("copper", False, False, True), "spare cord"),
    (wire_stroke("copper", True, False, True), "spare run"),
    (wire_stroke("fibre", False, False, True), "spare fibre cord"),
    (wire_stroke("fibre", True, False, True), "spare fibre run"),
    (wire_stroke("copper", True, True, True), "spare, carries PoE"),
)


# What a square means, likewise.
SQUARES: tuple[tuple[str, str], ...] = (
    (WIRED, "jack, wired"),
    (POWERED, "jack that gives or takes PoE"),
    (CABLED_BEHIND, "cabled behind, no cord in front"),
    (FREE, "free jack"),
)

# And what the ground of a thing means.
TINTS: tuple[tuple[str, str], ...] = (
    (BAND, "active device"),
    (PASSIVE_BAND, "passive thing: panel, in-line, power, shelf"),
)


def key(
    strokes: frozenset[Stroke], states: frozenset[str], width: float, more: tuple[Sample, ...] = ()
) -> Picture:
    """`more`: samples of what only this sheet has. At most `width` points wide, as many lines as it takes; empty where there is nothing to explain."""
    samples = [
        (svg.line(0, 9, _SAMPLE, 9, stroke), _SAMPLE, words)
        for stroke, words in MEANINGS
        if stroke in strokes
    ]
    samples += [(_thing(tint), _THING, words) for tint, words in TINTS if tint in states]
    samples += [
        (jack_square(0, 3, _SQUARE, 12, Square("", state)), _SQUARE, words)
        for state, words in SQUARES
        if state in states
    ]
    return strip([*samples, *more], width)


def _thing(tint: str) -> str:
    """A small device: its outline, and a bar for its name in bold."""
    outline = svg.rect(0, 3, _THING, 12, fill=tint, stroke=INK, weight=OUTLINE)
    return outline + svg.rect(3, 6, _THING / 2, 2, fill=INK)


def strip(samples: Sequence[Sample], width: float) -> Picture:
    """Samples with their width and meaning, in lines under a rule."""
    if not samples:
        return Picture("", 0, 0)
    parts: list[str] = [svg.hair(0, 0, width, 0)]
    x, y = 0.0, 0.0
    for markup, wide, words in samples:
        needed = wide + 5 + font.width(words, SMALL_SIZE)
        x, y = (0.0, y + _LINE) if x + needed > width else (x, y)
        parts.append(svg.element("g", markup, transform=f"translate({svg.number(x)} {svg.number(y)})"))
        parts.append(svg.text(x + wide + 5, y + 11.5, words, SMALL_SIZE, colour=QUIET))
        x += needed + _SPACE
    return Picture("".join(parts), width, y + _LINE)
