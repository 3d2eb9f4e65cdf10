"""Spares of what is made up or breaks by hand: of one part and length, whatever the colours, one for each so many, rounded up.

So there is at least one of each length. A spare helps out wherever a cord breaks, so its colour matters little: it is that of
which there are most. What is at hand and nothing takes counts as spare, of any colour. What is in place already has none bought for
it.
"""

from collections.abc import Mapping

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
    counts = _new(build).get((line.name, line.length), {})
    if line.colour != _commonest(build, line, counts):
        return 0
    wanted = -(-sum(counts.values()) // build.spares)
    at_hand = sum(each.left for each in build.stock if (each.part, each.length) == (line.name, line.length))
    return max(0, wanted - int(at_hand))


def _commonest(build: Build, line: Line, counts: Mapping[str, int]) -> str:
    """Of the colours that are bought anyway; of equals, the first by name."""
    lots = _bought(build)
    bought = [colour for colour in sorted(counts) if Lot(line.name, line.length, colour) in lots]
    return max(bought, key=lambda colour: counts[colour], default="")


def spare_rule(build: Build) -> str:
    """The rule in words, or "" where no spares are bought."""
    return (
        f"1 spare for each {build.spares} of one part and length, whatever the colours, and at least 1"
        if build.spares
        else ""
    )


@once_per_build
def _bought(build: Build) -> frozenset[Lot]:
    return frozenset(lot_of(build, item) for item in build.items if item.standing == TO_BUY)


@once_per_build
def _new(build: Build) -> dict[tuple[str, float], dict[str, int]]:
    """How many of each part and length, by colour, the network takes, bought or from stock."""
    kinds = {
        name: build.library[name].kind
        for name in {item.part for item in build.items}
        if name in build.library
    }
    spared = {name for name, kind in kinds.items() if kind == _BY_LENGTH or kind in _COUNTED}
    found: dict[tuple[str, float], dict[str, int]] = {}
    for item in build.items:
        if item.part in spared and item.standing in (TO_BUY, IN_STOCK):
            lot = lot_of(build, item)
            colours = found.setdefault((lot.part, lot.length), {})
            colours[lot.colour] = colours.get(lot.colour, 0) + item.count
    return found
