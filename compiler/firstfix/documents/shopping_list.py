"""shopping-list.md and shopping-list.csv: what to buy, in packs as sold, and what is there already.

Takes the results of purchase/ and the build that they were made from; gives the files' text.
"""

from collections.abc import Iterable
from decimal import Decimal
from itertools import groupby
from typing import NamedTuple

from firstfix.algorithms.cutting import Coil, Cutting
from firstfix.build.model import Build
from firstfix.build.phases import Phase
from firstfix.documents.csv_table import Cell, csv_table
from firstfix.documents.templates import render
from firstfix.offers.currency import minor as in_minor
from firstfix.parts.facts import Fact, Unknown
from firstfix.purchase.by_phase import PhaseCost, costs_by_phase, phases_of
from firstfix.purchase.in_phase import FromBefore
from firstfix.purchase.left_over import AtHand, at_hand
from firstfix.purchase.lines import METRES, PIECES
from firstfix.purchase.money import Price, money, plain
from firstfix.purchase.needs import Amount, Need, Pack, total
from firstfix.purchase.not_counted import NotCounted, not_counted
from firstfix.purchase.owned import Owned
from firstfix.purchase.reasons import in_full, in_short, shown
from firstfix.purchase.spares import spare_rule
from firstfix.remaining.reckon import line_id
from firstfix.units import metres, number
from firstfix.work.tool_parts import ToolLine

CSV_HEADER = (
    "section", "what", "part", "packs", "in a pack", "unit", "needed in all", "spares", "price of a pack", "sum",
    "currency", "for", "to settle", "shop", "phase", "line",
)  # fmt: skip

TOOLS_HEADER = ("what", "part", "steps", "price", "currency")

# So many names of what is not on the list are said.
_MOST_NAMES = 12
_ORDERED = "Bought as it costs least with everything else that is ordered; see orders.md."


class Row(NamedTuple):
    """One row of the table, in words; `line` is what `firstfix progress` knows it by."""

    buy: str
    what: str
    needed: str
    each: str
    sum: str
    needed_for: str
    line: str
    shop: str
    phase: str


class PhaseRow(NamedTuple):
    """One phase in words; `by` and `budget` are "" where the plan says none."""

    name: str
    by: str
    paid: str
    budget: str


class StockRow(NamedTuple):
    """One lot at hand, in words. `cuts`: for cable, what is cut from it; for what else is left, why it is."""

    what: str
    had: str
    used: str
    left: str
    cuts: str


class Section(NamedTuple):
    title: str
    rows: tuple[Row, ...]
    cuts: tuple["Cuts", ...]


class Cuts(NamedTuple):
    """How one kind of cable is cut: a line for each coil, and how good that is."""

    what: str
    coils: tuple[str, ...]
    verdict: str


class Tools(NamedTuple):
    """What one borrows or buys beside: rows of what, steps that ask for it and price, and what buying all of it costs."""

    rows: tuple[tuple[str, str, str], ...]
    known: str
    unpriced: int


class OnePhase(NamedTuple):
    """Of the list of one phase: how it goes with the whole list, in words, and what earlier phases have bought for it."""

    share: str
    from_before: tuple[FromBefore, ...]


def shopping_list_markdown(
    build: Build,
    needs: tuple[Need, ...],
    owned: tuple[Owned, ...],
    tools: tuple[ToolLine, ...] = (),
    one: OnePhase | None = None,
) -> str:
    """CommonMark with tables (an extension that most readers have). `one`: what the list of one phase says beside."""
    summed = total(needs)
    return render(
        "shopping-list.md.jinja",
        name=build.name,
        count=len(needs),
        known=money(summed.known, build.currency),
        unpriced=summed.unpriced,
        typical=sum(need.is_typical_price for need in needs),
        sections=shopping_sections(build, needs),
        owned=owned_sections(owned),
        spares=spares_words(build, needs),
        stock=stock_rows(build),
        ordered=sum(bool(need.shops) for need in needs),
        tools=tools_words(build, tools),
        left_out=left_out_words(build),
        phases=phase_rows(build, needs) if one is None else (),
        share=one.share if one else "",
        from_before=_taken_rows(one.from_before) if one else (),
    )


