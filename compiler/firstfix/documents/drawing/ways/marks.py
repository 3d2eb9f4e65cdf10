"""How a way looks: a pipe of two lines, whole, in dashes or in dots by where it lies; and the bar that says how full it is."""

from firstfix.documents.drawing.kit import palette, svg
from firstfix.documents.drawing.kit.key import strip
from firstfix.documents.drawing.kit.palette import INK, PAPER, Stroke
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.ways.passages import EXPOSURES, OUTER_WALL, Passage

_DASHES = {"indoor": "", "outdoor": "8 3", "buried": "2 2"}
_WEIGHT, _CORE = 4.4, 2.8
BAR_WIDTH, BAR_HEIGHT = 58.0, 5.0
_SAMPLE = 26.0


def pipe(exposure: str) -> Stroke:
    return Stroke(INK, _WEIGHT, _DASHES.get(exposure, ""), _CORE)


def bar(x: float, y: float, shares: tuple[float, float], is_over: bool, width: float = BAR_WIDTH) -> str:
    """The whole is the bore; filled as far as it is full, with a mark at the limit."""
    fill, limit = (min(1.0, share) for share in shares)
    mark = x + width * limit
    return (
        svg.rect(x, y, width, BAR_HEIGHT, fill=PAPER, stroke=palette.HAIR, weight=0.5)
        + svg.rect(
            x, y, max(0.6, width * fill), BAR_HEIGHT, fill=palette.ALARM if is_over else palette.COPPER
        )
        # On a patch of the ground's colour, so that it is seen on the filled part too.
        + svg.rect(mark - 1.4, y - 1.6, 2.8, BAR_HEIGHT + 3.2, fill=PAPER)
        + svg.line(mark, y - 1.6, mark, y + BAR_HEIGHT + 1.6, Stroke(INK, 0.9))
    )


def _out(shown: tuple[Passage, ...], exposure: str) -> str:
    """Of ways of that exposure, whether some come out through a wall."""
    is_out = any(each.exposure == exposure and each.passes == OUTER_WALL for each in shown)
    return ", or out through the wall" if is_out and exposure == "indoor" else ""


def ways_key(shown: tuple[Passage, ...], is_graph: bool, width: float) -> Picture:
    """Only what is on the sheet."""
    exposures = {passage.exposure for passage in shown} if is_graph else set()
    samples = [
        (svg.line(0, 9, _SAMPLE, 9, pipe(exposure)), _SAMPLE, f"way {words}{_out(shown, exposure)}")
        for exposure, words in EXPOSURES.items()
        if exposure in exposures
    ]
    if any(passage.shares for passage in shown):
        samples.append(
            (bar(0, 6.5, (0.2, 0.4), False), BAR_WIDTH, "how full of cables; the mark is the limit")
        )
    return strip(samples, width)
