"""What a source counts for each device that it feeds: by class, by draw, or by what the device asks for in steps of 0.1 W.

Takes a grant, what the device needs and what its cable puts in the way; gives watts, and the facts that are missing.
"""

from typing import NamedTuple

from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.part import GivesPoe, Part, TakesPoe
from firstfix.physics.poe import Infeasible, delivery_to_device, negotiated_power, poe_class
from firstfix.resolve.poe_grants import Grant
from firstfix.resolve.poe_handing_on import Need
from firstfix.resolve.poe_loss import Resistance
from firstfix.standards.poe import PoeClass

BY_CLASS, BY_DRAW, BY_ASKING = "class", "draw", "asked"


class Counting(NamedTuple):
    """How a source counts, with its basis. `doubt` says that its part does not say so: then by class, the safe way, at the most."""

    word: str
    basis: str
    negotiates: bool
    doubt: str = ""


class Counted(NamedTuple):
    """`watts` at the source; `doubts` set its low and high apart."""

    watts: Figure
    how: str
    doubts: tuple[str, ...] = ()


def counting_of(gives: GivesPoe, part: Part) -> Counting:
    negotiates = gives.negotiates is True
    if isinstance(gives.counts, Unknown):
        doubt = f"the part '{part.name}' does not say how it counts, by class or by draw"
        return Counting(
            BY_CLASS, "the part does not say how it counts; by class is the safe way", negotiates, doubt
        )
    return Counting(gives.counts, "the part says so", negotiates)


def counted_power(grant: Grant, takes: TakesPoe, counting: Counting, need: Need, lost: Resistance) -> Counted:
    row = grant.row
    if row is None:
        return _without_class(grant, counting)
    if counting.doubt:
        drawn = _by_draw(row, grant.volts, need, lost)
        assert isinstance(drawn.watts, Fact)
        low = min(drawn.watts.low, row.pse_power_w)
        return Counted(
            Fact(low, row.pse_power_w, row.pse_power_w, str(row.basis)),
            BY_CLASS,
            (counting.doubt, *drawn.doubts),
        )
    if counting.word == BY_DRAW:
        return _by_draw(row, grant.volts, need, lost)
    if counting.negotiates and takes.negotiates is True and need.high is not None:
        low, high = (negotiated_power(each, row.number) for each in (need.low, need.high))
        basis = "asked for in steps of 0.1 W over the worst channel of its class"
        return Counted(Fact(low, high, high, basis), BY_ASKING, need.doubts if low < high else ())
    watts = row.pse_power_w
    return Counted(Fact(watts, watts, watts, str(row.basis)), BY_CLASS)


def _without_class(grant: Grant, counting: Counting) -> Counted:
    """A device that is denied takes nothing; one of unknown class takes no more than its port gives."""
    if isinstance(grant.granted, Fact):
        return Counted(grant.granted, counting.word)
    if isinstance(grant.offered, Unknown):
        return Counted(grant.granted, counting.word, (grant.granted.why,))
    most = poe_class(int(grant.offered.typical)).pse_power_w
    return Counted(Fact(0.0, most, most, "all that its port gives"), counting.word, (grant.granted.why,))


def _by_draw(row: PoeClass, volts: float, need: Need, lost: Resistance) -> Counted:
    """What the device draws at the most, and what its cable loses of it; a draw that is not known counts as its class."""
    coolest = lost.loop.low if isinstance(lost.loop, Fact) else 0.0
    low = high = _source_power(need.low, volts, coolest, row)
    if isinstance(lost.loop, Unknown) or need.high is None or isinstance(need.drawn, Unknown):
        high = max(low, row.pse_power_w)
    elif need.high > need.low or lost.loop.high > coolest:
        high = _source_power(need.high, volts, lost.loop.high, row)
    doubts = tuple(dict.fromkeys((*need.doubts, *lost.doubts))) if low < high else ()
    return Counted(Fact(low, high, high, "drawn by the device and lost in the channel"), BY_DRAW, doubts)


def _source_power(device_w: float, volts: float, ohms: float, row: PoeClass) -> float:
    """Watts at the source [W]; where so much cannot cross at all, the source gives what its class allows."""
    given = delivery_to_device(device_w, volts, ohms)
    return row.pse_power_w if isinstance(given, Infeasible) else given.source_w
