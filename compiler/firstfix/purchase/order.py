"""The purchase order: from the needs and the shops of a build to one parcel from each shop, the best for the author's aim.

What cannot be ordered is held back with its reason, never taken to cost nothing.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.algorithms.cutting import Coil, Run
from firstfix.build.model import Build
from firstfix.offers.model import LEAST_CHANGE, LEAST_COST, SOONEST, Offer, Shop
from firstfix.purchase import least as solving
from firstfix.purchase.ask import Asked, Held, ask, typed
from firstfix.purchase.least import Answer
from firstfix.purchase.lines import METRES, PIECES
from firstfix.purchase.market import Market, step_of
from firstfix.purchase.needs import Need
from firstfix.purchase.whole_numbers import MOST_WORK, Unproved, Work


class Bought(NamedTuple):
    """`packs` of one offer; `each` as the shop writes it, `paid` for all with tax. `size` pieces or metres (`unit`) in a pack."""

    line: str
    need: str
    shop: str
    title: str
    offer: Offer
    unit: str
    size: float
    packs: int
    each: int
    paid: int

    @property
    def written(self) -> int:
        return self.packs * self.each


class Parcel(NamedTuple):
    """What one shop sends. `goods` as written, `tax` that is added to them and to the postage, `postage` as written.

    `included`: the tax within `paid`, None where its rate is not said. `lead`: days until all is there, None where one is not known.
    """

    shop: Shop
    lines: tuple[Bought, ...]
    goods: int
    postage: int
    tax: int
    included: int | None
    paid: int
    lead: int | None


class Cuts(NamedTuple):
    """How the runs of one line are cut from the boxes that are bought."""

    need: str
    title: str
    coils: tuple[Coil, ...]


@dataclass(frozen=True, slots=True)
class Order:
    """`bound`: below which no order of these lines can cost; equal to `paid` where that is proven, for the aim least-cost.

    `least`: what the cheapest order costs, if the aim is another. `held`: what is not ordered. `already`: lines ordered before.
    `missed`: the aim that was wished, where the search ended before an order for it was found; `aim` is then the least cost.
    """

    aim: str
    parcels: tuple[Parcel, ...]
    cuts: tuple[Cuts, ...]
    bound: int
    least: int
    held: tuple[Held, ...]
    already: tuple[str, ...]
    asked: Asked
    packs: tuple[int, ...]
    missed: str = ""

    @property
    def paid(self) -> int:
        return sum(parcel.paid for parcel in self.parcels)

    @property
    def is_proven(self) -> bool:
        return self.bound >= self.paid


def order(
    build: Build, needs: tuple[Need, ...], ordered: Mapping[str, float], most_work: int = MOST_WORK
) -> Order | None:
    """None where the plan names no shops. `ordered`: how much of each line is ordered already, by its id.

    `most_work` is for the least cost, and as much again for another aim.
    """
    if not build.shops:
        return None
    asked = ask(build, needs, ordered)
    aim = build.purchase.aim
    try:
        cheapest = solving.least(asked.market, work=Work(most_work))
    except Unproved:
        return _none(asked, aim, _TOO_LARGE)
    if cheapest is None:
        return _none(asked, aim, _IMPOSSIBLE)
    try:
        found = cheapest if aim == LEAST_COST else _for_aim(build, asked, aim, Work(most_work)) or cheapest
        missed = ""
    except Unproved:
        found, aim, missed = cheapest, LEAST_COST, aim
    parcels = tuple(_parcels(asked, found))
    return Order(
        aim, parcels, tuple(_cuts(asked, found)), found.bound, cheapest.cost, asked.held, asked.already, asked, found.packs,
        missed,
    )  # fmt: skip


_IMPOSSIBLE = "no order keeps to every shop's least order and to what they have"
_TOO_LARGE = "no order was found within the limit of the search"


def _none(asked: Asked, aim: str, why: str) -> Order:
    held = (*asked.held, *(Held(typed(need), need.title, why) for need in asked.needs))
    return Order(aim, (), (), 0, 0, held, asked.already, asked, (0,) * len(asked.offers))


def _for_aim(build: Build, asked: Asked, aim: str, work: Work) -> Answer | None:
    if aim == SOONEST:
        return _soonest(asked.market, work)
    if aim == LEAST_CHANGE:
        return solving.least(asked.market, solving.LEAST_CHANGE, packs_before(build, asked), work)
    return solving.least(asked.market, aim, work=work)


def _soonest(market: Market, work: Work) -> Answer | None:
    """The cheapest order of those whose last parcel comes first. Of a line without any lead time, all offers stay."""
    unknown = set(range(len(market.wants))) - {deal.want for deal in market.deals if deal.lead is not None}
    days = sorted({deal.lead for deal in market.deals if deal.lead is not None})
    # What can be had in some days can be had in more: the number of days is halved down.
    best, low, high = None, 0, len(days)
    while low < high:
        middle = (low + high) // 2
        found = _within(market, unknown, days[middle], work)
        if found is None:
            low = middle + 1
        else:
            best, high = found, middle
    return best


def _within(market: Market, unknown: set[int], days: int, work: Work) -> Answer | None:
    in_time = [
        deal._replace(
            most=deal.most if deal.want in unknown or (deal.lead is not None and deal.lead <= days) else 0
        )
        for deal in market.deals
    ]
    covered = {deal.want for deal in in_time if deal.most != 0}
    return (
        solving.least(market.only(tuple(in_time)), work=work) if len(covered) == len(market.wants) else None
    )


def packs_before(build: Build, asked: Asked) -> tuple[int, ...]:
    """Packs of each offer in the earlier order."""
    wanted = {(each.shop, each.goods, each.pack): each.packs for each in build.purchase.before}
    return tuple(
        wanted.get((shop.name, offer.goods, offer.pack), wanted.get((shop.name, offer.goods, 0), 0))
        for shop, offer in asked.offers
    )


def _parcels(asked: Asked, found: Answer) -> Iterator[Parcel]:
    for place, (shop, sum_) in enumerate(zip(asked.shops, found.sums, strict=True)):
        lines = tuple(_bought(asked, found, place))
        if not lines:
            continue
        postage = (shop.postage or 0) if sum_.postage else 0
        leads = [each.offer.lead for each in lines]
        known = [lead for lead in leads if lead is not None]
        yield Parcel(
            shop, lines, sum_.written, postage, sum_.cost - sum_.written - postage,
            None if shop.tax.is_added else shop.tax.within(sum_.cost), sum_.cost,
            max(known) if len(known) == len(leads) else None,
        )  # fmt: skip


def _bought(asked: Asked, found: Answer, seller: int) -> Iterator[Bought]:
    for deal, (shop, offer), packs in zip(asked.market.deals, asked.offers, found.packs, strict=True):
        if not packs or deal.seller != seller:
            continue
        need, step = asked.needs[deal.want], step_of(deal, packs)
        is_cable = need.amount.unit == METRES
        yield Bought(
            typed(need), need.id, shop.name, need.title, offer, METRES if is_cable else PIECES,
            deal.size / 1000 if is_cable else deal.size, packs, step.written, packs * step.cost,
        )  # fmt: skip


def _cuts(asked: Asked, found: Answer) -> Iterator[Cuts]:
    for want, (boxes, places) in found.boxes.items():
        held: list[list[Run]] = [[] for _ in boxes]
        for run, place in zip(asked.runs[want], places, strict=True):
            held[place].append(run)
        coils = (Coil(size / 1000, tuple(runs)) for size, runs in zip(boxes, held, strict=True))
        yield Cuts(asked.needs[want].id, asked.needs[want].title, tuple(coils))
