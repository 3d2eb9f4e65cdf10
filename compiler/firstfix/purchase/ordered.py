"""The needs as they are ordered: packs and prices (tax included) of the chosen shops instead of those of the part library."""

from collections.abc import Mapping
from dataclasses import replace

from firstfix.algorithms.cutting import Coil, Cutting
from firstfix.purchase.ask import typed
from firstfix.purchase.needs import Need, Pack
from firstfix.purchase.order import Bought, Order


def as_ordered(needs: tuple[Need, ...], order: Order, ordered: Mapping[str, float]) -> tuple[Need, ...]:
    """Lines of which some is ordered already stay as they are: their packs are not known."""
    bought: dict[str, list[Bought]] = {}
    for parcel in order.parcels:
        for line in parcel.lines:
            bought.setdefault(line.need, []).append(line)
    cuts = {each.need: each.coils for each in order.cuts}
    held = {each.line: each.why for each in order.held}
    return tuple(
        _as_ordered(need, bought[need.id], cuts.get(need.id, ()), held.get(typed(need), ""))
        if need.id in bought and not ordered.get(need.id)
        else need
        for need in needs
    )


def _as_ordered(need: Need, bought: list[Bought], coils: tuple[Coil, ...], why_held: str) -> Need:
    packs = tuple(Pack(each.packs, each.size, each.paid // each.packs) for each in bought)
    cutting = Cutting(coils, need.amount.cutting.least, ()) if coils else need.amount.cutting
    unsettled = (why_held,) if why_held else ()
    amount = need.amount._replace(packs=packs, cutting=cutting, unsettled=unsettled)
    return replace(need, amount=amount, is_typical_price=False, shops=tuple(each.shop for each in bought))
