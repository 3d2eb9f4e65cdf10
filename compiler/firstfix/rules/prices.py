"""What a cure costs, by the prices of the parts that it names. Those of the library are invented, and the words say so.

Takes a build and what would be bought; gives words for a finding.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.parts.facts import AUTHOR, DATA_SHEET, Fact
from firstfix.parts.part import Part
from firstfix.units import metres, number


class Wanted(NamedTuple):
    """So many of a part, or so many metres of it."""

    part: str
    amount: float
    by_metre: bool = False


def cost(build: Build, bought: Sequence[Wanted]) -> str:
    """ "about 74.20 EUR, by invented or typical prices", or which of the parts have no price."""
    prices = {each.part: build.library[each.part].price for each in bought}
    without = sorted(name for name, price in prices.items() if not isinstance(price, Fact))
    if without:
        return f"no price is known of {' and '.join(repr(name) for name in without)}"
    known = {name: price for name, price in prices.items() if isinstance(price, Fact)}
    amount = sum(each.amount * known[each.part].typical for each in bought)
    own = all(price.basis in (AUTHOR, DATA_SHEET) for price in known.values())
    words = f"about {number(amount)} {build.currency}".rstrip()
    return words if own else f"{words}, by invented or typical prices"


def listed(bought: Iterable[Wanted]) -> str:
    """ "93 m of 'cat6a-indoor' and 2 'cord-cat6a'"; the same part is counted together."""
    counts: dict[tuple[str, bool], float] = {}
    for each in bought:
        counts[each.part, each.by_metre] = counts.get((each.part, each.by_metre), 0) + each.amount
    return " and ".join(
        f"{metres(amount)} of '{name}'" if by_metre else f"{amount:g} '{name}'"
        for (name, by_metre), amount in counts.items()
    )


Finder = Callable[..., Iterator[Part]]


@once_per_build
def _chosen(_: Build) -> dict[tuple[Finder, tuple[object, ...]], Part | None]:
    return {}


def cheapest(build: Build, suitable: Finder, *asked: object) -> Part | None:
    """The cheapest part that `suitable(build, *asked)` yields, asked for once per build, or None if it yields none.

    A part without a price comes last; of equal prices, the one whose name sorts first.
    """
    chosen, key = _chosen(build), (suitable, asked)
    if key not in chosen:
        found = suitable(build, *asked)
        chosen[key] = min(found, key=lambda part: (price_of(part), part.name), default=None)
    return chosen[key]


def price_of(part: Part) -> float:
    return part.price.typical if isinstance(part.price, Fact) else float("inf")
