"""Where a line of the shopping list is ordered, at which price, what else was offered, and what the parcel it comes in is for.

The order is worked out when somebody asks, as `build` works it out where nothing is ordered yet.
"""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.reasons import WORKED_OUT
from firstfix.explaining.model import Line
from firstfix.offers.model import Offer, Shop
from firstfix.purchase.ask import typed
from firstfix.purchase.lines import METRES
from firstfix.purchase.money import money
from firstfix.purchase.needs import Need, needs
from firstfix.purchase.order import Bought, Order, order
from firstfix.purchase.otherwise import WhyParcel, why_parcels
from firstfix.units import number

_ORDERED = "ordered at "
_MOST_OFFERS = 12
_MOST_NAMES = 4


def order_lines(build: Build, need: Need) -> Iterator[Line]:
    """Nothing where the plan names no shops."""
    found = _order(build)
    if found is None:
        return
    for held in found.held:
        if held.line == typed(need):
            yield Line("not ordered", held.why, WORKED_OUT)
    bought = [each for parcel in found.parcels for each in parcel.lines if each.need == need.id]
    for each in bought:
        yield _bought(build, each)
    yield from _others(build, found, need, bought)
    shops = {each.shop for each in bought}
    for why in _why_parcels(build):
        if why.shop in shops:
            yield Line(f"parcel of {why.shop}", _for_what(build, why, need), WORKED_OUT)


def is_ordered(line: Line) -> bool:
    """Whether a line of those says where something is bought."""
    return line.what.startswith(_ORDERED)


@once_per_build
def _order(build: Build) -> Order | None:
    return order(build, needs(build), {})


@once_per_build
def _why_parcels(build: Build) -> tuple[WhyParcel, ...]:
    found = _order(build)
    return tuple(why_parcels(found)) if found is not None else ()


def _bought(build: Build, each: Bought) -> Line:
    at = build.provenance.span(f"offer:{each.shop}/{each.offer.goods.name}")
    value = f"{each.packs} x {_price(build, each.each, each.offer, each.unit)} = {money(each.paid, build.currency)}"
    tax = ", tax added" if each.paid != each.written else ""
    return Line(f"{_ORDERED}{each.shop}", value + tax, WORKED_OUT, "part of the best order of all lines", at)


def _others(build: Build, found: Order, need: Need, bought: list[Bought]) -> Iterator[Line]:
    """The offers that were not taken, each with the price of one pack."""
    taken = {(each.shop, each.offer) for each in bought}
    wants = {place for place, each in enumerate(found.asked.needs) if each.id == need.id}
    others = [
        (offered.shop, offered.offer)
        for deal, offered in zip(found.asked.market.deals, found.asked.offers, strict=True)
        if deal.want in wants and (offered.shop.name, offered.offer) not in taken
    ]
    for shop, offer in others[:_MOST_OFFERS]:
        yield _other(build, shop, offer, need.amount.unit)
    if len(others) > _MOST_OFFERS:
        yield Line("and more", f"{len(others) - _MOST_OFFERS} further offers")


def _other(build: Build, shop: Shop, offer: Offer, unit: str) -> Line:
    at = build.provenance.span(f"offer:{shop.name}/{offer.goods.name}")
    steps = [_price(build, offer.prices[0].amount, offer, unit)]
    steps += [
        f"{money(each.amount, build.currency)} from {each.from_packs:,} on" for each in offer.prices[1:]
    ]
    return Line(f"offered at {shop.name}", ", ".join(steps), "", "not taken", at)


def _price(build: Build, amount: int, offer: Offer, unit: str) -> str:
    size = f" for {offer.goods.name.partition('/')[2]}" if unit == METRES else ""
    pack = f" for {number(offer.pack)}" if offer.pack > 1 else ""
    return f"{money(amount, build.currency)}{size or pack}"


def _for_what(build: Build, why: WhyParcel, need: Need) -> str:
    if need.id in why.forced_by:
        return "nobody else offers this line"
    if why.forced_by:
        names = [ids.path(each).replace(" ", "") for each in why.forced_by]
        more = len(names) - _MOST_NAMES
        listed = ", ".join(names[:_MOST_NAMES]) + (f" and {more} more" if more > 0 else "")
        return f"comes anyway, for nobody else offers {listed}"
    if not why.is_possible:
        return "without it no order can be made"
    if why.saves is None:
        return "no single line needs it; what it saves was not reckoned"
    return f"no single line needs it; without it the order would cost {money(why.saves, build.currency)} more"
