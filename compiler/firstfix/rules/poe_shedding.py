"""Which devices a source of PoE feeds when there is too little for all, by the priority of their ports.

Takes the power runs of one source and its budget; gives those that stay dark. Devices are taken up from critical to low, within one
priority by jack as they stand; each is fed if what is left is enough for it. IEEE 802.3 leaves the order to the source, so this
is common practice, no source; the priorities are those of RFC 3621.
"""

from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.parts.facts import Fact
from firstfix.physics.range import at_most
from firstfix.standards.poe import PRIORITIES

ORDER = "by port priority, and within one priority by jack; common practice, no source"


def feeding_order(build: Build, runs: list[PowerRun]) -> list[PowerRun]:
    """The first to be fed first."""
    return sorted(
        runs, key=lambda run: (PRIORITIES.index(run.priority), build.jacks[run.source].order, run.source)
    )


def dark_first(build: Build, runs: list[PowerRun], budget: float) -> list[PowerRun]:
    """The runs that are not fed, the least important first."""
    dark = []
    left = budget
    for run in feeding_order(build, runs):
        taken = run.reserved.low if isinstance(run.reserved, Fact) else 0.0
        if at_most(taken, left):
            left -= taken
        else:
            dark.append(run)
    return dark[::-1]
