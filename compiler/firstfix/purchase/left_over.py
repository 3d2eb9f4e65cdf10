"""What was at hand: what the network takes of it, and what stays over. Nothing here is bought."""

from typing import NamedTuple

from firstfix.algorithms.cutting import Coil, Run
from firstfix.build.hardware import TO_BUY
from firstfix.build.model import Build
from firstfix.build.stock import StockLot
from firstfix.purchase.lines import METRES, PIECES, lot_of, title_of
from firstfix.units import metres


class AtHand(NamedTuple):
    """One lot of the plan's stock. `had`, `used` and `left` are pieces or metres (`unit`).

    `coil`: for cable, which runs are cut from it; None for what is counted.
    """

    part: str
    title: str
    unit: str
    had: float
    used: float
    left: float
    coil: Coil | None
    why_left: str = ""


def at_hand(build: Build) -> tuple[AtHand, ...]:
    """In the order of the stock's ids; each lot once."""
    return tuple(_at_hand(build, lot) for lot in build.stock)


def _at_hand(build: Build, lot: StockLot) -> AtHand:
    part = build.library.get(lot.part)
    words = [
        title_of(part, lot.part),
        *([metres(lot.length)] if lot.length else []),
        *filter(None, [lot.colour]),
    ]
    is_cable = part is not None and part.kind == "cable"
    had = lot.length if is_cable else float(lot.had)
    used = round(sum(each.amount for each in lot.taken), 6)
    return AtHand(
        lot.part,
        ", ".join(words),
        METRES if is_cable else PIECES,
        had,
        used,
        lot.left,
        _coil(build, lot) if is_cable else None,
        "" if is_cable else _why_left(build, lot),
    )


def _why_left(build: Build, lot: StockLot) -> str:
    """Why cords stay over while others of their length are bought: those have colours that these haven't."""
    if not lot.left or not lot.length:
        return ""
    of_length = (
        found
        for item in build.items
        if item.standing == TO_BUY and (found := lot_of(build, item))[:2] == (lot.part, lot.length)
    )
    colours = sorted({each.colour for each in of_length} - {"", lot.colour})
    if not colours:
        return ""
    spare = "; what is left counts as spares" if build.spares else ""
    return f"cords of this length are asked for in {', '.join(colours)} (`colours`, or the VLANs' `colour`){spare}"


def _coil(build: Build, lot: StockLot) -> Coil:
    """Longest first, as it is cut."""
    pieces = {item.id: item.for_id for item in build.items}
    runs = [Run(pieces[each.item], each.amount) for each in lot.taken]
    return Coil(lot.length, tuple(sorted(runs, key=lambda run: (-run.length, run.id))))
