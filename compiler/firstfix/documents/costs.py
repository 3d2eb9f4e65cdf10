"""costs.md: where the money goes, what the energy costs in a year, and what other parts would cost.

Takes what was worked out for a build; gives the file's text.
"""

from firstfix.build.model import Build
from firstfix.documents.shopping_list import tools_words
from firstfix.documents.templates import render
from firstfix.purchase.alternatives import Alternative
from firstfix.purchase.by_phase import costs_by_phase, postage_by_phase
from firstfix.purchase.energy import yearly_energy
from firstfix.purchase.money import money
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.purchase.tally import money_of
from firstfix.units import number
from firstfix.work.tool_parts import ToolLine

_SHOWN = 8
_MOST_USES = 6


def costs_markdown(
    build: Build,
    needs: tuple[Need, ...],
    order: Order | None,
    alternatives: tuple[Alternative, ...],
    tools: tuple[ToolLine, ...],
) -> str:
    spent = money_of(build, needs, order)
    currency = build.currency
    return render(
        "costs.md.jinja",
        name=build.name,
        whole=money(spent.whole, currency),
        unpriced=spent.unpriced,
        is_ordered=order is not None,
        tallies=[
            (each.by, [(share.name or "none of these", money(share.paid, currency)) for share in each.shares])
            for each in spent.tallies
        ],
        budgeted=_budgeted(build, needs, order) if spent.unpriced else "",
        stand_in=money(spent.stand_in, currency) if spent.stand_in else "",
        tools=_tools(build, tools),
        energy=_energy(build),
        uses=_uses(build),
        alternatives=[_alternative(each, currency) for each in alternatives],
    )


def _budgeted(build: Build, needs: tuple[Need, ...], order: Order | None) -> str:
    """What budgets are held against, "" without an order or phases: what no shop sells is in it, at the price of its part."""
    if order is None or not build.phases:
        return ""
    postage = postage_by_phase(build, needs, order)
    sums = (
        f"{cost.name} {money(cost.paid + postage.get(cost.name, 0), build.currency)}"
        for cost in costs_by_phase(build, needs)
    )
    return f"With the lines that are not ordered, at the prices of their parts, the phases come to: {', '.join(sums)}. Budgets are held against that."


def _tools(build: Build, tools: tuple[ToolLine, ...]) -> str:
    """One sentence or two, "" where no step asks for any."""
    if not tools:
        return ""
    words = tools_words(build, tools)
    count = f"{len(tools)} tools" if len(tools) > 1 else "1 tool"
    asked = f"The steps ask for {count}, to borrow or to buy; the shopping list names {'them' if len(tools) > 1 else 'it'}."
    bought = f" Whoever has none pays {words.known} for all, by stand-in prices"
    return asked + bought + (f", and {words.unpriced} without a price on top." if words.unpriced else ".")


def _energy(build: Build) -> str:
    used = yearly_energy(build)
    if used is None:
        return "What the energy costs is not known: the plan says no 'energy-price' under 'purchase'."
    price = f"{number(build.purchase.energy_price or 0, 4)} {build.currency}"
    words = (
        f"About {money(used.paid, build.currency)} a year: {number(used.kwh, 0)} kWh at {price} each, for {number(used.watts, 1)} W while"
        " all of it runs as usual."
    )
    words += (
        " What `runs` under `purchase` names runs so many hours a day, all else day and night."
        if build.purchase.runs
        else " All of it is taken to run day and night, 365 days; what does not, `runs` under `purchase` may name with its hours a day."
    )
    if used.unknown:
        words += f" The real figure is higher: what is not known of {_listed(used.unknown)} is not in it."
    return words


def _uses(build: Build) -> list[tuple[str, str, str, str, str]]:
    """What takes most: how many of what, watts together, hours a day, kWh a year."""
    used = yearly_energy(build)
    return [
        (str(use.devices), use.title, number(use.watts, 1), number(use.hours, 1), number(use.kwh, 0))
        for use in (used.uses[:_MOST_USES] if used is not None else ())
    ]


def _alternative(each: Alternative, currency: str) -> tuple[str, tuple[str, ...]]:
    """A sentence, and a line for each thing that it changes or breaks."""
    if each.more > 0:
        price = f"{money(each.more, currency)} more"
    else:
        price = f"{money(-each.more, currency)} less" if each.more else "the same"
    head = f"{each.device} as '{each.part}' instead of '{each.instead_of}': "
    if each.unpriced:
        head += f"not settled, for {_listed(each.unpriced)} has no price; all else comes to {price}"
    else:
        head += f"{price} in all"
    changes = tuple(
        f"{change.line}: {number(change.then)} instead of {number(change.now)}" for change in each.changes
    )
    return f"{head}.", (*changes, *(f"would be an error: {message}" for message in each.errors))


def _listed(names: tuple[str, ...]) -> str:
    more = len(names) - _SHOWN
    return ", ".join(names[:_SHOWN]) + (f" and {more} more" if more > 0 else "")
