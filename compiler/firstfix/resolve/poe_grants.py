"""Which class each feed is granted, over how many pairs and from which voltage: what the two parts agree on when they meet.

Takes a feed and the facts of both parts; gives a Grant.
"""

from typing import NamedTuple

from firstfix.parts.facts import Fact, Figure, Unknown, exactly
from firstfix.parts.part import GivesPoe, TakesPoe
from firstfix.physics.poe import assigned_class, poe_class
from firstfix.resolve.poe_feeds import Feed
from firstfix.standards.poe import PoeClass, types

_MOST_OVER_TWO_PAIRS = 4


class Grant(NamedTuple):
    """A feed with what was settled for it. `row` is None where no class is granted or it is not known which.

    `granted`: watts at the device. `pairs` carry the power; `volts`: the lowest of the source.
    """

    feed: Feed
    asked: Figure
    offered: Figure
    assigned: Figure
    granted: Figure
    row: PoeClass | None
    pairs: int
    volts: float


def settle(feed: Feed, gives: GivesPoe, takes: TakesPoe) -> Grant:
    asked, offered = takes.poe_class, gives.poe_class
    if isinstance(asked, Unknown) or isinstance(offered, Unknown):
        why = Unknown(
            "the device's part does not say which class it asks for"
            if isinstance(asked, Unknown)
            else "the source's part does not say which class it gives"
        )
        return Grant(feed, asked, offered, why, why, None, 2, 0.0)
    row = assigned_class(int(asked.typical), _power_of_port(gives, int(offered.typical))).granted
    if row is None:
        nothing = exactly(0.0, "IEEE 802.3: no class can be granted")
        none = Unknown("the port grants this device no class at all")
        return Grant(feed, asked, offered, none, nothing, None, 2, 0.0)
    basis = str(row.basis)
    return Grant(
        feed, asked, offered, exactly(row.number, basis), exactly(row.pd_power_w, basis), row,
        _pairs(gives, takes, row), _lowest_volts(gives, int(offered.typical), row),
    )  # fmt: skip


def _power_of_port(gives: GivesPoe, offered: int) -> float:
    """What a port can reserve [W]: its class's, or less where its part says so. Two pairs carry class 4 at the most."""
    most = poe_class(offered).pse_power_w
    if isinstance(gives.pairs, Fact) and gives.pairs.high == 2:
        most = min(most, poe_class(_MOST_OVER_TWO_PAIRS).pse_power_w)
    return min(most, gives.jack_limit.low) if isinstance(gives.jack_limit, Fact) else most


def _pairs(gives: GivesPoe, takes: TakesPoe, row: PoeClass) -> int:
    """The class's pairs; a low class goes over all four only where both parts say that they do so."""
    both = all(isinstance(each, Fact) and each.low == 4 for each in (gives.pairs, takes.pairs))
    return 4 if both else row.pairs


def _lowest_volts(gives: GivesPoe, offered: int, row: PoeClass) -> float:
    """A source keeps the voltage of its own Type, also for a device of a lower class."""
    volts = max(row.pse_min_v, poe_class(offered).pse_min_v)
    return (
        max(volts, types()[int(gives.poe_type.low)].pse_min_v) if isinstance(gives.poe_type, Fact) else volts
    )
