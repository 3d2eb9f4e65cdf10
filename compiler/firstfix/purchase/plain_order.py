"""An order that does, found without a search: each want at one seller, then sellers left out one by one while that makes it cheaper.

For markets that are too large to be searched. Knows nothing of how good it is; takes a market, gives packs for each deal, or None where it
finds no order, which does not mean that there is none.
"""

from firstfix.purchase.boxes import fewest_by_quick_method
from firstfix.purchase.market import Deal, Market, step_of, sums

_Packs = tuple[int, ...]


def plain_order(market: Market) -> _Packs | None:
    """The same for the same market. Looks at every deal some times for each seller."""
    open_ = set(range(len(market.sellers)))
    best = _covered(market, open_)
    while best is not None:
        used = sorted({deal.seller for deal, packs in zip(market.deals, best, strict=True) if packs})
        tried = [(seller, _covered(market, open_ - {seller})) for seller in used]
        found = [(_cost(market, packs), seller, packs) for seller, packs in tried if packs is not None]
        if not found or min(found)[0] >= _cost(market, best):
            return best
        _, seller, best = min(found)
        open_.discard(seller)
    return None


def _cost(market: Market, packs: _Packs) -> int:
    return sum(each.cost for each in sums(market, packs))


def _covered(market: Market, sellers: set[int]) -> _Packs | None:
    """Every want from the cheapest of `sellers`, those under their least order left out in turn."""
    open_ = set(sellers)
    while True:
        packs = [0] * len(market.deals)
        for want in range(len(market.wants)):
            chosen = _cheapest(market, want, open_)
            if chosen is None:
                return None
            packs[chosen[1]] = chosen[2]
        short = _short_of_least(market, packs)
        if short is None:
            return tuple(packs)
        open_.discard(short)


def _cheapest(market: Market, want: int, sellers: set[int]) -> tuple[int, int, int] | None:
    """Its cost, the deal and the packs of it; None where no single deal of these sellers covers the want."""
    found = []
    for place, deal in enumerate(market.deals):
        if deal.want != want or deal.seller not in sellers:
            continue
        packs = _enough(market, deal)
        if packs is not None and (deal.most is None or packs <= deal.most):
            found.append((packs * step_of(deal, packs).cost if packs else 0, place, packs))
    return min(found, default=None)


def _enough(market: Market, deal: Deal) -> int | None:
    want = market.wants[deal.want]
    if not want.runs:
        return -(-want.amount // deal.size)
    runs = sorted(want.runs, reverse=True)
    return fewest_by_quick_method(runs, deal.size) if runs[0] <= deal.size else None


def _short_of_least(market: Market, packs: list[int]) -> int | None:
    """The seller that is furthest below its least order."""
    written = [0] * len(market.sellers)
    for deal, count in zip(market.deals, packs, strict=True):
        written[deal.seller] += count * step_of(deal, count).written if count else 0
    short = [
        (paid - seller.least, place)
        for place, (seller, paid) in enumerate(zip(market.sellers, written, strict=True))
        if 0 < paid < seller.least
    ]
    return min(short)[1] if short else None
