"""Spares of what is made up or breaks by hand: for each lot of one part, length and colour, one for each so many, rounded up.

So there is at least one of each lot. What is at hand and nothing takes counts as spare. What is in place already has none bought
for it.
"""

from firstfix.build.hardware import IN_STOCK, TO_BUY
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.purchase.lines import Line, Lot, lot_of

# A cord of unknown length is not bought, nor is a spare of it.
_BY_LENGTH = "cord"
_COUNTED = ("plug", "jack-module", "transceiver")


def spares(build: Build, line: Line) -> int:
    """How many spares are bought along with `line`; 0 for whatever isn't a plug, module, transceiver, or cord of known length."""
    kind = line.part.kind if line.part is not None else ""
    if not build.spares or not (kind in _COUNTED or (kind == _BY_LENGTH and line.length)):
        return 0
    lot = Lot(line.name, line.length, line.colour)
    wanted = -(-_new(build).get(lot, 0) // build.spares)
    at_hand = sum(each.left for each in build.stock if Lot(each.part, each.length, each.colour) == lot)
    return max(0, wanted - int(at_hand))


def spare_rule(build: Build) -> str:
    """The rule in words, or "" where no spares are bought."""
    return f"1 spare for each {build.spares} of a lot, and at least 1" if build.spares else ""


@once_per_build
def _new(build: Build) -> dict[Lot, int]:
    """How many of each lot the network takes, bought or from stock."""
    kinds = {
        name: build.library[name].kind
        for name in {item.part for item in build.items}
        if name in build.library
    }
    spared = {name for name, kind in kinds.items() if kind == _BY_LENGTH or kind in _COUNTED}
    found: dict[Lot, int] = {}
    for item in build.items:
        if item.part in spared and item.standing in (TO_BUY, IN_STOCK):
            lot = lot_of(build, item)
            found[lot] = found.get(lot, 0) + item.count
    return found
