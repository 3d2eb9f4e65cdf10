"""From one shopping list to another: what there is to buy once all of the old list is there, what of it is left over, what comes free.

Takes two builds; gives packs and lengths as they are sold, and what they cost: by the shops of the new plan where it has any, else by
the prices of the parts. A pack bought for the old list counts with all that is in it. Of the old list's cable, what is laid is cut off.
"""

from collections.abc import Mapping, Set
from dataclasses import replace
from typing import NamedTuple

from firstfix.algorithms.cutting import Cutting, Run, cut
from firstfix.build.model import Build
from firstfix.build.renames import renamed
from firstfix.parts.facts import Unknown
from firstfix.purchase.ask import typed
from firstfix.purchase.lines import METRES, Lot
from firstfix.purchase.money import Price
from firstfix.purchase.needs import Amount, Need, Pack, needs, price_of_pack
from firstfix.purchase.order import Order, order
from firstfix.purchase.used_again import SetFree, set_free


class Difference(NamedTuple):
    """Packs of one line; `unit` is pieces or m. `unsettled`: why it isn't known how many, in words; then `packs` may be too few.

    `is_typical_price`: the price is a stand-in from the library.
    """

    line: str
    title: str
    part: str
    unit: str
    packs: tuple[Pack, ...]
    unsettled: tuple[str, ...]
    is_typical_price: bool = False

    @property
    def price(self) -> Price:
        known = [pack.number * pack.price for pack in self.packs if isinstance(pack.price, int)]
        is_known = len(known) == len(self.packs) and not self.unsettled
        return sum(known) if is_known else Unknown("not all of it has a price")


class Purchases(NamedTuple):
    """In the order of the shopping list; `left_over` is whole packs of the old list that the new one has no use for.

    `free`: single things that the change sets free. `order`: from the shops, None where the new plan names none or nothing is to buy.
    """

    to_buy: tuple[Difference, ...]
    left_over: tuple[Difference, ...]
    currency: str
    free: SetFree
    order: Order | None


class Beside(NamedTuple):
    """A line of the new list, `whole` and as it was `before` in the old one, None where that has no such line; `to_buy` beside that."""

    to_buy: Need
    whole: Need
    before: Need | None


def purchases(
    old: Build, new: Build, names: Mapping[str, str] | None = None, laid: Set[str] = frozenset()
) -> Purchases:
    """`names`: old id to new one, of what goes by another. `laid`: old ids of the runs that are pulled already."""
    names = names or {}
    free = set_free(old, new, names)
    found = _Lists(old, new, names, laid, free)
    to_buy, left_over, short = list[Difference](), list[Difference](), list[Need]()
    for id_, need in found.after.items():
        more, less = found.of_line(id_, need)
        to_buy += _if_any(more, more.amount.unsettled)
        short += [more] if more.amount.packs or more.amount.unsettled else []
        left_over += _if_any(_with_packs(need, less), ())
    for id_, need in found.before.items():
        if id_ not in found.after:
            left_over += _if_any(need, ())
    bought = order(new, tuple(short), {}) if short else None
    return Purchases(tuple(to_buy), tuple(left_over), new.currency, free, bought)


def needs_beside(old: Build, new: Build, laid: Set[str] = frozenset()) -> tuple[Beside, ...]:
    """The lines of the new list with what there is to buy of them beside the old one, by the same names on both sides."""
    found = _Lists(old, new, {}, laid, set_free(old, new, {}))
    return tuple(
        Beside(found.of_line(id_, need)[0], need, found.before.get(id_)) for id_, need in found.after.items()
    )


def _if_any(need: Need, unsettled: tuple[str, ...]) -> list[Difference]:
    amount = need.amount
    if not amount.packs and not unsettled:
        return []
    return [
        Difference(
            typed(need), need.title, need.part, amount.unit, amount.packs, unsettled, need.is_typical_price
        )
    ]


def _with_packs(need: Need, packs: tuple[Pack, ...]) -> Need:
    return replace(need, amount=need.amount._replace(packs=packs))


