"""The cheapest order by looking at every one. Knows nothing of firstfix: plain tuples in, the least cost out."""

from collections.abc import Callable
from functools import cache

# (seller, want, pieces in a pack or length of a box, ((from packs, price written, price paid), ...), most packs or None)
Deal = tuple[int, int, int, tuple[tuple[int, int, int], ...], int | None]
# (postage, free from or None, least order)
Seller = tuple[int, int | None, int]
# (pieces wanted, lengths of runs, lengths of coils at hand)
Want = tuple[int, tuple[int, ...], tuple[int, ...]]


def cheapest(wants: tuple[Want, ...], sellers: tuple[Seller, ...], deals: tuple[Deal, ...]) -> int | None:
    """None where nothing under 400 covers the wants. Small purchases are looked through first, to be quick."""
    for limit in (50, 100, 200, 400):
        found = cheapest_under(limit, wants, sellers, deals)
        if found is not None:
            return found
    return None


def cheapest_under(
    limit: int, wants: tuple[Want, ...], sellers: tuple[Seller, ...], deals: tuple[Deal, ...]
) -> int | None:
    """Amounts grow until their price alone passes the best order seen."""
    best = [limit]
    chosen = [0] * len(deals)

    def price_of(deal: Deal, packs: int) -> tuple[int, int]:
        reached = [step for step in deal[3] if step[0] <= packs]
        _, written, paid = max(reached)
        return written, paid

    def further(place: int, paid: int) -> None:
        if place == len(deals):
            cost = whole(wants, sellers, deals, chosen, price_of)
            if cost is not None and cost < best[0]:
                best[0] = cost
            return
        deal = deals[place]
        lowest = min(step[2] for step in deal[3])
        packs = 0
        while deal[4] is None or packs <= deal[4]:
            if paid + packs * lowest >= best[0]:
                break
            chosen[place] = packs
            further(place + 1, paid + (price_of(deal, packs)[1] * packs if packs else 0))
            packs += 1
        chosen[place] = 0

    further(0, 0)
    return best[0] if best[0] < limit else None


def whole(
    wants: tuple[Want, ...],
    sellers: tuple[Seller, ...],
    deals: tuple[Deal, ...],
    chosen: list[int],
    price_of: Callable[[Deal, int], tuple[int, int]],
) -> int | None:
    """The cost of one order, or None where it does not do."""
    for number, (amount, runs, at_hand) in enumerate(wants):
        mine = [(deal[2], packs) for deal, packs in zip(deals, chosen, strict=True) if deal[1] == number]
        if runs:
            boxes = [*at_hand, *(size for size, packs in mine for _ in range(packs))]
            if not fits(tuple(sorted(runs, reverse=True)), tuple(sorted(boxes))):
                return None
        elif sum(size * packs for size, packs in mine) < amount:
            return None
    cost = 0
    for number, (postage, free_from, least) in enumerate(sellers):
        bought = [
            (deal, packs) for deal, packs in zip(deals, chosen, strict=True) if packs and deal[0] == number
        ]
        if not bought:
            continue
        written = sum(price_of(deal, packs)[0] * packs for deal, packs in bought)
        if written < least:
            return None
        cost += sum(price_of(deal, packs)[1] * packs for deal, packs in bought)
        cost += 0 if free_from is not None and written >= free_from else postage
    return cost


@cache
def fits(runs: tuple[int, ...], boxes: tuple[int, ...]) -> bool:
    if not runs:
        return True
    first, rest = runs[0], runs[1:]
    return any(
        fits(rest, tuple(sorted((*boxes[:place], room - first, *boxes[place + 1 :]))))
        for place, room in enumerate(boxes)
        if room >= first and room not in boxes[:place]
    )
