"""When parts come, and by when they are to be ordered: the shop's own lead time, else what the plan says for all others."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.schedule.days import Days
from firstfix.schedule.model import OrderBy
from firstfix.work.model import Task
from firstfix.work.preparing import UNPACK


class Coming(NamedTuple):
    """An item that is bought at `shop`, "" where none is named. `lead` in days, None where nobody says."""

    shop: str
    lead: int | None


def comings(build: Build, needs: Iterable[Need], order: Order | None) -> Mapping[str, Coming]:
    """By item that is to be bought. Of a line in several packs, the last to come counts."""
    shops: dict[str, Coming] = {}
    for parcel in order.parcels if order is not None else ():
        for line in parcel.lines:
            lead = line.offer.lead if line.offer.lead is not None else build.working.lead
            before = shops.get(line.need)
            if before is None or (lead or 0) > (before.lead or 0):
                shops[line.need] = Coming(parcel.shop.name, lead)
    usual = Coming("", build.working.lead)
    return {item: shops.get(need.id, usual) for need in needs for item in need.items}


def wait(task: Task, coming: Mapping[str, Coming]) -> int:
    """Days after the start until the parts of this step are there, if all is ordered at the start.

    Unpacking begins with what is there: what comes late holds up only the step that takes it.
    """
    if task.id == UNPACK:
        return 0
    return max((coming[item].lead or 0 for item in task.parts if item in coming), default=0)


def orders_by(
    tasks: Iterable[Task], coming: Mapping[str, Coming], days: Days, day: int, starts: Mapping[str, int]
) -> Iterator[OrderBy]:
    """One for each shop. Small parts without a step of their own are needed when the work begins."""
    leads: dict[str, list[int | None]] = {}
    needed: dict[str, list[_Needed]] = {}
    for task in tasks:
        start = starts[task.id]
        offset = days[start // day].offset
        for shop, lead in (coming[item] for item in task.parts if item in coming):
            leads.setdefault(shop, []).append(lead)
            if task.id != UNPACK:
                by = max(0, offset - (lead or 0))
                needed.setdefault(shop, []).append(_Needed(by, offset, start, task.id))
    for shop, said in sorted(leads.items()):
        mine = needed.get(shop, [_Needed(0, 0, 0, "")])
        first = min(mine, key=lambda each: (each.start, each.task))
        known = [lead for lead in said if lead is not None]
        is_known = len(known) == len(said)
        yield OrderBy(
            shop,
            max(known) if is_known else None,
            min(mine).by if is_known else None,
            first.offset,
            first.task,
        )


class _Needed(NamedTuple):
    """`by` and `offset` in days after the start: of the order, and of the step at minute `start`."""

    by: int
    offset: int
    start: int
    task: str
