"""What each phase costs by the shopping list: its share of every line, by the prices that the needs have.

Takes a build and its needs, as ordered where there is an order; gives sums in minor units. They add up to the whole list's sum.
"""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build.hardware import Item
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.purchase.needs import Need
from firstfix.purchase.order import Order
from firstfix.purchase.sharing import shared, weight


class PhaseCost(NamedTuple):
    """`sections`: what is paid in each section of the list, in the list's order. `unpriced`: titles of lines without a price; `unsettled`:
    of lines of which it isn't known how much to buy, which has a finding of its own.

    `typical`: whether some price is a stand-in from the library.
    """

    name: str
    sections: tuple[tuple[str, int], ...]
    unpriced: tuple[str, ...]
    unsettled: tuple[str, ...]
    typical: bool

    @property
    def paid(self) -> int:
        return sum(paid for _, paid in self.sections)


def phase_of(build: Build, item: Item) -> str:
    """What names no phase is bought with the first one."""
    return item.phase or (build.phases[0].name if build.phases else "")


def phases_of(build: Build, need: Need) -> tuple[str, ...]:
    """The phases that a line serves, in their order."""
    items = _items(build)
    served = {phase_of(build, items[each]) for each in need.items} if build.phases else set()
    return tuple(phase.name for phase in build.phases if phase.name in served)


@once_per_build
def _items(build: Build) -> dict[str, Item]:
    return {item.id: item for item in build.items}


def costs_by_phase(build: Build, needs: tuple[Need, ...]) -> tuple[PhaseCost, ...]:
    """In the order of the phases; none where the plan has none."""
    if not build.phases:
        return ()
    items = _items(build)
    paid: defaultdict[str, dict[str, int]] = defaultdict(dict)
    unpriced: defaultdict[str, list[str]] = defaultdict(list)
    unsettled: defaultdict[str, list[str]] = defaultdict(list)
    typical: set[str] = set()
    for need in needs:
        served = [items[each] for each in need.items]
        price = need.amount.price
        phases = phases_of(build, need)
        if not isinstance(price, int):
            kind = unsettled if need.amount.unsettled else unpriced
            for name in phases:
                kind[name].append(need.title)
            continue
        for item, part in zip(served, shared(price, map(weight, served)), strict=True):
            of_phase = paid[phase_of(build, item)]
            of_phase[need.section] = of_phase.get(need.section, 0) + part
        typical |= set(phases) if need.is_typical_price else set()
    return tuple(
        PhaseCost(
            name, tuple(paid[name].items()), tuple(unpriced[name]), tuple(unsettled[name]), name in typical
        )
        for name in (phase.name for phase in build.phases)
    )


def postage_by_phase(build: Build, needs: tuple[Need, ...], order: Order) -> dict[str, int]:
    """The postage of each parcel, with the tax on it, shared out by what each phase has in the parcel. It adds up to the whole."""
    items, by_need = _items(build), {need.id: need for need in needs}
    found: dict[str, int] = {}
    for parcel in order.parcels:
        of_phase: dict[str, int] = {}
        for line in parcel.lines:
            served = [items[each] for each in by_need[line.need].items]
            for item, part in zip(served, shared(line.paid, map(weight, served)), strict=True):
                name = phase_of(build, item)
                of_phase[name] = of_phase.get(name, 0) + part
        postage = parcel.paid - sum(line.paid for line in parcel.lines)
        for name, part in zip(of_phase, shared(postage, of_phase.values()), strict=True):
            found[name] = found.get(name, 0) + part
    return found