class _Lists:
    """Both shopping lists, and what of the old one serves the new one."""

    def __init__(
        self, old: Build, new: Build, names: Mapping[str, str], laid: Set[str], free: SetFree
    ) -> None:
        self._old, self._new, self._names, self._laid = old, new, names, laid
        self.before = {need.id: need for need in needs(old)}
        self.after = {need.id: need for need in needs(new)}
        # What is used again and was on no list: the old lists' packs know nothing of it.
        self._again: dict[Lot, int] = {each.lot: each.count - each.bought for each in free.again}

    def of_line(self, id_: str, need: Need) -> tuple[Need, tuple[Pack, ...]]:
        """What is to buy of a line beside the old packs, and the old ones that are not needed."""
        more, less = self._of_line(id_, need)
        before = self.before.get(id_)
        if before is None or not more.amount.unsettled or self._is_in_new_doubt(before, more):
            return more, less
        return replace(more, amount=more.amount._replace(unsettled=())), less

    def _is_in_new_doubt(self, before: Need, need: Need) -> bool:
        """Whether anything is unsettled that was not so in the old list already: that is no difference."""
        if need.amount.unit != METRES:
            return bool(need.amount.packs) or not before.amount.unsettled
        was = {renamed(each, self._names) for each in _doubtful(self._old, before)}
        return not was.issuperset(_doubtful(self._new, need))

    def _of_line(self, id_: str, need: Need) -> tuple[Need, tuple[Pack, ...]]:
        before = self.before.get(id_)
        if need.amount.unit == METRES:
            return (need, ()) if before is None else self._cable(before.amount, need)
        again = self._again.get(Lot(need.part, need.length, need.colour), 0)
        if before is None and not again:
            return need, ()
        return _counted(before.amount if before is not None else None, need, again)

    def _cable(self, before: Amount, need: Need) -> tuple[Need, tuple[Pack, ...]]:
        """The runs of the new list cut from the coils of the old one first."""
        part = self._new.library.get(need.part)
        sold = part.cable.lengths if part is not None and part.cable else ()
        whole, begun, lies = self._coils(before)
        runs: list[Run] = [run for coil in need.amount.cutting.coils for run in coil.runs]
        to_lay = [run for run in runs if (run.id, run.length) not in lies]
        cutting = cut(to_lay, sold, [*whole, *begun])
        idle = [coil.length for coil in cutting.at_hand[: len(whole)] if not coil.runs]
        amount = need.amount._replace(
            needed=round(sum(run.length for coil in cutting.coils for run in coil.runs), 6),
            packs=self._packs(need, [coil.length for coil in cutting.coils]),
            cutting=Cutting(cutting.coils, cutting.least, need.amount.cutting.uncut),
        )
        return replace(need, amount=amount), self._packs(need, idle)

    def _coils(self, before: Amount) -> tuple[list[float], list[float], Set[tuple[str, float]]]:
        """Coils that are whole, what is left of those that are cut into, and the runs that lie, by their new ids."""
        whole, begun, lies = list[float](), list[float](), set[tuple[str, float]]()
        for coil in before.cutting.coils:
            laid = [run for run in coil.runs if run.id in self._laid]
            lies |= {(renamed(run.id, self._names), run.length) for run in laid}
            if laid:
                begun.append(round(coil.length - sum(run.length for run in laid), 6))
            else:
                whole.append(coil.length)
        return whole, [each for each in begun if each > 0], lies

    def _packs(self, need: Need, lengths: list[float]) -> tuple[Pack, ...]:
        part = self._new.library.get(need.part)
        distinct = sorted(set(lengths), reverse=True)
        return tuple(
            Pack(lengths.count(size), size, price_of_pack(self._new, part, size)) for size in distinct
        )


def _doubtful(build: Build, need: Need) -> set[str]:
    """Ids of the runs whose length is not known, or longer than any that is sold."""
    of_need = frozenset(need.items)
    unmeasured = {item.for_id for item in build.items if item.id in of_need and item.length <= 0}
    return unmeasured | {run.id for run in need.amount.cutting.uncut}


def _counted(before: Amount | None, need: Need, again: int) -> tuple[Need, tuple[Pack, ...]]:
    """`again`: pieces that come free and were on no list."""
    amount = need.amount
    had = (before.bought if before is not None else 0) + again
    short = amount.needed + amount.spares - had
    (pack,) = amount.packs or (Pack(0, 1, 0),)
    if short > 0:
        packs = (pack._replace(number=int(-(-short // pack.size))),)
        return replace(need, amount=amount._replace(needed=short, spares=0, packs=packs)), ()
    (old,) = (before.packs if before is not None else ()) or (pack,)
    spare = min(int(-short // old.size), old.number if before is not None and before.packs else 0)
    nothing = replace(need, amount=amount._replace(needed=0, spares=0, packs=()))
    return nothing, (old._replace(number=spare),) if spare else ()
