"""costs.md: where the money goes, what the energy costs in a year, and what other parts would cost.

Takes what was worked out for a build; gives the file's text.
"""

from firstfix.build.model import Build
from firstfix.documents.templates import render
from firstfix.purchase.alternatives import Alternative
from firstfix.purchase.energy import yearly_energy
from firstfix.purchase.money import money
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.purchase.tally import money_of
from firstfix.units import number

_SHOWN = 8


def costs_markdown(
    build: Build, needs: tuple[Need, ...], order: Order | None, alternatives: tuple[Alternative, ...]
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
        tools=money(spent.tools, currency) if spent.tools else "",
        energy=_energy(build),
        alternatives=[_alternative(each, currency) for each in alternatives],
    )


def _energy(build: Build) -> str:
    used = yearly_energy(build)
    if used is None:
        return "What the energy costs is not known: the plan says no 'energy-price' under 'purchase'."
    price = f"{number(build.purchase.energy_price or 0, 4)} {build.currency}"
    words = (
        f"{number(used.watts, 1)} W as usual, day and night, are {number(used.kwh, 0)} kWh and"
        f" {money(used.paid, build.currency)} a year, at {price} a kWh."
    )
    if used.unknown:
        words += f" The real figure is higher: what is not known of {_listed(used.unknown)} is not in it."
    return words


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
