"""Whether a thing is there already or new, as a small sign and its word. Takes an item's standing; sizes are in points."""

from firstfix.build.hardware import IN_A_BOX, IN_PLACE, IN_STOCK, TO_BUY
from firstfix.documents.drawing.kit import marks, svg
from firstfix.documents.drawing.kit.palette import INK, Stroke

SIGN = 8.0
# In the order of a key.
WORDS = {
    IN_PLACE: "there already",
    TO_BUY: "new",
    IN_STOCK: "in stock",
    IN_A_BOX: "comes in a box",
}
MEANINGS = {
    IN_PLACE: "there already, in its place",
    TO_BUY: "new, to be bought",
    IN_STOCK: "in stock: at hand, to be put in its place",
    IN_A_BOX: "comes in the box of another thing",
}
_THIN = Stroke(INK, 1.1)


def sign(standing: str, x: float, middle: float) -> str:
    """7 wide from `x` on: a tick for what is there, a plus for what is new, an open box for what is at hand."""
    n = svg.number
    if standing == IN_PLACE:
        return svg.path(f"M{n(x)} {n(middle)}l2.4 2.7l4.4 -6", Stroke(INK, 1.4))
    if standing == TO_BUY:
        return marks.plus(x, middle)
    box = svg.path(f"M{n(x + 0.5)} {n(middle - 3)}v6h6v-6", _THIN)
    return box + svg.rect(x + 2, middle - 1.6, 3, 3, fill=INK) if standing == IN_A_BOX else box


def sample(standing: str) -> tuple[str, float, str]:
    """For the key."""
    return sign(standing, 0, 9), SIGN, MEANINGS[standing]
