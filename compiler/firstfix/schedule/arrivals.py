"""When parts come, and by when they are to be ordered: the shop's own lead time, else what the plan says for all others.

What is recorded as arrived is here, and what is recorded as ordered comes its lead time after that day.
"""

import datetime
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.progress.model import NOTHING_KEPT, BoughtLine, Progress
from firstfix.purchase.ask import typed
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.schedule.days import Days
from firstfix.schedule.model import OrderBy
from firstfix.work.model import Task
from firstfix.work.preparing import UNPACK


class Coming(NamedTuple):
    """An item that is bought at `shop`, "" where none is named. `lead` in days, None where nobody says.

    `wait`: days after the start until it is here, if what is not ordered yet is ordered at the start.
    """

    shop: str
    lead: int | None
    wait: int
    is_ordered: bool = False


def comings(
    build: Build, needs: Iterable[Need], order: Order | None, progress: Progress = NOTHING_KEPT
) -> Mapping[str, Coming]:
    """By item that is to be bought and is not here. Of a line in several packs, the last to come counts."""
    shops: dict[str, Coming] = {}
    for parcel in order.parcels if order is not None else ():
        for line in parcel.lines:
            lead = line.offer.lead if line.offer.lead is not None else build.working.lead
            before = shops.get(line.need)
            if before is None or (lead or 0) > (before.lead or 0):
                shops[line.need] = Coming(parcel.shop.name, lead, lead or 0)
    usual = Coming("", build.working.lead, build.working.lead or 0)
    found: dict[str, Coming] = {}
    for need in needs:
        standing = _standing(need, progress.bought.get(typed(need)))
        if standing is not _HERE:
            coming = shops.get(need.id) or (usual if standing is _TO_ORDER else _somewhere(build, need.part))
            coming = _as_recorded(coming, standing, build.start)
            found |= dict.fromkeys(need.items, coming)
    return found


_HERE, _TO_ORDER = "here", "to order"


def _standing(need: Need, bought: BoughtLine | None) -> str:
    """Here, to be ordered, or the day on which all of it was ordered, "" where nobody wrote the day down."""
    if bought is None:
        return _TO_ORDER
    amount = need.amount
    wanted = max(amount.bought, amount.needed)
    in_metres = amount.unit == METRES
    arrived, ordered = (
        each.value if each.in_metres == in_metres else 0.0 for each in (bought.arrived, bought.ordered)
    )
    if arrived >= wanted:
        return _HERE
    return bought.ordered_on if max(arrived, ordered) >= wanted else _TO_ORDER


def _somewhere(build: Build, part: str) -> Coming:
    """Of what is ordered, nobody records where: the longest lead of all shops that offer it counts."""
    leads = [
        offer.lead if offer.lead is not None else build.working.lead
        for shop in build.shops
        for offer in shop.offers
        if offer.goods.part == part
    ]
    lead = max((each for each in leads if each is not None), default=build.working.lead)
    return Coming("", lead, lead or 0)


def _as_recorded(coming: Coming, standing: str, start: str) -> Coming:
    if standing is _TO_ORDER:
        return coming
    if not (standing and start):
        return coming._replace(is_ordered=True)
    passed = datetime.date.fromisoformat(start) - datetime.date.fromisoformat(standing)
    return coming._replace(is_ordered=True, wait=max(0, coming.wait - passed.days))


def wait(task: Task, coming: Mapping[str, Coming]) -> int:
    """Days after the start until the parts of this step are there.

    Unpacking begins with what is there: what comes late holds up only the step that takes it.
    """
    if task.id == UNPACK:
        return 0
    return max((coming[item].wait for item in task.parts if item in coming), default=0)


def orders_by(
    tasks: Iterable[Task],
    coming: Mapping[str, Coming],
    days: Days,
    day: int,
    starts: Mapping[str, int],
    unheld: Mapping[str, int],
) -> Iterator[OrderBy]:
    """One for each shop, of what is not ordered yet. Small parts without a step of their own are needed when the work begins.

    `starts` of the steps, and `unheld`: as they would be if no part were late. Both in minutes.
    """
    leads: dict[str, list[int | None]] = {}
    needed: dict[str, list[_Needed]] = {}
    for task in tasks:
        start = starts[task.id]
        offset = days[start // day].offset
        wished = days[unheld[task.id] // day].offset
        for each in (coming[item] for item in task.parts if item in coming):
            if each.is_ordered:
                continue
            leads.setdefault(each.shop, []).append(each.lead)
            if task.id != UNPACK:
                lead = each.lead or 0
                need = _Needed(max(0, offset - lead), offset, start, task.id, wished - lead)
                needed.setdefault(each.shop, []).append(need)
    for shop, said in sorted(leads.items()):
        mine = needed.get(shop, [_Needed(0, 0, 0, "", 0)])
        first = min(mine, key=lambda each: (each.start, each.task))
        known = [lead for lead in said if lead is not None]
        is_known = len(known) == len(said)
        yield OrderBy(
            shop,
            max(known) if is_known else None,
            min(mine).by if is_known else None,
            first.offset,
            first.task,
            min(0, *(each.wished for each in mine)) if is_known else 0,
        )


class _Needed(NamedTuple):
    """`by` and `offset` in days after the start: of the order, and of the step at minute `start`. `wished`: when to order so that
    nothing waits.
    """

    by: int
    offset: int
    start: int
    task: str
    wished: int
