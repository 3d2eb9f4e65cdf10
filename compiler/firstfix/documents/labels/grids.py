"""Sheets of labels as they are sold, and plain paper to cut. Takes the plan's word for a sheet; gives its measures in millimetres.

The measures are those that are common for sheets of so many labels: common practice, from memory, no source. Columns and rows stand in the
middle of the sheet. Whoever prints measures the sheet at hand first.
"""

from collections.abc import Iterator
from typing import NamedTuple

POINTS_PER_MM = 72 / 25.4
# ISO 216, and size A of ANSI/ASME Y14.1.
_A4 = (210.0, 297.0)
_LETTER = (215.9, 279.4)
PAPERS = {"a4": _A4, "letter": _LETTER}


class Cell(NamedTuple):
    """The upper left corner of a label on its sheet, and its size; millimetres."""

    x: float
    y: float
    width: float
    height: float


class Grid(NamedTuple):
    """`label`: width and height of one. `gap`: between columns; rows touch. Millimetres."""

    paper: str
    columns: int
    rows: int
    label: tuple[float, float]
    gap: float

    def cells(self) -> Iterator[Cell]:
        """Row by row."""
        (wide, high), (paper_wide, paper_high) = self.label, PAPERS[self.paper]
        left = (paper_wide - self.columns * wide - (self.columns - 1) * self.gap) / 2
        top = (paper_high - self.rows * high) / 2
        for row in range(self.rows):
            for column in range(self.columns):
                yield Cell(left + column * (wide + self.gap), top + row * high, wide, high)


GRIDS = {
    "a4-2x7": Grid("a4", 2, 7, (99.1, 38.1), 2.5),
    "a4-3x8": Grid("a4", 3, 8, (70.0, 37.0), 0.0),
    "a4-5x13": Grid("a4", 5, 13, (38.1, 21.2), 2.5),
    "letter-2x5": Grid("letter", 2, 5, (101.6, 50.8), 4.76),
    "letter-3x10": Grid("letter", 3, 10, (66.7, 25.4), 3.18),
    "letter-4x20": Grid("letter", 4, 20, (44.4, 12.7), 7.94),
}
