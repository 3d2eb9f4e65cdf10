"""Layer 2: numbers that a VLAN, a bridge or a port may carry, spanning-tree path costs, LLDP's timers."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read

# IEEE Std 802.1D (2004), Table 17-3, note: the recommended cost is 20 Tb/s divided by the rate.
_COST_RATE_MBPS = 20_000_000
# The same table: long costs run from 1 to 200 000 000; from memory.
_HIGHEST_COST = 200_000_000


class NumberRange(NamedTuple):
    """Whole numbers from `lowest` to `highest` in steps of `step`; `usual` where nobody says otherwise."""

    name: str
    lowest: int
    highest: int
    step: int
    usual: int
    basis: Basis
    note: str

    def admits(self, value: int) -> bool:
        return self.lowest <= value <= self.highest and (value - self.lowest) % self.step == 0


class PathCost(NamedTuple):
    rate_mbps: float
    cost_long: int
    cost_short: int | None
    basis: Basis
    note: str


class Layer2Limits(NamedTuple):
    tree_diameter: Limit
    lldp_interval: Limit
    lldp_hold: Limit
    lldp_longest_life: Limit


@cache
def number_ranges() -> Mapping[str, NumberRange]:
    """By name: vlan-id, tree-priority, tree-port-priority, hello-time-s and the other timers."""
    rows = (
        NumberRange(
            row.text("range"), row.whole("lowest"), row.whole("highest"), row.whole("step"),
            row.whole("usual"), row.basis, row.note,
        )
        for row in read("layer2_ranges")
    )  # fmt: skip
    return keyed(rows, lambda row: row.name)


@cache
def path_costs() -> Mapping[float, PathCost]:
    """By rate in Mb/s."""
    rows = (
        PathCost(
            row.number("rate_mbps"), row.whole("cost_long"),
            row.whole("cost_short") if row.text("cost_short") else None, row.basis, row.note,
        )
        for row in read("path_costs")
    )  # fmt: skip
    return keyed(rows, lambda row: row.rate_mbps)


@cache
def layer2_limits() -> Layer2Limits:
    return limits("layer2_limits", Layer2Limits)


def long_path_cost(rate_mbps: float, lanes: int = 1) -> int:
    """The recommended spanning-tree cost of a link, or of an aggregate of `lanes`: 20 Tb/s / (rate * lanes).

    Rounded down, 1 to 200 000 000. Raises ValueError for a rate or a number of lanes that is not above 0.
    Source: IEEE Std 802.1D (2004), Table 17-3; for aggregates IEEE Std 802.1AX.
    """
    if rate_mbps <= 0 or lanes < 1:
        raise ValueError(f"no link: {lanes} lanes of {rate_mbps} Mb/s")
    # 20 000 000 / 0.1 is a hair below 200 000 000 when floor division computes it; plain division rounds.
    return min(_HIGHEST_COST, max(1, int(_COST_RATE_MBPS / (rate_mbps * lanes))))


def lldp_life_s(interval_s: int, hold: int) -> int:
    """The time to live [s] that LLDP announces: min(65535, interval * hold + 1).

    Source: IEEE Std 802.1AB (2009).
    """
    return min(int(layer2_limits().lldp_longest_life.value), interval_s * hold + 1)


def timers_agree(hello_s: int, max_age_s: int, forward_delay_s: int) -> bool:
    """Whether 2 (forward delay - 1) >= max age >= 2 (hello + 1), all in seconds.

    Source: IEEE Std 802.1D (1998), 8.10.2.
    """
    return 2 * (forward_delay_s - 1) >= max_age_s >= 2 * (hello_s + 1)
