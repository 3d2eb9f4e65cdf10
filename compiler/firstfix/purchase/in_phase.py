"""What there is to buy for one phase: beside what was bought for those before it, packs begun and coils cut included.

Takes the build as of the phase before and as of this one; gives lines of a shopping list, and what is taken from what lies there. The
cable of earlier phases lies by then. Over all phases, what is needed adds up to the whole list's, and of what is counted the packs too.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from firstfix.build.cabling import RUN
from firstfix.build.hardware import TO_BUY, Item
from firstfix.build.model import Build
from firstfix.purchase.difference import Beside, needs_beside
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need, needs
from firstfix.purchase.reasons import Reason, reasons


class FromBefore(NamedTuple):
    """So many pieces or metres of a line that this phase takes out of packs and coils bought for those before it."""

    line: str
    title: str
    unit: str
    quantity: float
    reasons: tuple[Reason, ...]


class InPhase(NamedTuple):
    """In the order of the list. `needed` of a line is all that the phase needs of it, `spares` what it adds to them."""

    to_buy: tuple[Need, ...]
    from_before: tuple[FromBefore, ...]


def fresh_items(before: Build | None, after: Build) -> tuple[Item, ...]:
    """What comes with the phase; all of it where there is no phase before."""
    if before is None:
        return after.items
    there = {item.id for item in before.items}
    return tuple(item for item in after.items if item.id not in there)


def in_phase(before: Build | None, after: Build) -> InPhase:
    """Each line says what of this phase it is for."""
    if before is None:
        return InPhase(needs(after), ())
    laid = frozenset(piece.id for piece in before.pieces.values() if piece.kind == RUN)
    fresh = {item.id: item for item in fresh_items(before, after) if item.standing == TO_BUY}
    to_buy, taken = list[Need](), list[FromBefore]()
    for each in needs_beside(before, after, laid):
        need = _for_these(after, each, fresh)
        if need.amount.packs or need.amount.unsettled:
            to_buy.append(need)
        quantity = _from_before(need)
        if quantity > 0:
            why = reasons(after, _lying(need, fresh))
            taken.append(FromBefore(need.id, need.title, need.amount.unit, quantity, why))
    return InPhase(tuple(to_buy), tuple(taken))


def _for_these(build: Build, each: Beside, fresh: Mapping[str, Item]) -> Need:
    need, was = each.to_buy, each.before
    items = tuple(fresh[id_] for id_ in each.whole.items if id_ in fresh)
    needed = sum(item.count * (item.length if need.amount.unit == METRES else 1) for item in items)
    spares = max(0, each.whole.amount.spares - (was.amount.spares if was is not None else 0))
    amount = need.amount._replace(needed=round(needed, 6), spares=spares)
    if not items:
        # A spare more, for what grew as a whole.
        return replace(need, amount=amount)
    return replace(need, amount=amount, items=tuple(item.id for item in items), reasons=reasons(build, items))


def _lying(need: Need, fresh: Mapping[str, Item]) -> tuple[Item, ...]:
    """What may be taken from before: of cable, what is in no new coil."""
    cutting = need.amount.cutting
    new = {run.id for coil in cutting.coils for run in coil.runs} | {run.id for run in cutting.uncut}
    return tuple(fresh[id_] for id_ in need.items if id_ in fresh and fresh[id_].for_id not in new)


def _from_before(need: Need) -> float:
    """How much of what is needed is not in the new packs; of cable, the runs that no new coil holds."""
    amount = need.amount
    if amount.unit != METRES:
        return max(0, amount.needed - amount.bought)
    cut = sum(run.length for coil in amount.cutting.coils for run in coil.runs)
    uncut = sum(run.length for run in amount.cutting.uncut)
    return max(0.0, round(amount.needed - cut - uncut, 6))
