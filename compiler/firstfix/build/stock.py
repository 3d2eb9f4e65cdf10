"""What was at hand before anything is bought: how much of it the network takes, and what stays over."""

from typing import NamedTuple


class Taken(NamedTuple):
    """`amount` pieces, or metres cut from a coil, for the item with this id."""

    item: str
    amount: float


class StockLot(NamedTuple):
    """Equal things at hand, or one coil of cable. `length` in metres of a cord or coil, else 0; `colour` "" where nobody said.

    `had` of them were there. `taken` is sorted by items. `left`: pieces, or metres of a coil.
    """

    id: str
    part: str
    length: float
    colour: str
    had: int
    taken: tuple[Taken, ...]
    left: float
