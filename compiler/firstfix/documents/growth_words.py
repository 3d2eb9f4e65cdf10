"""How far a plan can grow, in words: one entry for each spot, for the terminal and for the report alike.

Takes growths as `growth/` found them; computes nothing.
"""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.finding.figures import quantity
from firstfix.graphs.headroom import AIR, CIRCUIT, FILL, JACKS, MAINS
from firstfix.growth.lifting import without_parts
from firstfix.growth.limits import ADDRESSES, LEASES
from firstfix.growth.model import HEIGHT, Behind, Growth, Lift, Trouble
from firstfix.growth.verdicts import CANNOT_TELL
from firstfix.purchase.money import money

# What one more takes of these depends on what there is already: the count is near the truth.
_ROUGH = (AIR, MAINS, CIRCUIT)
# Of the limits that are behind the first, so many are shown; those that even `FAR` more do not reach are not.
_MOST_BEHIND, _FAR = 5, 64
_MOST_TROUBLES = 2
ALONE = (
    "Each for itself, everything else staying as it is: one more is a thing of the same part at the same place, wired the same way "
    "to the same switch. What is kept free stays free."
)
RECKONED = "The plan is large, so this is reckoned from PoE, jacks and bores alone; mains, warmth and addresses are not in it."


class BehindRow(NamedTuple):
    what: str
    left: str
    each: str
    more: str


class GrowthRow(NamedTuple):
    """`kind`: what there could be more of. `of`: like what, and where. `more`: how many. `first`: what ends it; `lifts`: what would lift that, a sentence each.

    `doubts`: what cannot be told.
    """

    kind: str
    of: str
    more: str
    first: tuple[str, ...]
    behind: tuple[BehindRow, ...]
    lifts: tuple[str, ...]
    doubts: tuple[str, ...]


def growth_notes(growths: tuple[Growth, ...]) -> tuple[str, ...]:
    """What is to be known of all of them."""
    return (ALONE,) if all(each.is_exact for each in growths) else (ALONE, RECKONED)


def growth_sections(
    growths: tuple[Growth, ...], currency: str
) -> tuple[tuple[str, tuple[GrowthRow, ...]], ...]:
    """By kind, in their order."""
    rows = growth_rows(growths, currency)
    kinds = dict.fromkeys(row.kind for row in rows)
    return tuple((kind, tuple(row for row in rows if row.kind == kind)) for kind in kinds)


def growth_rows(growths: tuple[Growth, ...], currency: str) -> tuple[GrowthRow, ...]:
    return tuple(_row(each, currency) for each in growths)


def _row(growth: Growth, currency: str) -> GrowthRow:
    return GrowthRow(
        growth.spot.kind,
        _of(growth),
        _count(growth.more, growth.is_least, growth.first),
        tuple(_ends(growth.more, each) for each in growth.first[:_MOST_TROUBLES]) or _nearest(growth),
        tuple(_behind(each) for each in growth.behind if each.more is None or each.more < _FAR)[
            :_MOST_BEHIND
        ],
        _lifting(growth, currency),
        tuple(f"{_subject(each)}: {each.message}" for each in growth.doubts if each not in growth.first),
    )


def _of(growth: Growth) -> str:
    spot = growth.spot
    room = spot.room.partition("/")[2]
    if spot.kind == HEIGHT:
        return f"in '{spot.cabinet}', by things like '{spot.like}'"
    return f"like '{spot.like}' in '{room}', at '{spot.switch}'"


def _count(count: int, is_least: bool, first: tuple[Trouble, ...]) -> str:
    if first and all(each.level == CANNOT_TELL for each in first):
        return f"{count} more; past that it cannot be told" if count else "cannot tell"
    return f"{count} more, and further" if is_least else f"{count} more" if count else "no more"


def _ends(count: int, trouble: Trouble) -> str:
    """`with 4 more, 'core' has 120 W of PoE to give, and ... (poe-budget)`"""
    if trouble.rule == "cabinet-overlap":
        told = "no free units are left that it would fit into"
    elif trouble.level == CANNOT_TELL:
        told = f"it cannot be told about {_subject(trouble)}: {trouble.message}"
    else:
        # What could be bought against it is told apart, with its price.
        told = trouble.message.partition("; take a part")[0]
    return f"with {count + 1} more, {told} ({trouble.rule})"


def _nearest(growth: Growth) -> tuple[str, ...]:
    """What ends it where it was reckoned only."""
    near = next((each for each in growth.behind if each.more == growth.more), None)
    return (f"then {_limit(near)} ends it",) if near is not None and not growth.is_exact else ()


def _subject(trouble: Trouble) -> str:
    return f"'{ids.path(trouble.subject)}'" if trouble.subject else "the plan"


def _limit(limit: Behind) -> str:
    """`rj45 jacks of 'core'`"""
    name = f"'{ids.path(limit.id)}'"
    if limit.what == JACKS:
        return f"{limit.of} jacks of {name}"
    if limit.what == AIR:
        return f"warmth in {name}"
    joined = "" if limit.what == FILL else "in " if limit.what in (ADDRESSES, LEASES) else "of "
    return f"{limit.what} {joined}{name}"


def _behind(limit: Behind) -> BehindRow:
    if limit.more is None or limit.left is None:
        return BehindRow(_limit(limit), f"cannot tell: {limit.why}", "–", "cannot tell")
    rough = "about " if limit.what in _ROUGH else ""
    unit = "K" if limit.what == AIR else limit.unit
    return BehindRow(
        _limit(limit), quantity(limit.left, unit), quantity(limit.each, unit), f"{rough}{limit.more}"
    )


def _lifting(growth: Growth, currency: str) -> tuple[str, ...]:
    if all(each.level == CANNOT_TELL for each in growth.first):
        return ()
    found = (*(_lift(each, currency) for each in growth.lifts), *without_parts(growth.first))
    if found:
        return tuple(f"lifted by {each}" for each in found)
    tried = f"none of {growth.tried} others" if growth.tried > 1 else "no other"
    return (f"{tried} of the library's parts that were tried in its place or beside it lets one more in",)


def _lift(lift: Lift, currency: str) -> str:
    then = f"then {lift.more} more in all{', and further' if lift.is_least else ''}"
    ended = f"; {_ends(lift.more, lift.then[0])}" if lift.then else ""
    return f"{lift.words}, {_price(lift, currency)}: {then}{ended}"


def _price(lift: Lift, currency: str) -> str:
    if lift.price is None:
        return "unpriced"
    if lift.price == 0 and not lift.unpriced:
        return "nothing more to pay"
    each = " each" if lift.words.endswith("each one more") else ""
    more = f"{money(abs(lift.price), currency)}{each}{' less' if lift.price < 0 else ''}"
    return more if not lift.unpriced else f"{more}, without {', '.join(lift.unpriced)}, which have no price"
