"""The colours that cords are sold in: facts of a plan, unlike the palette's. Each goes with letters and its word.

A paint in the code is a character like the palette's roles, which `themes` replaces: a print without colour shows its letters alone.
"""

from typing import NamedTuple


class Paint(NamedTuple):
    """`letters` by IEC 60757 (from memory); aqua and lime, which that has not, by letters of our own. `colour` as #rrggbb."""

    word: str
    letters: str
    role: str
    colour: str


# How each looks is our own judgement; no standard fixes it.
PAINTS: tuple[Paint, ...] = tuple(
    Paint(word, letters, chr(0xE020 + number), colour)
    for number, (word, letters, colour) in enumerate(
        (
            ("black", "BK", "#1a1a1a"),
            ("brown", "BN", "#7a4a21"),
            ("red", "RD", "#c8202c"),
            ("orange", "OG", "#f08a1c"),
            ("yellow", "YE", "#f5d327"),
            ("green", "GN", "#2f9444"),
            ("blue", "BU", "#2763c4"),
            ("violet", "VT", "#7d3fa0"),
            ("grey", "GY", "#8d9399"),
            ("white", "WH", "#fdfdfd"),
            ("pink", "PK", "#ee8fb4"),
            ("turquoise", "TQ", "#1fb5ad"),
            ("aqua", "AQ", "#7fdfe6"),
            ("lime", "LI", "#b2dc3a"),
        )
    )
)
BY_WORD = {paint.word: paint for paint in PAINTS}
_WHITE = "#ffffff"


def colours(is_without_colour: bool) -> dict[str, str]:
    """Role to colour; all white for a print without colour."""
    return {paint.role: _WHITE if is_without_colour else paint.colour for paint in PAINTS}
