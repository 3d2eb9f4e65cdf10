"""The sentences of an order's overview: how good it is, what each parcel is for, and what others would cost."""

from itertools import groupby

from firstfix.build.ids import path
from firstfix.offers.model import FEWEST_PARCELS, LEAST_CHANGE, LEAST_COST, SOONEST
from firstfix.purchase.ask import Held, typed
from firstfix.purchase.money import money
from firstfix.purchase.order import Order, Parcel
from firstfix.purchase.otherwise import OneShop, WhyParcel
from firstfix.units import number

_SHOWN = 6
_AIMS = {
    LEAST_COST: "the least cost",
    FEWEST_PARCELS: "the fewest parcels",
    SOONEST: "having all of it soonest",
    LEAST_CHANGE: "the least change against the earlier order",
}


def aim_words(order: Order, currency: str) -> str:
    words = f"Ordered for {_AIMS[order.aim]}."
    if order.missed:
        words += f" The plan asks for {_AIMS[order.missed]}, but no order for that was found within the limits of the search."
    if order.aim == LEAST_COST or not order.parcels:
        return words
    more = order.paid - order.least
    if not more:
        return f"{words} No order costs less."
    return f"{words} That costs {money(more, currency)} more than the cheapest order, which comes to {money(order.least, currency)}."


def bound_words(order: Order, currency: str) -> str:
    if order.is_proven:
        return "No order of these lines from these shops costs less: this is proven, with postage, price steps, packs and cutting in one reckoning."
    return (
        f"No order of these lines can cost less than {money(order.bound, currency)}; whether anything between does was not settled"
        " within the limits of the search."
    )


def tax_words(parcel: Parcel, currency: str) -> str:
    tax = parcel.shop.tax
    if tax.is_added:
        return f"Prices are without tax; {_percent(tax.rate or 0)} is added, here to each pack, so an invoice may differ by some of the smallest coins."
    if not tax.is_said:
        return "The plan does not say whether tax is in these prices."
    if parcel.included is None:
        return "Prices are with tax; its rate is not said."
    if not tax.rate:
        return "No tax is paid."
    return f"Prices are with tax: of the whole, {money(parcel.included, currency)} is tax at {_percent(tax.rate)}."


def lead_words(parcel: Parcel) -> str:
    if parcel.lead is None:
        return "not known"
    return "at once" if not parcel.lead else f"{parcel.lead} {'day' if parcel.lead == 1 else 'days'}"


def parcel_words(why: WhyParcel, currency: str) -> str:
    if why.forced_by:
        return f"{why.shop}: nobody else offers {_listed([_line(each) for each in why.forced_by])}."
    if not why.is_possible:
        return f"{why.shop}: no single line needs it, but without it no order can be made: the others have too few, or sell nothing for so little."
    if why.saves is None:
        return f"{why.shop}: no single line needs it; what it saves was not reckoned."
    if not why.saves:
        return f"{why.shop}: no line needs it, and an order without it costs the same."
    if why.saves < 0:
        return f"{why.shop}: no line needs it; without it the order would cost {money(-why.saves, currency)} less."
    return f"{why.shop}: no line needs it; without it the order would cost {money(why.saves, currency)} more."


def one_shop_words(one: OneShop, order: Order, currency: str) -> str:
    if not one.is_reckoned:
        return f"{one.shop}: not reckoned, the search for it would be too large."
    if one.paid is None:
        has_any = len(one.lacks) < len(order.asked.needs)
        return f"{one.shop}: {'sells nothing for so little' if has_any else 'offers none of these lines'}."
    most = "" if one.is_least else "at most "
    if one.lacks:
        lacks = f"{len(one.lacks)} of {len(order.asked.needs)} lines"
        return f"{one.shop}: {most}{money(one.paid, currency)} for what it has; it lacks {lacks}: {_listed([_line(each) for each in one.lacks])}."
    more = one.paid - order.paid
    against = (
        f"{money(more, currency)} more"
        if more > 0
        else f"{money(-more, currency)} less"
        if more
        else "the same"
    )
    return f"{one.shop}: everything for {most}{money(one.paid, currency)}, {against}."


def more_than_needed(order: Order) -> list[str]:
    """Lines of which a whole pack is bought that nothing needs: for a lower price, free postage or a shop's least order."""
    market = order.asked.market
    found = []
    for place, (want, need) in enumerate(zip(market.wants, order.asked.needs, strict=True)):
        sizes = [
            deal.size
            for deal, packs in zip(market.deals, order.packs, strict=True)
            for _ in range(packs)
            if deal.want == place
        ]
        if not want.runs and sizes and sum(sizes) - min(sizes) >= want.amount:
            found.append(f"{typed(need)}: {sum(sizes)} are bought and {want.amount} needed")
    return found


def held_by_reason(held: tuple[Held, ...]) -> list[tuple[str, str]]:
    """Each reason with the lines that it holds back."""
    ordered = sorted(held, key=lambda each: (each.why, each.line))
    return [
        (why, ", ".join(each.line for each in some)) for why, some in groupby(ordered, lambda each: each.why)
    ]


def _line(need: str) -> str:
    return path(need).replace(" ", "")


def _listed(names: list[str]) -> str:
    more = len(names) - _SHOWN
    return ", ".join(names[:_SHOWN]) + (f" and {more} more" if more > 0 else "")


def _percent(rate: int) -> str:
    return f"{number(rate / 100)} %"
