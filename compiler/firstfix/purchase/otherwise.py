"""An order beside others: all from one shop, and without each of its parcels; so that one sees what a parcel is for."""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.purchase.least import LEAST_COST, Answer, least
from firstfix.purchase.market import Deal, Market
from firstfix.purchase.order import Order
from firstfix.purchase.whole_numbers import Unproved, Work


class OneShop(NamedTuple):
    """All that one shop has of the lines: `paid` for it there, None where it sells nothing so. `lacks`: lines that it has not.

    `is_least`: whether it is proven that they don't cost less there; what could not be reckoned is not `is_reckoned`.
    """

    shop: str
    paid: int | None
    lacks: tuple[str, ...]
    is_least: bool = True
    is_reckoned: bool = True


class WhyParcel(NamedTuple):
    """`forced_by`: lines that nobody else offers. Without such, `saves` is what the best order without this shop costs more.

    Both may be empty: where so much is offered that it was not reckoned, or where no order without this shop `is_possible`.
    """

    shop: str
    forced_by: tuple[str, ...]
    saves: int | None
    is_possible: bool = True


def one_shop_each(order: Order) -> tuple[OneShop, ...]:
    work = Work()
    return tuple(_one_shop(order, place, work) for place in range(len(order.asked.shops)))


def _one_shop(order: Order, seller: int, work: Work) -> OneShop:
    market = order.asked.market
    deals = tuple(deal for deal in market.deals if deal.seller == seller)
    has = sorted({deal.want for deal in deals})
    lacks = tuple(want.id for place, want in enumerate(market.wants) if place not in has)
    shop = order.asked.shops[seller].name
    try:
        found = least(_of(market, deals, has), work=work) if has else None
    except Unproved:
        return OneShop(shop, None, lacks, is_reckoned=False)
    return (
        OneShop(shop, found.cost, lacks, found.is_least) if found is not None else OneShop(shop, None, lacks)
    )


def _of(market: Market, deals: tuple[Deal, ...], wants: list[int]) -> Market:
    places = {want: place for place, want in enumerate(wants)}
    return Market(
        tuple(market.wants[want] for want in wants),
        market.sellers,
        tuple(deal._replace(want=places[deal.want]) for deal in deals if deal.want in places),
    )


def why_parcels(order: Order) -> Iterator[WhyParcel]:
    """For each parcel what forces it, or what it saves."""
    market, shops, work = order.asked.market, order.asked.shops, Work()
    for parcel in order.parcels:
        place = shops.index(parcel.shop)
        others = tuple(deal for deal in market.deals if deal.seller != place)
        lost = sorted({deal.want for deal in market.deals} - {deal.want for deal in others})
        forced = tuple(market.wants[want].id for want in lost)
        if forced or work.is_over():
            yield WhyParcel(parcel.shop.name, forced, None)
            continue
        try:
            found = least(market.only(others), work=work)
        except Unproved:
            yield WhyParcel(parcel.shop.name, (), None)
            continue
        yield _compared(parcel.shop.name, found, order)


def _compared(shop: str, without: Answer | None, order: Order) -> WhyParcel:
    """What is not proven is not said: the difference would be that of two guesses."""
    if without is None:
        return WhyParcel(shop, (), None, is_possible=False)
    is_certain = without.is_least and (order.is_proven or order.aim != LEAST_COST)
    return WhyParcel(shop, (), without.cost - order.paid if is_certain else None)
