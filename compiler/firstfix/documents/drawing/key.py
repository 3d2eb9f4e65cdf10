"""The strip at the foot of a sheet that says what its lines and squares mean: only those that are on it."""

from firstfix.documents.drawing import font, kit
from firstfix.documents.drawing.palette import QUIET, SMALL_SIZE, Stroke, wire_stroke
from firstfix.documents.drawing.picture import Picture
from firstfix.documents.drawing.tables import jack_square

_LINE = 15.0
_SAMPLE = 26.0
_SPACE = 16.0

# What a stroke means, in the order of the strip. A stroke with power is drawn the same whatever the cable is.
MEANINGS: tuple[tuple[Stroke, str], ...] = (
    (wire_stroke("copper", False, False), "cord"),
    (wire_stroke("copper", True, False), "installed run"),
    (wire_stroke("fibre", False, False), "fibre cord"),
    (wire_stroke("fibre", True, False), "installed fibre"),
    (wire_stroke("copper", True, True), "carries PoE: watts drawn at most"),
    (wire_stroke("copper", False, False, True), "spare cord"),
    (wire_stroke("copper", True, False, True), "spare run"),
    (wire_stroke("fibre", False, False, True), "spare fibre cord"),
    (wire_stroke("fibre", True, False, True), "spare fibre run"),
    (wire_stroke("copper", True, True, True), "spare, carries PoE"),
)


def key(strokes: frozenset[Stroke], width: float) -> Picture:
    """At most `width` points wide, as many lines as it takes; empty where there is nothing to explain."""
    items = [(stroke, words) for stroke, words in MEANINGS if stroke in strokes]
    if not items:
        return Picture("", 0, 0)
    parts: list[str] = [kit.hair(0, 0, width, 0)]
    x, y = 0.0, 0.0
    for stroke, words in items:
        needed = _SAMPLE + 5 + font.width(words, SMALL_SIZE)
        x, y = (0.0, y + _LINE) if x + needed > width else (x, y)
        parts.append(kit.line(x, y + 9, x + _SAMPLE, y + 9, stroke))
        parts.append(kit.text(x + _SAMPLE + 5, y + 11.5, words, SMALL_SIZE, colour=QUIET))
        x += needed + _SPACE
    for markup, words in _squares(any(stroke.core for stroke in strokes)):
        needed = 16 + 5 + font.width(words, SMALL_SIZE)
        x, y = (0.0, y + _LINE) if x + needed > width else (x, y)
        parts.append(kit.element("g", markup, transform=f"translate({kit.number(x)} {kit.number(y + 3)})"))
        parts.append(kit.text(x + 21, y + 11.5, words, SMALL_SIZE, colour=QUIET))
        x += needed + _SPACE
    return Picture("".join(parts), width, y + _LINE)


def _squares(has_power: bool) -> list[tuple[str, str]]:
    wired = (jack_square(0, 0, 16, 12, "", True), "jack, wired")
    powered = (jack_square(0, 0, 16, 12, "", True, True), "jack that gives or takes PoE")
    return [wired, powered] if has_power else [wired]


