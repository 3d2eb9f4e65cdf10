"""What the documents of one build share, made once: purchases, work, drawings, and a look-up by jack and device."""

from collections.abc import Iterator
from dataclasses import dataclass

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.set import sheets
from firstfix.documents.stubs.lookup import Lookup, lookup
from firstfix.finding.model import Report
from firstfix.growth.model import Growth
from firstfix.progress.model import NOTHING_KEPT, Progress
from firstfix.purchase.alternatives import Alternative, Priced, Tried, alternative, priced
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.purchase.order import order as order_from
from firstfix.purchase.ordered import as_ordered
from firstfix.purchase.owned import Owned, already_there
from firstfix.remaining.model import Remaining
from firstfix.remaining.pulled import needs_now
from firstfix.remaining.reckon import ordered_already, remaining
from firstfix.work.model import Task
from firstfix.work.order import order
from firstfix.work.tasks import tasks
from firstfix.work.tool_parts import ToolLine, tool_lines


@dataclass(frozen=True, slots=True)
class Made:
    """`sheets` is the set of drawings, in its order.

    `remaining` is None where nobody records what is done, `order` where the plan names no shops; with it, `needs` are as ordered.
    `growth`: how far it can grow, where that was asked.
    Ids in the drawings are apart from each other's, so that all fit on one page.
    """

    build: Build
    report: Report
    look: Lookup
    needs: tuple[Need, ...]
    owned: tuple[Owned, ...]
    work: tuple[Task, ...]
    sheets: tuple[Drawing, ...]
    remaining: Remaining | None
    order: Order | None = None
    alternatives: tuple[Alternative, ...] = ()
    progress: Progress = NOTHING_KEPT
    growth: tuple[Growth, ...] = ()

    @property
    def tools(self) -> tuple[ToolLine, ...]:
        """What the steps ask for, to borrow or to buy."""
        return tool_lines(self.build, self.work)

    @property
    def done(self) -> frozenset[str]:
        """Ids of the steps that are done already."""
        return self.remaining.done if self.remaining is not None else frozenset()


def make(
    build: Build, report: Report, progress: Progress = NOTHING_KEPT, tried: tuple[Tried, ...] = ()
) -> Made:
    work, to_buy = order(tasks(build), build.phases), needs_now(build, progress)
    ordered = ordered_already(to_buy, progress)
    to_shops = order_from(build, to_buy, ordered)
    if to_shops is not None:
        to_buy = as_ordered(to_buy, to_shops, ordered)
    return Made(
        build,
        report,
        lookup(build),
        to_buy,
        already_there(build),
        work,
        sheets(build, report.has_errors),
        remaining(build, work, to_buy, progress) if progress.is_kept else None,
        to_shops,
        tuple(_alternatives(build, progress, tried, priced(to_buy, to_shops))) if tried else (),
        progress,
    )


def _alternatives(
    build: Build, progress: Progress, tried: tuple[Tried, ...], now: Priced
) -> Iterator[Alternative]:
    for each in tried:
        to_buy = needs_now(each.build, progress)
        to_shops = order_from(each.build, to_buy, ordered_already(to_buy, progress))
        device = build.devices[ids.device(each.device)]
        yield alternative(each, device.part.name, now, priced(to_buy, to_shops))
