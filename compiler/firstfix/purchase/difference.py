"""From one shopping list to another: what is still to be bought when all of the old list is there, and what of it is left over.

Takes two builds; gives packs and lengths as they are sold. Of the old list nothing is cut yet, and a pack bought for it counts
with all that is in it. Prices are those of the parts, not of shops.
"""

from typing import NamedTuple

from firstfix.algorithms.cutting import Run, cut
from firstfix.build.model import Build
from firstfix.parts.facts import Unknown
from firstfix.purchase.ask import typed
from firstfix.purchase.lines import METRES
from firstfix.purchase.money import Price
from firstfix.purchase.needs import Amount, Need, Pack, needs, price_of_pack


class Difference(NamedTuple):
    """Packs of one line; `unit` is pieces or m. `unsettled`: why it isn't known how many, in words; then `packs` may be too few."""

    line: str
    title: str
    part: str
    unit: str
    packs: tuple[Pack, ...]
    unsettled: tuple[str, ...]

    @property
    def price(self) -> Price:
        known = [pack.number * pack.price for pack in self.packs if isinstance(pack.price, int)]
        is_known = len(known) == len(self.packs) and not self.unsettled
        return sum(known) if is_known else Unknown("not all of it has a price")


class Purchases(NamedTuple):
    """In the order of the shopping list; `left_over` is whole packs of the old list that the new one has no use for."""

    to_buy: tuple[Difference, ...]
    left_over: tuple[Difference, ...]
    currency: str


def purchases(old: Build, new: Build) -> Purchases:
    before = {need.id: need for need in needs(old)}
    after = {need.id: need for need in needs(new)}
    to_buy, left_over = list[Difference](), list[Difference]()
    for id_, need in after.items():
        more, less = _of_line(new, before.get(id_), need)
        to_buy += _if_any(need, more, need.amount.unsettled)
        left_over += _if_any(need, less, ())
    for id_, need in before.items():
        if id_ not in after:
            left_over += _if_any(need, need.amount.packs, ())
    return Purchases(tuple(to_buy), tuple(left_over), new.currency)


def _if_any(need: Need, packs: tuple[Pack, ...], unsettled: tuple[str, ...]) -> list[Difference]:
    if not packs and not unsettled:
        return []
    return [Difference(typed(need), need.title, need.part, need.amount.unit, packs, unsettled)]


_Packs = tuple[Pack, ...]


def _of_line(new: Build, before: Need | None, need: Need) -> tuple[_Packs, _Packs]:
    """Packs to buy beside the old ones, and old ones that are not needed."""
    if before is None:
        return need.amount.packs, ()
    if need.amount.unit == METRES:
        return _cable(new, before.amount, need)
    return _counted(before.amount, need.amount)


def _counted(before: Amount, after: Amount) -> tuple[_Packs, _Packs]:
    wanted = after.needed + after.spares
    (pack,) = after.packs or (Pack(0, 1, 0),)
    short = wanted - before.bought
    if short > 0:
        return (pack._replace(number=int(-(-short // pack.size))),), ()
    (old,) = before.packs or (pack,)
    spare = int((before.bought - wanted) // old.size)
    return (), (old._replace(number=spare),) if spare else ()


def _cable(new: Build, before: Amount, need: Need) -> tuple[_Packs, _Packs]:
    """The runs of the new list cut from the coils of the old one first."""
    part = new.library.get(need.part)
    sold = part.cable.lengths if part is not None and part.cable else ()
    here = [pack.size for pack in before.packs for _ in range(pack.number)]
    runs: list[Run] = [run for coil in need.amount.cutting.coils for run in coil.runs]
    cutting = cut(runs, sold, here)
    idle = [coil.length for coil in cutting.at_hand if not coil.runs]
    return _packs(new, need, [coil.length for coil in cutting.coils]), _packs(new, need, idle)


def _packs(new: Build, need: Need, lengths: list[float]) -> _Packs:
    part = new.library.get(need.part)
    distinct = sorted(set(lengths), reverse=True)
    return tuple(Pack(lengths.count(size), size, price_of_pack(new, part, size)) for size in distinct)
