"""A label's QR code (ISO/IEC 18004): plain text, no address of anything. Takes the text; gives the squares."""

from functools import lru_cache
from typing import NamedTuple

# Modules of white on each side: ISO/IEC 18004, quiet zone (from memory).
QUIET_ZONE = 4
# Millimetres. The standard leaves a module's size to the use (from memory); a telephone's camera at arm's length reads these:
# common practice, no source.
SMALLEST_MODULE = 0.33
LARGEST_MODULE = 0.6


class Code(NamedTuple):
    """`text` it carries; `modules` along a side, without the white around; `path`: SVG path data of the dark ones, a unit each."""

    text: str
    modules: int
    path: str

    def side(self, module: float) -> float:
        """With the white around, in the unit of `module`."""
        return (self.modules + 2 * QUIET_ZONE) * module

    def module_for(self, room: float) -> float:
        """How large a module may be in `room` millimetres; 0 where that is too small to be read."""
        module = min(room / (self.modules + 2 * QUIET_ZONE), LARGEST_MODULE)
        return module if module >= SMALLEST_MODULE else 0.0


# A label asks for its code when it is measured and again when it is drawn; to make one takes some 2 ms.
@lru_cache(maxsize=4096)
def code(text: str) -> Code:
    """The smallest code for `text`, with as much correction as fits into it. Raises ValueError for a text longer than any code.

    Both ends of a cable ask for the same one.
    """
    import segno

    rows = [bytes(row) for row in segno.make(text, micro=False, error="l").matrix]
    return Code(text, len(rows), "".join(_runs(rows)))


def _runs(rows: list[bytes]) -> list[str]:
    """A rectangle for each run of dark modules in a row: fewer pieces, and no seams between neighbours."""
    found: list[str] = []
    for y, row in enumerate(rows):
        x = 0
        while x < len(row):
            end = x
            while end < len(row) and row[end]:
                end += 1
            if end > x:
                found.append(f"M{x} {y}h{end - x}v1h-{end - x}z")
            x = max(end, x + 1)
    return found
