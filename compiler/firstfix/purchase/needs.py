"""The shopping list as data: every item that is to be bought, in exactly one line, in packs as sold.

Takes a build and reads nothing but its items (and, for wording and cord lengths, what they point to). Gives
`Need`s in the order of the list. What is not known stays unknown: a part without a price has no sum, cable
that is sold in no stated length has no packs.
"""

from dataclasses import dataclass
from typing import NamedTuple

from firstfix.algorithms.cutting import Cutting, Run, cut
from firstfix.build.hardware import TO_BUY
from firstfix.build.model import Build
from firstfix.offers.currency import minor
from firstfix.parts.facts import TYPICAL, Fact, Unknown
from firstfix.parts.part import Part
from firstfix.purchase.lines import METRES, PIECES, Line, lines
from firstfix.purchase.money import Price
from firstfix.purchase.reasons import Reason, reasons
from firstfix.purchase.spares import spares
from firstfix.units import metres

_NO_PRICE = Unknown("the part has no price")
_NO_CUTS = Cutting((), 0.0, ())


class Pack(NamedTuple):
    """`number` packs as sold with `size` pieces or metres in each, each for `price` in minor units."""

    number: int
    size: float
    price: Price


class Amount(NamedTuple):
    """How much of a line: `needed` pieces or metres (`unit`), and `spares` beside, bought as `packs`.

    `cutting` says which run is cut from which coil (empty for what is counted). `unsettled`: what could not
    be worked out about the amount, in words.
    """

    unit: str
    needed: float
    packs: tuple[Pack, ...]
    cutting: Cutting
    unsettled: tuple[str, ...]
    spares: int = 0

    @property
    def bought(self) -> float:
        return round(sum(pack.number * pack.size for pack in self.packs), 6)

    @property
    def price(self) -> Price:
        """Of all packs, in minor units; unknown as soon as one price is, or the amount itself."""
        if self.unsettled or not self.packs:
            return Unknown("it is not settled how much to buy")
        known = [pack.number * pack.price for pack in self.packs if isinstance(pack.price, int)]
        return sum(known) if len(known) == len(self.packs) else _NO_PRICE


@dataclass(frozen=True, slots=True)
class Need:
    """One line to buy. `length` is a cord's as sold, in metres, else 0; `colour` is "" where any will do.

    `items` are the ids of what it serves, `reasons` the same for people. `is_typical_price`: the price is a
    stand-in from the library, not an offer. `shops`: where each of the packs is ordered; none where the plan names no shops.
    """

    id: str
    section: str
    part: str
    title: str
    length: float
    amount: Amount
    items: tuple[str, ...]
    reasons: tuple[Reason, ...]
    is_typical_price: bool
    colour: str = ""
    shops: tuple[str, ...] = ()


class Total(NamedTuple):
    """The sum of what has a price, in minor units, and how many lines have none."""

    known: int
    unpriced: int


def needs(build: Build) -> tuple[Need, ...]:
    """What must be bought, by section and title. Each item to buy is in one line, and nothing else is."""
    to_buy = (item for item in build.items if item.standing == TO_BUY)
    return tuple(_need(build, line) for line in lines(build, to_buy))


def needs_of(build: Build, part: str) -> tuple[Need, ...]:
    """The same for one part only: cutting all cable of a campus takes a while."""
    to_buy = (item for item in build.items if item.part == part and item.standing == TO_BUY)
    return tuple(_need(build, line) for line in lines(build, to_buy))


def total(given: tuple[Need, ...]) -> Total:
    prices = [each.amount.price for each in given]
    known = [price for price in prices if isinstance(price, int)]
    return Total(sum(known), len(prices) - len(known))


def _need(build: Build, line: Line) -> Need:
    price = line.part.price if line.part else _NO_PRICE
    return Need(
        line.id,
        line.section,
        line.name,
        line.title,
        line.length,
        _by_metre(build, line, line.cable) if line.cable else _by_piece(build, line),
        tuple(item.id for item in line.items),
        reasons(build, line.items),
        isinstance(price, Fact) and price.basis == TYPICAL,
        line.colour,
    )


def _by_piece(build: Build, line: Line) -> Amount:
    needed = sum(item.count for item in line.items)
    extra = spares(build, line)
    size = max(line.part.pack, 1) if line.part else 1
    packs = (Pack(-(-(needed + extra) // size), size, price_of_pack(build, line.part)),) if needed else ()
    return Amount(PIECES, needed, packs, _NO_CUTS, _unsettled_pieces(line), extra)


def _unsettled_pieces(line: Line) -> tuple[str, ...]:
    if line.part is None:
        return ("the part library does not hold it",)
    if line.part.kind in ("cord", "power-cord") and not line.length and _is_sold_by_length(line.part):
        return ("its length could not be worked out",)
    return ()


def _is_sold_by_length(part: Part) -> bool:
    return part.kind == "cord" or (part.cable is not None and bool(part.cable.lengths))


def _by_metre(build: Build, line: Line, part: Part) -> Amount:
    measured = [item for item in line.items if item.length > 0]
    runs = tuple(Run(item.for_id, item.length) for item in measured for _ in range(item.count))
    sold = part.cable.lengths if part.cable else ()
    cutting = cut(runs, sold)
    unmeasured = sum(item.count for item in line.items if item.length <= 0)
    needed = round(sum(run.length for run in runs), 6)
    packs = _coils(build, part, cutting)
    return Amount(METRES, needed, packs, cutting, _unsettled_metres(cutting, sold, unmeasured))


def _coils(build: Build, part: Part, cutting: Cutting) -> tuple[Pack, ...]:
    """Longest first, one entry for each length. A cable's price is for one metre."""
    sizes = [coil.length for coil in cutting.coils]
    distinct = sorted(set(sizes), reverse=True)
    return tuple(Pack(sizes.count(size), size, price_of_pack(build, part, size)) for size in distinct)


def _unsettled_metres(cutting: Cutting, sold: tuple[float, ...], unmeasured: int) -> tuple[str, ...]:
    found = []
    if not sold:
        found.append("the part does not say in which lengths it is sold")
    elif cutting.uncut:
        against = f"({metres(cutting.uncut[0].length)} against {metres(max(sold))})"
        found.append(f"{len(cutting.uncut)} of its runs longer than any length sold {against}")
    if unmeasured:
        found.append(f"{unmeasured} of its runs without a known length, not in these figures")
    return tuple(found)


def price_of_pack(build: Build, part: Part | None, times: float = 1) -> Price:
    """Of one pack, or of a coil with so many metres; in minor units."""
    if part is None or not isinstance(part.price, Fact):
        return _NO_PRICE
    return minor(part.price.typical, build.currency, times)