def _taken_rows(taken: tuple[FromBefore, ...]) -> tuple[tuple[str, str, str], ...]:
    return tuple((_quantity(each.quantity, each.unit), each.title, in_short(each.reasons)) for each in taken)


def shopping_list_csv(build: Build, needs: tuple[Need, ...]) -> str:
    """One row for each size of pack of each line, so that the column of sums adds up."""
    return csv_table(CSV_HEADER, (row for need in needs for row in csv_rows(build, need)))


def shopping_sections(build: Build, needs: tuple[Need, ...]) -> tuple[Section, ...]:
    """The lines to buy in words, by section."""
    return tuple(_section(build, title, list(group)) for title, group in groupby(needs, _by_section))


def owned_sections(owned: tuple[Owned, ...]) -> tuple[tuple[str, tuple[tuple[str, str, str], ...]], ...]:
    """By standing ("in stock"): how much of what, and for what."""
    return tuple((title, tuple(map(_owned_row, group))) for title, group in groupby(owned, _by_standing))


def spares_words(build: Build, needs: tuple[Need, ...]) -> str:
    """By which rule spares are on the list, or "" where none are."""
    return spare_rule(build) if any(need.amount.spares for need in needs) else ""


def tools_words(build: Build, tools: tuple[ToolLine, ...]) -> Tools:
    """The tools in words, and the sum of those with a price."""
    known = [line.price for line in tools if isinstance(line.price, int)]
    rows = ((line.title, str(line.steps), money(line.price, build.currency)) for line in tools)
    return Tools(tuple(rows), money(sum(known), build.currency), len(tools) - len(known))


def tool_rows(build: Build, tools: tuple[ToolLine, ...]) -> tuple[tuple[Cell, ...], ...]:
    """A cell for each of TOOLS_HEADER."""
    return tuple(
        (line.title, line.part, line.steps, _price(line.price, build.currency), build.currency)
        for line in tools
    )


def left_out_words(build: Build) -> tuple[str, ...]:
    """What the list does not hold, each with the names that it is about."""
    return tuple(map(_left_out, not_counted(build)))


def _left_out(each: NotCounted) -> str:
    more = len(each.names) - _MOST_NAMES
    return f"{each.what}: {', '.join(each.names[:_MOST_NAMES])}" + (f" and {more} more" if more > 0 else "")


def phase_rows(build: Build, needs: tuple[Need, ...]) -> tuple[PhaseRow, ...]:
    """What each phase costs, in their order; none where the plan has none."""
    phases = {phase.name: phase for phase in build.phases}
    return tuple(_phase_row(build, phases[each.name], each) for each in costs_by_phase(build, needs))


def _phase_row(build: Build, phase: Phase, cost: PhaseCost) -> PhaseRow:
    count = len(cost.unpriced) + len(cost.unsettled)
    without = f", and {count} without a sum" if count else ""
    budget = phase.budget
    allowed = (
        money(in_minor(budget.typical, build.currency), build.currency) if isinstance(budget, Fact) else ""
    )
    return PhaseRow(phase.name, phase.by, money(cost.paid, build.currency) + without, allowed)


def stock_rows(build: Build) -> tuple[StockRow, ...]:
    """What was at hand, how much of it is used, and what is left over."""
    return tuple(_stock_row(build, each) for each in at_hand(build))


def _stock_row(build: Build, each: AtHand) -> StockRow:
    had, used, left = (_quantity(some, each.unit) for some in (each.had, each.used, each.left))
    cuts = _cut_runs(build, each.coil) if each.coil is not None else each.why_left
    return StockRow(each.title, had, used, left, cuts)


def _by_section(need: Need) -> str:
    return need.section


def _by_standing(owned: Owned) -> str:
    return owned.standing


