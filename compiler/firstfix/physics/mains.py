"""Mains supply: what a circuit carries for long, what a battery-backed supply gives, what leaks to earth.

Figures for planning only. Work on mains follows the local code and is for a licensed electrician.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from firstfix.physics.constants import METRES_PER_FOOT
from firstfix.physics.copper import area_kcmil
from firstfix.physics.range import at_least, not_negative, positive, within
from firstfix.standards.mains import bonding_limits, mains_limits
from firstfix.units import Seconds, Watts

# Letters of plugs that go into their outlet either way round; from memory of the drawings that IEC/TR 60083 shows.
TURNING = ("C", "F", "L")


def continuous_power(volts: float, amperes: float) -> Watts:
    """What a circuit may carry for three hours or more.

    P = 0.8 V I
    volts V [V]; amperes I: rating of the protective device [A]. Result [W], unity power factor.
    Valid for circuits up to 1000 V, unless the assembly is listed for 100 %.
    Source: NFPA 70 (2017), 210.20(A); elsewhere a common margin, see standards.mains.
    """
    within("supply voltage", volts, 1, 1000, "V")
    return Watts(mains_limits().continuous_load.value * volts * positive("rating", amperes, "A"))


def backup_power(volt_amperes: float, power_factor: float) -> Watts:
    """What a battery-backed supply gives; its VA rating must hold as well.

    P = S * pf
    volt_amperes S [VA]; power_factor pf, 0.5 to 1. Result [W].
    Source: derived.
    """
    return Watts(positive("rating", volt_amperes, "VA") * within("power factor", power_factor, 0.5, 1.0))


def backup_time(volts: float, ampere_hours: float, efficiency: float, depth: float, load_w: float) -> Seconds:
    """How long a battery carries a load, to first order.

    t = V Q eta d / P
    volts V [V], ampere_hours Q [Ah]: the battery; efficiency eta; depth of discharge d; load_w P [W].
    Result [s].
    Ignores that a battery gives less at high current (Peukert) and with age: real time is shorter.
    Source: derived.
    """
    energy_wh = positive("battery voltage", volts, "V") * positive("battery charge", ampere_hours, "Ah")
    usable_wh = (
        energy_wh
        * within("efficiency", efficiency, 0.1, 1.0)
        * within("depth of discharge", depth, 0.05, 1.0)
    )
    return Seconds(usable_wh / positive("load", load_w, "W") * 3600)


def backup_time_between(points: tuple[tuple[float, float], ...], load_w: float) -> Seconds:
    """How long a battery-backed supply carries a load, between the points of its data sheet.

    t = t1 (t2 / t1)^(ln(P / P1) / ln(P2 / P1)) between neighbours: a straight line on double logarithmic paper, as Peukert's law is.
    points: (load [W], time [s]), any order, at least two; load_w P [W]. Result [s].
    Valid from the least load of a point to the greatest; OutOfRange beyond.
    Source: Peukert's law t = C / P^n between points, from memory.
    """
    ordered = sorted(
        (positive("load", watts, "W"), positive("time", seconds, "s")) for watts, seconds in points
    )
    least, greatest = (ordered[0][0], ordered[-1][0]) if ordered else (0.0, 0.0)
    within("load", positive("load", load_w, "W"), least, greatest, "W")
    for (low_w, low_s), (high_w, high_s) in pairwise(ordered):
        if low_w <= load_w <= high_w and low_w < high_w:
            share = math.log(load_w / low_w) / math.log(high_w / low_w)
            return Seconds(low_s * (high_s / low_s) ** share)
    return Seconds(ordered[0][1])


def devices_on_residual_current(leakage_ma: float, rating_ma: float, share: float) -> int:
    """How many devices of one standing leakage a residual current device bears.

    n = floor(share * rating / leakage)
    leakage_ma of each, rating_ma [mA]; share: standards.mains leakage_advised or leakage_most. Result: count.
    Worst case: the leakage currents add up in phase.
    Source: BS 7671 (2018), 531.3.2, from memory, see standards.mains.
    """
    within("share of the rating", share, 0.01, 1.0)
    allowed = share * positive("rating", rating_ma, "mA")
    return math.floor(allowed / positive("leakage", leakage_ma, "mA") + 1e-9)


def bonding_backbone_kcmil(length_m: float) -> float:
    """Cross-section that a bonding backbone of this length wants.

    2 kcmil per foot, and at least No. 6
    length_m [m]. Result [kcmil].
    The standard's own ceiling for long backbones is left to whoever designs the earthing.
    Source: ANSI/TIA-607-D (2019), see standards.mains.
    """
    known = bonding_limits()
    wanted = known.backbone_size.value * not_negative("length", length_m, "m") / METRES_PER_FOOT
    return max(wanted, area_kcmil(known.least_gauge.value))


def bonding_backbone_awg(length_m: float) -> int:
    """The thinnest whole gauge with at least that cross-section: -1 is No. 2/0, -3 is No. 4/0.

    length_m [m]. Result: gauge number.
    Valid while No. 4/0 is enough, to about 32 m; OutOfRange beyond.
    Source: ANSI/TIA-607-D (2019), see standards.mains.
    """
    wanted = within("cross-section", bonding_backbone_kcmil(length_m), 0.0, area_kcmil(-3), "kcmil")
    gauges = range(int(bonding_limits().least_gauge.value), -4, -1)
    return next(awg for awg in gauges if at_least(area_kcmil(awg), wanted))


def outlets_needed(blocks: Sequence[int], can_turn: bool) -> int:
    """Outlets in one row that plugs take, each covering so many beside its own; the best arrangement.

    `can_turn`: whether an adaptor may be plugged in either way round. One that covers b reaches over ceil(b / 2) of them on one side and
    over the others on the other. Nothing is covered twice, so only what stands over the two ends is saved.
    Source: derived.
    """
    if len(blocks) < 2:
        return len(blocks)
    wide, narrow = [(each + 1) // 2 for each in blocks], [each // 2 for each in blocks]
    second = wide if can_turn else narrow
    saved = max(
        wide[first] + second[other]
        for first in range(len(blocks))
        for other in range(len(blocks))
        if first != other
    )
    return sum(blocks) + len(blocks) - saved
