"""An order beside others: all from one shop, and without each of its parcels; so that one sees what a parcel is for."""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.purchase.least import least
from firstfix.purchase.market import Deal, Market
from firstfix.purchase.order import Order

# Beyond so many offers, one more order for each parcel would take minutes.
_MOST_DEALS = 400


class OneShop(NamedTuple):
    """All that one shop has of the lines: `paid` for it there, None where it sells nothing so. `lacks`: lines that it has not."""

    shop: str
    paid: int | None
    lacks: tuple[str, ...]


class WhyParcel(NamedTuple):
    """`forced_by`: lines that nobody else offers. Without such, `saves` is what the best order without this shop costs more.

    Both may be empty: where so much is offered that it was not reckoned.
    """

    shop: str
    forced_by: tuple[str, ...]
    saves: int | None


def one_shop_each(order: Order) -> tuple[OneShop, ...]:
    return tuple(_one_shop(order, place) for place in range(len(order.asked.shops)))


def _one_shop(order: Order, seller: int) -> OneShop:
    market = order.asked.market
    deals = tuple(deal for deal in market.deals if deal.seller == seller)
    has = sorted({deal.want for deal in deals})
    lacks = tuple(want.id for place, want in enumerate(market.wants) if place not in has)
    found = least(_of(market, deals, has)) if has else None
    shop = order.asked.shops[seller].name
    return OneShop(shop, found.cost if found is not None else None, lacks)


def _of(market: Market, deals: tuple[Deal, ...], wants: list[int]) -> Market:
    places = {want: place for place, want in enumerate(wants)}
    return Market(
        tuple(market.wants[want] for want in wants),
        market.sellers,
        tuple(deal._replace(want=places[deal.want]) for deal in deals if deal.want in places),
    )


def why_parcels(order: Order) -> Iterator[WhyParcel]:
    """For each parcel what forces it, or what it saves."""
    market, shops = order.asked.market, order.asked.shops
    for parcel in order.parcels:
        place = shops.index(parcel.shop)
        others = tuple(deal for deal in market.deals if deal.seller != place)
        lost = sorted({deal.want for deal in market.deals} - {deal.want for deal in others})
        forced = tuple(market.wants[want].id for want in lost)
        saves = None
        if not forced and len(market.deals) <= _MOST_DEALS:
            found = least(market.only(others))
            saves = found.cost - order.paid if found is not None else None
        yield WhyParcel(parcel.shop.name, forced, saves)
