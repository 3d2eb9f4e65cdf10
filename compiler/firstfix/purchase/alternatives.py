"""What another part in a device's place would cost, with all that it drags in: other cords, modules, leads, another order.

Takes builds of the same plan, each with one part changed; what the shops charge for a build, or the part library says, is compared.
"""

from collections.abc import Mapping
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.parts.facts import Unknown
from firstfix.purchase.ask import typed
from firstfix.purchase.needs import Need, total
from firstfix.purchase.order import Order


class Tried(NamedTuple):
    """The build with `part` as `device`, and what is then wrong and was not before."""

    device: str
    part: str
    build: Build
    errors: tuple[str, ...]


class Priced(NamedTuple):
    """What a build's purchases come to in minor units, tax and postage included; `unpriced`: lines not in that."""

    paid: int
    unpriced: frozenset[str]
    amounts: Mapping[str, float]


class Change(NamedTuple):
    """So many pieces or metres of a line are needed, and so many would be."""

    line: str
    now: float
    then: float


class Alternative(NamedTuple):
    """`more` in minor units, less than nothing where it is cheaper; `unpriced`: lines it brings that have no price, so not in `more`."""

    device: str
    part: str
    instead_of: str
    more: int
    changes: tuple[Change, ...]
    unpriced: tuple[str, ...]
    errors: tuple[str, ...]


def priced(needs: tuple[Need, ...], order: Order | None) -> Priced:
    amounts = {typed(need): need.amount.needed + need.amount.spares for need in needs}
    if order is not None:
        return Priced(order.paid, frozenset(each.line for each in order.held), amounts)
    unknown = frozenset(typed(need) for need in needs if isinstance(need.amount.price, Unknown))
    return Priced(total(needs).known, unknown, amounts)


def alternative(tried: Tried, instead_of: str, now: Priced, then: Priced) -> Alternative:
    lines = sorted(now.amounts.keys() | then.amounts.keys())
    both = (Change(line, now.amounts.get(line, 0.0), then.amounts.get(line, 0.0)) for line in lines)
    changes = tuple(each for each in both if abs(each.now - each.then) > 1e-6)
    return Alternative(
        tried.device,
        tried.part,
        instead_of,
        then.paid - now.paid,
        changes,
        tuple(sorted(then.unpriced - now.unpriced)),
        tried.errors,
    )
