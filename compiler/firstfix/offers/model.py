"""What shops offer and how the author wishes to buy. Money is in minor units of the shop's currency; no place in a file is kept here."""

from typing import NamedTuple

from firstfix.units import metres

LEAST_COST = "least-cost"
FEWEST_PARCELS = "fewest-parcels"
SOONEST = "soonest"
LEAST_CHANGE = "least-change"
AIMS = (LEAST_COST, FEWEST_PARCELS, SOONEST, LEAST_CHANGE)


class Goods(NamedTuple):
    """What is offered: a part; of cords and cable also the length in metres, else 0; a colour, "" for whichever is asked for."""

    part: str
    length: float
    colour: str

    @property
    def name(self) -> str:
        """As one types it: `cord-cat6/1m/green`."""
        length = metres(self.length).replace(" ", "") if self.length else ""
        return "/".join(filter(None, (self.part, length, self.colour)))


class Price(NamedTuple):
    """`amount` for each pack, from so many packs on."""

    from_packs: int
    amount: int


class Offer(NamedTuple):
    """Packs of `pack` pieces; the first of `prices` is from 1 on. `most`: so many packs at most, None for as many as wanted.

    `pack` is 0 where the author says none, until the part that is offered is known: it is then that part's own.
    `lead`: days until it is there, None where nobody says.
    """

    goods: Goods
    pack: int
    prices: tuple[Price, ...]
    most: int | None
    lead: int | None
    note: str = ""


class Tax(NamedTuple):
    """`rate` in hundredths of a percent, None where nobody says. `is_added`: it comes on top of the prices as written."""

    rate: int | None = None
    is_added: bool = False
    is_said: bool = False

    def on(self, amount: int) -> int:
        """The tax that comes on top of `amount`, to the nearest minor unit, a half to the even one."""
        return _divided(amount * self.rate, 10_000) if self.is_added and self.rate else 0

    def within(self, paid: int) -> int | None:
        """The tax in an amount that is paid; None where the rate is not said."""
        return None if self.rate is None else _divided(paid * self.rate, 10_000 + self.rate)


def _divided(dividend: int, divisor: int) -> int:
    whole, rest = divmod(dividend, divisor)
    return whole + (2 * rest > divisor or (2 * rest == divisor and whole % 2 == 1))


class Shop(NamedTuple):
    """`postage` None where nobody says; it is not paid from goods for `free_from` on. Less than `least_order` is not sold."""

    name: str
    currency: str
    postage: int | None
    free_from: int | None
    least_order: int
    tax: Tax
    offers: tuple[Offer, ...]


class Before(NamedTuple):
    """So many packs of one offer in an earlier order. `pack` 0: of the shop's only offer of these goods."""

    shop: str
    goods: Goods
    pack: int
    packs: int


class Wish(NamedTuple):
    """How to buy. `energy_price`: of one kWh in the plan's currency, None where nobody says.

    `instead`: pairs of a device and another part that could take its place. `sold_out`: parts that can't be had.
    `runs`: by part or kind of part, how many hours a day it runs; what is not among them runs day and night.
    """

    aim: str = LEAST_COST
    before: tuple[Before, ...] = ()
    energy_price: float | None = None
    instead: tuple[tuple[str, str], ...] = ()
    sold_out: tuple[str, ...] = ()
    runs: tuple[tuple[str, float], ...] = ()


NO_WISH = Wish()
