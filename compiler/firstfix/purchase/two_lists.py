"""Two shopping lists side by side, of two networks of which only one is built: what more or less is to buy, and what that costs.

Takes two builds; gives the lines whose packs differ, and both sums: by the shops where the plan names any, else by the prices of the
parts. Only cable that is pulled is taken as bought, and stays cut; what there is to buy after another list is purchase/difference.py.
"""

from collections.abc import Mapping, Set
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.purchase.alternatives import Priced, priced
from firstfix.purchase.as_cut import needs_as_cut
from firstfix.purchase.ask import typed
from firstfix.purchase.money import Price
from firstfix.purchase.needs import Need, Pack, needs
from firstfix.purchase.order import order
from firstfix.purchase.ordered import as_ordered


class OnList(NamedTuple):
    """What one of the lists says of a line: packs, their price in minor units, and why it isn't settled how many."""

    needed: float
    packs: tuple[Pack, ...]
    price: Price
    unsettled: tuple[str, ...]


NOT_ON_IT = OnList(0.0, (), 0, ())


class TwoLines(NamedTuple):
    """One line as both lists have it. `is_typical_price`: the price is a stand-in from the library."""

    line: str
    title: str
    part: str
    unit: str
    before: OnList
    after: OnList
    is_typical_price: bool


class TwoLists(NamedTuple):
    """`lines` that differ in what is to buy, in the order of the second list, then those that only the first one has.

    `paid` in minor units. `unpriced`: lines that are in neither sum for want of a price, or an offer.
    """

    lines: tuple[TwoLines, ...]
    paid_before: int
    paid_after: int
    unpriced_before: tuple[str, ...]
    unpriced_after: tuple[str, ...]
    currency: str

    @property
    def more(self) -> int:
        """What the second list costs more, less than nothing where it is cheaper."""
        return self.paid_after - self.paid_before


def two_lists(
    before: Build, after: Build, pulled: Set[str] = frozenset(), had: Mapping[str, float] | None = None
) -> TwoLists:
    """`pulled`: ids of runs that lie already; `had`: how much there is of a need, by its id."""
    (old, old_paid), (new, new_paid) = _list(before, pulled, had or {}), _list(after, pulled, had or {})
    here, there = {need.id: need for need in old}, {need.id: need for need in new}
    lines = [_line(here.get(id_), need) for id_, need in there.items()]
    lines += [_line(need, None) for id_, need in here.items() if id_ not in there]
    return TwoLists(
        tuple(each for each in lines if _differ(each.before, each.after)),
        old_paid.paid,
        new_paid.paid,
        tuple(sorted(old_paid.unpriced)),
        tuple(sorted(new_paid.unpriced)),
        after.currency,
    )


def _list(build: Build, pulled: Set[str], had: Mapping[str, float]) -> tuple[tuple[Need, ...], Priced]:
    plain = needs(build)
    to_buy = needs_as_cut(build, plain, pulled, had)
    # Shops would cut all of it anew.
    begun = {now.id: had[now.id] for now, then in zip(to_buy, plain, strict=True) if now is not then}
    to_shops = order(build, to_buy, begun)
    if to_shops is not None:
        to_buy = as_ordered(to_buy, to_shops, begun)
    return to_buy, priced(to_buy, to_shops)


def _line(before: Need | None, after: Need | None) -> TwoLines:
    need = after or before
    assert need is not None
    return TwoLines(
        typed(need),
        need.title,
        need.part,
        need.amount.unit,
        _on_list(before),
        _on_list(after),
        need.is_typical_price,
    )


def _on_list(need: Need | None) -> OnList:
    if need is None:
        return NOT_ON_IT
    amount = need.amount
    return OnList(amount.needed + amount.spares, amount.packs, amount.price, amount.unsettled)


def _differ(before: OnList, after: OnList) -> bool:
    """What is bought counts; metres more from the same reel change nothing."""
    return (before.packs, before.unsettled) != (after.packs, after.unsettled)
