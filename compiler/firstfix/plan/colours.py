"""Colours of cords and cables: a closed list, so that "gren" is a fault and not a colour of its own.

The words are those of IEC 60757 (colour designations; from memory), without those of bare metal, and with the two
that fibre cords are sold in besides (TIA-598-D, from memory).
"""

from firstfix.source.fields import Fields
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Scalar, clip, describe

COLOURS = (
    "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "pink", "turquoise",
    "aqua", "lime",
)  # fmt: skip
_SAME_AS = {"purple": "violet", "lilac": "violet", "gray": "grey", "cyan": "turquoise", "magenta": "pink"}
# IEC 60445 keeps this pair for protective earth conductors (from memory).
_EARTH = ("green-and-yellow", "green-yellow", "yellow-green")


def read_colour(fields: Fields, key: str) -> str:
    """The colour at `key`, or "" where none is said or it is faulty."""
    node = fields.value(key)
    if node is None:
        return ""
    if not isinstance(node, Scalar):
        fields.wrong(node, f"'{key}' is a colour such as green, not {describe(node)}")
        return ""
    return node.text if check_colour(fields, node, node.text) else ""


def check_colour(fields: Fields, node: Scalar, text: str) -> bool:
    """Whether `text` is a colour of the list; reports one that isn't at `node`."""
    if text in COLOURS:
        return True
    if text in _EARTH:
        fields.wrong(node, f"'{clip(text)}' is kept for earth conductors; a data cable has another colour")
        return False
    known = _SAME_AS.get(text.lower())
    hint = f"; write '{known}'" if known else did_you_mean(text, COLOURS)
    fields.wrong(node, f"'{clip(text)}' is no colour of the list ({', '.join(COLOURS)}){hint}")
    return False
