"""A figure that is known from its least to its most, against a limit: at which end it is over."""

from enum import IntEnum

from firstfix.graphs.consumption import Spread
from firstfix.physics.range import at_most


class End(IntEnum):
    """Which of a Spread's figures; a verdict is the harder the earlier the end is over."""

    LEAST = 0
    USUAL = 1
    MOST = 2


def end_over(spread: Spread, limit: float) -> End | None:
    """The first end at which the figure is over its limit, or None."""
    return next((end for end in End if not at_most(spread[end], limit)), None)