def _section(build: Build, title: str, needs: list[Need]) -> Section:
    cuts = (_cuts(build, need) for need in needs if need.amount.cutting.coils)
    return Section(title.capitalize(), tuple(_row(build, need) for need in needs), tuple(cuts))


def _row(build: Build, need: Need) -> Row:
    amount = need.amount
    mark = " \N{DAGGER}" if need.is_typical_price else ""
    what = "; ".join((need.title, *(f"to settle: {text}" for text in amount.unsettled)))
    return Row(
        " + ".join(_bought(pack, amount.unit) for pack in amount.packs) or "not settled",
        what,
        _needed(amount),
        " / ".join(money(pack.price, build.currency) for pack in amount.packs) + mark,
        money(amount.price, build.currency),
        in_short(need.reasons),
        line_id(need.id),
        " + ".join(need.shops),
        ", ".join(phases_of(build, need)),
    )


def _bought(pack: Pack, unit: str) -> str:
    """ "2", "1 pack of 20", "3 × 100 m"."""
    if unit == METRES:
        return f"{pack.number} × {metres(pack.size)}"
    if pack.size == 1:
        return str(pack.number)
    return f"{pack.number} {'pack' if pack.number == 1 else 'packs'} of {number(pack.size)}"


def _needed(amount: Amount) -> str:
    """ "6", or "6 and 1 spare"."""
    needed = _quantity(amount.needed, amount.unit)
    if not amount.spares:
        return needed
    return f"{needed} and {amount.spares} {'spare' if amount.spares == 1 else 'spares'}"


def _quantity(quantity: float, unit: str) -> str:
    return metres(quantity) if unit == METRES else number(quantity)


def _cuts(build: Build, need: Need) -> Cuts:
    cutting = need.amount.cutting
    verdict = _ORDERED if need.shops else _verdict(cutting)
    return Cuts(need.title, tuple(_coil(build, coil) for coil in cutting.coils), verdict)


def _coil(build: Build, coil: Coil) -> str:
    return f"{metres(coil.length)}: {_cut_runs(build, coil)}; {metres(coil.left)} left over"


def _cut_runs(build: Build, coil: Coil) -> str:
    return ", ".join(f"{shown(build, run.id)} {metres(run.length)}" for run in coil.runs)


def _verdict(cutting: Cutting) -> str:
    bought, least = metres(cutting.bought), metres(cutting.least)
    if cutting.is_least:
        return f"{bought} bought; nothing shorter can hold these runs without a join."
    return f"{bought} bought; less than {least} cannot do, and whether anything between can was not settled."


def _owned_row(owned: Owned) -> tuple[str, str, str]:
    return (_quantity(owned.quantity, owned.unit), owned.title, in_short(owned.reasons))


def csv_rows(build: Build, need: Need) -> Iterable[tuple[Cell, ...]]:
    """The rows of one line, a cell for each of CSV_HEADER."""
    amount = need.amount
    head: tuple[Cell, ...] = (need.section, need.title, need.part)
    tail: tuple[Cell, ...] = (build.currency, in_full(need.reasons), "; ".join(amount.unsettled))
    unit = amount.unit if amount.unit == METRES else PIECES
    phases = ", ".join(phases_of(build, need))
    if not amount.packs:
        none = ("", "", unit, _exact(amount.needed), amount.spares)
        yield (*head, *none, "", "", *tail, "", phases, line_id(need.id))
    for pack, shop in zip(amount.packs, need.shops or ("",) * len(amount.packs), strict=True):
        sum_ = pack.price if isinstance(pack.price, Unknown) else pack.number * pack.price
        prices = (_price(pack.price, build.currency), _price(sum_, build.currency))
        numbers = (pack.number, _exact(pack.size), unit, _exact(amount.needed), amount.spares)
        yield (*head, *numbers, *prices, *tail, shop, phases, line_id(need.id))


def _exact(value: float) -> Decimal:
    return Decimal(number(value, 3))


def _price(price: Price, currency: str) -> Cell:
    return "no price" if isinstance(price, Unknown) else Decimal(plain(price, currency))
