"""Spare cords: for each lot of one part, length and colour, one for each so many, rounded up.

So there is at least one of each lot. Cords at hand that nothing takes count as spares. Cords that are in place already
have none bought for them.
"""

from firstfix.build.hardware import IN_STOCK, TO_BUY
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.purchase.lines import Line, Lot, lot_of


def spares(build: Build, line: Line) -> int:
    """How many spare cords are bought along with `line`; 0 for whatever isn't a cord of known length."""
    if not build.spares or not line.length or line.part is None or line.part.kind != "cord":
        return 0
    lot = Lot(line.name, line.length, line.colour)
    wanted = -(-_new_cords(build).get(lot, 0) // build.spares)
    at_hand = sum(each.left for each in build.stock if Lot(each.part, each.length, each.colour) == lot)
    return max(0, wanted - int(at_hand))


def spare_rule(build: Build) -> str:
    """The rule in words, or "" where no spares are bought."""
    return f"1 spare for each {build.spares} of a lot, and at least 1" if build.spares else ""


@once_per_build
def _new_cords(build: Build) -> dict[Lot, int]:
    """How many cords of each lot the network takes, bought or from stock."""
    found: dict[Lot, int] = {}
    for item in build.items:
        if item.standing in (TO_BUY, IN_STOCK) and item.for_id in build.pieces:
            lot = lot_of(build, item)
            if lot.length:
                found[lot] = found.get(lot, 0) + item.count
    return found
