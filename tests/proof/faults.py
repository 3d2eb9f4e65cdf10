"""What is wrong with a drawn sheet, for who reads it: each check takes a sheet as read and gives one sentence for each fault."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot

from proof.colours import contrast
from proof.reading import Paint, Sheet, Written
from proof.shapes import Box, Point, is_inside, within

# Coordinates and lengths are written to a tenth of a point, so that much is no fault.
_ROUNDING = 0.15
_MM = 72 / 25.4
_BORDER = 10.0
# ISO 216 and ANSI/ASME Y14.1 size A, in mm.
PAPERS = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
LEAST_SIZE = 7.0
TEXT_CONTRAST = 4.5  # WCAG 2.2, success criterion 1.4.3
LINE_CONTRAST = 3.0  # WCAG 2.2, success criterion 1.4.11
# Thinner lines only guide the eye along rows; nothing is told by them.
_HAIRLINE = 0.5
# The outline of a thing that wires are plugged into; squares and fields have lighter ones.
_THING = 0.8

# How far a strike may stand out beyond its text, and how much of a text, a remark in brackets, may follow it.
_STRIKE, _STRIKE_SHORT = 2.0, 30.0
# Shapes are looked up by the bands of this height that they are in.
_BAND = 24.0

Check = Callable[[Sheet], Iterator[str]]


def widths(sheet: Sheet) -> Iterator[str]:
    """The width that a text is given is the one that its letters have, and the font has them all."""
    for text in sheet.texts:
        if text.missing:
            yield f"the font has no {text.missing!r} of '{text.words}'"
        if text.said is None:
            yield f"'{text.words}' says no width"
        elif abs(text.said - text.width) > _ROUNDING:
            yield f"'{text.words}' says {text.said:g} pt and is {text.width:.2f} pt wide"


def outside(sheet: Sheet) -> Iterator[str]:
    """Texts stay on the page, in the box that holds them, and in what isn't cut off."""
    page = Box(0, 0, sheet.width, sheet.height)
    for text in sheet.texts:
        if not page.holds(text.box, _ROUNDING):
            yield f"'{text.words}' leaves the page"
        if text.clip is not None and not text.clip.holds(text.box, _ROUNDING):
            yield f"'{text.words}' is cut off"
        holder = _holder(sheet, text)
        if holder is not None and not holder.box.holds(text.box, _ROUNDING):
            yield f"'{text.words}' at {_place(text)} leaves its box {_shown(holder.box)}"


def _holder(sheet: Sheet, text: Written) -> Paint | None:
    """The smallest box that the text's anchor is in, of those that nothing lies over."""
    around = [
        paint
        for paint in sheet.paints
        if paint.is_rect and paint.order < text.order and paint.box.has(text.anchor)
    ]
    seen = max((paint.order for paint in around if paint.is_opaque), default=0)
    return min(
        (paint for paint in around if paint.order >= seen), key=lambda each: each.box.area, default=None
    )


def overlapping(sheet: Sheet) -> Iterator[str]:
    """No two texts share a place."""
    ordered = sorted(sheet.texts, key=lambda text: text.box.left)
    for index, one in enumerate(ordered):
        for other in ordered[index + 1 :]:
            if other.box.left >= one.box.right - _ROUNDING:
                break
            if one.box.meets(other.box, _ROUNDING):
                yield f"'{one.words}' and '{other.words}' overlap at {_place(one)}"


class _Nearby:
    """The shapes of a sheet by where they are: only those that may touch a box are asked."""

    def __init__(self, paints: Iterable[Paint]) -> None:
        self.bands: dict[int, list[Paint]] = defaultdict(list)
        for paint in paints:
            for band in _bands(paint.reach):
                self.bands[band].append(paint)

    def at(self, box: Box) -> list[Paint]:
        """In painter's order."""
        found = {paint.order: paint for band in _bands(box) for paint in self.bands.get(band, ())}
        return [found[order] for order in sorted(found)]


