"""A second, independent reckoning of copper channels: published figures typed in anew, no import of the compiler's.

It works on plain numbers: a channel is its cable in (metres, °C), its cords in (metres, AWG), its category and its rate.
"""

import math
from typing import NamedTuple

# ANSI/TIA-568.2-D (2018): a metre of cord loses as much as so many metres of horizontal cable.
CORD_FACTOR = {24: 1.2, 26: 1.5, 28: 1.95}
LINK_MOST, CHANNEL_MOST, FORMULA = 90.0, 100.0, 102.0
THIN_ADVISED, THIN_MOST = 10.0, 15.0

# Mb/s and category to (sure, possible) metres, unscreened: IEEE Std 802.3, TIA TSB-155-A. What is not here is not meant.
REACH = {
    (10, "3"): (100, 100), (10, "5"): (100, 100), (10, "5e"): (100, 100), (10, "6"): (100, 100), (10, "6a"): (100, 100),
    (100, "5"): (100, 100), (100, "5e"): (100, 100), (100, "6"): (100, 100), (100, "6a"): (100, 100),
    (1000, "5"): (100, 100), (1000, "5e"): (100, 100), (1000, "6"): (100, 100), (1000, "6a"): (100, 100),
    (2500, "5e"): (100, 100), (2500, "6"): (100, 100), (2500, "6a"): (100, 100),
    (5000, "5e"): (0, 100), (5000, "6"): (100, 100), (5000, "6a"): (100, 100),
    (10000, "6"): (37, 55), (10000, "6a"): (100, 100),
}  # fmt: skip


class Cable(NamedTuple):
    metres: float
    celsius: float = 20.0


class Said(NamedTuple):
    """`verdict`: fine, warning, error or cannot tell. `margin`: metres left of the 102 m, at the best."""

    verdict: str
    margin: float


def warm(celsius: float, screened: bool) -> float:
    """Percent per kelvin above 20 °C: 0.2 screened; unscreened 0.4 up to 40 °C and 0.6 from there, summed kelvin by kelvin."""
    if celsius <= 20:
        return 1.0
    if screened:
        return 1 + 0.002 * (celsius - 20)
    first, second = min(celsius, 40.0) - 20, max(celsius - 40.0, 0.0)
    return 1 + 0.004 * first + 0.006 * second


def equivalent(cables: list[Cable], cords: list[tuple[float, int]], screened: bool = False) -> float:
    runs = (cable.metres * warm(cable.celsius, screened) for cable in cables)
    return math.fsum([*runs, *(metres * CORD_FACTOR[awg] for metres, awg in cords)])


def by_length(cables: list[Cable], cords: list[tuple[float, int]], screened: bool = False) -> str:
    """What the cabling alone says, whatever the rate."""
    link = math.fsum(cable.metres for cable in cables)
    laid = link + math.fsum(metres for metres, _ in cords)
    thin = math.fsum(metres for metres, awg in cords if awg == 28)
    dust = 1e-6
    if link > LINK_MOST + dust or laid > CHANNEL_MOST + dust or thin > THIN_MOST + dust:
        return "error"
    if equivalent(cables, cords, screened) > FORMULA + dust:
        return "error"
    return "warning" if thin > THIN_ADVISED + dust else "fine"


def by_rate(laid: float, rate: int, category: str) -> str:
    """What the rate says; not meant is a warning if a lower rate works, since both ends can be set to it."""
    reach = REACH.get((rate, category))
    if reach is None:
        lower = (r for (r, c), (sure, _) in REACH.items() if c == category and r < rate and laid <= sure)
        return "warning" if any(lower) else "error"
    sure, possible = reach
    return "fine" if laid <= sure + 1e-6 else "warning" if laid <= possible + 1e-6 else "error"


def judge(
    cables: list[Cable], cords: list[tuple[float, int]], rate: int, category: str, loft: float = 0.0
) -> Said:
    """`loft`: metres of cable in a way between 20 and 60 °C, of which nobody said how warm it gets."""
    cool = [*cables, Cable(loft)]
    hot = [*cables, Cable(loft, 60.0)]
    laid = math.fsum(cable.metres for cable in cool) + math.fsum(metres for metres, _ in cords)
    found = {by_length(cool, cords), by_rate(laid, rate, category)}
    margin = FORMULA - equivalent(cool, cords)
    if "error" in found:
        return Said("error", margin)
    if "warning" in found:
        return Said("warning", margin)
    return Said("fine" if by_length(hot, cords) == "fine" else "cannot tell", margin)