def _bands(box: Box) -> range:
    return range(int(box.top // _BAND), int(box.bottom // _BAND) + 1)


def crossed(sheet: Sheet) -> Iterator[str]:
    """No line runs through a text, unless something lies over the line and under the text."""
    nearby = _Nearby(sheet.paints)
    for text in sheet.texts:
        around = nearby.at(text.box)
        for paint in around:
            if not paint.stroke or not paint.reach.meets(text.box) or _is_strike(paint, text):
                continue
            if _runs_through(around, paint, text):
                yield f"a line of {paint.weight:g} pt in {paint.stroke} runs through '{text.words}' at {_place(text)}"
                break


def _is_strike(paint: Paint, text: Written) -> bool:
    """A thin level line through the middle of the letters, from just before the first to just after the last: on a sheet of changes
    what is gone is struck through."""
    box = paint.box
    return (
        not paint.is_closed
        and paint.weight < 1.0
        and box.bottom - box.top < _ROUNDING
        and abs(box.left - text.box.left) < _STRIKE
        and -_STRIKE < text.box.right - box.right < _STRIKE_SHORT
        and text.box.top + 1 < box.top < text.box.bottom - 1
    )


def _runs_through(around: Iterable[Paint], paint: Paint, text: Written) -> bool:
    box = text.box.grown(paint.weight / 2 - _ROUNDING)
    parts = [part for line in paint.lines for part in within(line, box)]
    covers = [
        each
        for each in around
        if paint.order < each.order < text.order and each.is_opaque and each.box.meets(text.box)
    ]
    return any(not any(all(_covers(cover, end) for end in part) for cover in covers) for part in parts)


def _covers(paint: Paint, point: Point) -> bool:
    if not paint.fills or not paint.box.has(point, _ROUNDING):
        return False
    return paint.is_rect or is_inside(point, paint.corners)


def covered(sheet: Sheet) -> Iterator[str]:
    """Nothing is painted over a text."""
    nearby = _Nearby(sheet.paints)
    for text in sheet.texts:
        for paint in nearby.at(text.box):
            if paint.order > text.order and paint.fills and paint.box.meets(text.box, _ROUNDING):
                yield f"{_shown(paint.box)} in {paint.fills[0]} is painted over '{text.words}' at {_place(text)}"
                break


def too_small(sheet: Sheet) -> Iterator[str]:
    """On A4 and on Letter, with 10 mm of margin, standing or lying as suits, nothing is printed smaller than 7 pt."""
    for paper, size in PAPERS.items():
        room = [_MM * (length - 2 * _BORDER) for length in size]
        shrink = min(1.0, max(_fit(sheet, *room), _fit(sheet, *reversed(room))))
        for text in sheet.texts:
            if text.size * shrink < LEAST_SIZE - 0.005:
                yield f"'{text.words}' prints at {text.size * shrink:.2f} pt on {paper}"


def _fit(sheet: Sheet, width: float, height: float) -> float:
    return min(width / sheet.width, height / sheet.height)


def faint_texts(sheet: Sheet) -> Iterator[str]:
    """Every text stands out from each ground that is under it."""
    nearby = _Nearby(sheet.paints)
    for text in sheet.texts:
        for ground in sorted(_grounds(nearby.at(text.box), text.box, text.order)):
            found = contrast(text.colour, ground)
            if found < TEXT_CONTRAST:
                yield f"'{text.words}' in {text.colour} on {ground}: {found:.2f}"


def _grounds(around: Sequence[Paint], box: Box, order: int) -> set[str]:
    """Colours of all that may show in `box` before `order`; from the top down to what fills it whole."""
    found: set[str] = set()
    for paint in reversed(around):
        if paint.order >= order or not paint.fills or not paint.box.meets(box, _ROUNDING):
            continue
        corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
        holds = paint.box.holds(box, _ROUNDING)
        if not paint.is_rect and not any(is_inside(corner, paint.corners) for corner in corners):
            continue
        found.update(paint.fills)
        whole = holds and (paint.is_rect or all(is_inside(corner, paint.corners) for corner in corners))
        if whole and paint.is_opaque:
            break
    return found


def faint_lines(sheet: Sheet) -> Iterator[str]:
    """Every line that tells something stands out from what it is drawn on; of an outline, half is enough to see the shape."""
    nearby = _Nearby(sheet.paints)
    for paint in sheet.paints:
        if not paint.stroke or paint.weight < _HAIRLINE or paint.stroke in paint.fills:
            continue
        found = sorted(
            min((contrast(paint.stroke, each) for each in _under(nearby, paint, point)), default=21.0)
            for point in _along(paint)
        )
        deciding = found[len(found) // 2] if paint.is_closed else found[0]
        if deciding < LINE_CONTRAST and not _is_casing(nearby, paint):
            yield f"a line of {paint.weight:g} pt in {paint.stroke} at {_shown(paint.box)}: {deciding:.2f}"


def _is_casing(nearby: _Nearby, paint: Paint) -> bool:
    """Whether it only keeps the ground away from a thinner line that is drawn on it."""
    return any(
        each.order > paint.order and each.lines == paint.lines and 0 < each.weight < paint.weight
        for each in nearby.at(paint.box)
    )


def _along(paint: Paint) -> Iterator[Point]:
    """The middles of its parts, and of long ones the quarters."""
    for line in paint.lines:
        for (x1, y1), (x2, y2) in pairwise(line):
            shares = (0.25, 0.5, 0.75) if hypot(x2 - x1, y2 - y1) > 20 else (0.5,)
            yield from ((x1 + (x2 - x1) * share, y1 + (y2 - y1) * share) for share in shares)


def _under(nearby: _Nearby, paint: Paint, point: Point) -> set[str]:
    """The colours right under a line at a point: of a wider line that it runs in, or of what is filled there."""
    for each in reversed(nearby.at(Box(*point, *point))):
        if each.order >= paint.order:
            continue
        if each.weight > paint.weight and each.lines == paint.lines:
            return {each.stroke}
        if _covers(each, point):
            return set(each.fills)
    return set()


def hidden_wires(sheet: Sheet) -> Iterator[str]:
    """No wire passes behind a thing that it isn't plugged into: a box with a heavy outline that is drawn over it."""
    for paint in sheet.paints:
        if not paint.is_curve:
            continue
        ends = {paint.lines[0][0], paint.lines[-1][-1]}
        for box in sheet.paints:
            if box.order > paint.order and box.is_rect and box.weight >= _THING:
                inner = box.box.grown(-2.0)
                if any(inner.has(end, 6.0) for end in ends):
                    continue
                if any(True for line in paint.lines for _ in within(line, inner)):
                    yield f"a wire passes behind the box {_shown(box.box)}"
                    break


def untold(sheet: Sheet) -> Iterator[str]:
    """Who can't see the drawing is told what it is (SVG 2, 5.8; WAI-ARIA 1.2, role img); ids are the document's own."""
    if sheet.facts.get("role") != "img":
        yield "the root has no role of an image"
    named = [sheet.told.get(each, ("", "")) for each in sheet.facts.get("aria-labelledby", "").split()]
    if [kind for kind, _ in named] != ["title", "desc"] or not all(words.strip() for _, words in named):
        yield "the root is not labelled by a title and a description"
    for twice in sorted({each for each in sheet.ids if sheet.ids.count(each) > 1}):
        yield f"two elements have the id {twice}"


def _place(text: Written) -> str:
    return f"({text.box.left:.0f}, {text.box.bottom:.0f})"


def _shown(box: Box) -> str:
    return "({:.1f}, {:.1f})-({:.1f}, {:.1f})".format(*box)


CHECKS: tuple[Check, ...] = (
    widths,
    outside,
    overlapping,
    crossed,
    covered,
    too_small,
    faint_texts,
    faint_lines,
    hidden_wires,
    untold,
)
OF_COLOUR: frozenset[Check] = frozenset({faint_texts, faint_lines, untold})
