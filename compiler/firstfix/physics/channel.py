"""Twisted-pair lengths: what cords and warmth cost, as the length of cool fixed cable that loses as much."""

import math
from collections.abc import Sequence
from enum import StrEnum
from typing import NamedTuple

from firstfix.physics.range import OutOfRange, Summand, at_most, not_negative, total, within
from firstfix.standards.cabling import (
    CordDerating,
    cabling_limits,
    cord_deratings,
    fixed_link_models,
    temperature_deratings,
)
from firstfix.standards.twisted_pair import PairReach
from firstfix.units import Metres

# The gauges a cord is counted by, thickest and thinnest: the thinnest is the last that standards.cabling has.
CORD_GAUGES = (20, 28)


class Cord(NamedTuple):
    """A stranded cord of a channel, or cable as thin: its length [m], gauge, temperature [°C], whether it is screened."""

    what: str
    length_m: float
    awg: int
    celsius: float = 20.0
    screened: bool = False


class FixedCable(NamedTuple):
    """A length of the permanent link: its length [m], temperature [°C], and whether it is screened."""

    what: str
    length_m: float
    celsius: float = 20.0
    screened: bool = False


class ChannelLength(NamedTuple):
    """A channel's three lengths [m]: its permanent link, all of it as laid, and equivalent (with the terms).

    Compare them with standards.cabling: permanent_link, channel, cord_formula.
    """

    permanent_link_m: Metres
    channel_m: Metres
    equivalent_m: Metres
    terms: tuple[Summand, ...]


class Verdict(StrEnum):
    """sure: within what is promised · possible: depends on the row's caveat · too long"""

    SURE = "sure"
    POSSIBLE = "possible"
    TOO_LONG = "too long"


def cord_derating(awg: int) -> CordDerating:
    """The published de-rating for a cord of this gauge; for a gauge between two, the thinner one's.

    awg: gauge number, 20 to 28. Result: a row of standards.cabling.
    Valid down to the thinnest cord published, 28 AWG; a cord thicker than 24 AWG counts as 24.
    Source: ANSI/TIA-568.2-D (2018), see standards.cabling.
    """
    rows = cord_deratings()
    within("cord gauge", awg, *CORD_GAUGES, "AWG")
    return next(row for row in rows if row.awg >= awg)


def temperature_factor(celsius: float, screened: bool) -> float:
    """How much more warm cable loses than cable at 20 °C.

    f = 1 + sum over the bands of (kelvin within the band) * (percent per kelvin) / 100
    celsius: cable temperature [°C]; screened. Result: factor, at least 1 (cold gives no credit).
    Valid for -60 °C to 60 °C.
    Source: ANSI/TIA-568.2-D (2018), insertion loss temperature dependence, see standards.cabling.
    """
    bands = [band for band in temperature_deratings() if band.screened == screened]
    within("cable temperature", celsius, -60, max(band.to_c for band in bands), "°C")
    percents = (max(0.0, min(celsius, band.to_c) - band.from_c) * band.percent_per_k for band in bands)
    return 1 + math.fsum(percents) / 100


def longest_link(celsius: float, screened: bool, cords: Sequence[Cord]) -> Metres:
    """The longest permanent link at a temperature, its cords being as warm as each says.

    H = (102 - sum of f (1 + D) C) / f, and at most 90 m
    celsius [°C]; screened; cords. Result [m], at least 0.
    Valid as temperature_factor and cord_derating.
    Source: ANSI/TIA-568.2-D (2018), see standards.cabling.
    """
    published = cabling_limits()
    left = published.cord_formula.value - math.fsum(_cord_term(cord).value for cord in cords)
    return Metres(min(published.permanent_link.value, max(0.0, left) / temperature_factor(celsius, screened)))


def longest_cords(permanent_link_m: float, awg: int) -> Metres:
    """How much cord, all cords of a channel together, a permanent link leaves room for.

    C = (102 - H) / (1 + D), and at most what the gauge allows in all (15 m for 28 AWG)
    permanent_link_m H [m]; awg of the cords. Result [m].
    Valid for 0 <= H <= 90 m.
    Source: ANSI/TIA-568.2-D (2018), open-office cord formula, see standards.cabling.
    """
    published = cabling_limits()
    within("permanent link", permanent_link_m, 0.0, published.permanent_link.value, "m")
    derating = cord_derating(awg)
    room = (published.cord_formula.value - permanent_link_m) / derating.factor
    return Metres(room if derating.total_max_m is None else min(room, derating.total_max_m))


def longest_work_area_cord(permanent_link_m: float, awg: int) -> Metres:
    """How long the cord at the outlet may be when the room keeps its usual cords.

    W = C - T, and at most 22 m (24 AWG)
    permanent_link_m H [m]; awg of the cords. Result [m], at least 0.
    Valid for 24 and 26 AWG, for which T is published; 0 <= H <= 90 m.
    Source: ANSI/TIA-568.2-D (2018), open-office cord formula, see standards.cabling.
    """
    derating = cord_derating(awg)
    if derating.room_cords_m is None or derating.work_area_max_m is None:
        raise OutOfRange("cord gauge of a work area", awg, 20, 26, "AWG")
    left = longest_cords(permanent_link_m, awg) - derating.room_cords_m
    return Metres(max(0.0, min(left, derating.work_area_max_m)))


def channel_length(fixed: Sequence[FixedCable], cords: Sequence[Cord]) -> ChannelLength:
    """A channel as the length of cool fixed cable that loses as much.

    L = sum of f(T) H + sum of f(T) (1 + D) C, which must not be above 102 m
    fixed: the lengths of the permanent link; cords: all others. Result: with one term for each.
    Valid as temperature_factor and cord_derating.
    Source: ANSI/TIA-568.2-D (2018), open-office cord formula; combining both factors is derived from it.
    """
    for length in (*(piece.length_m for piece in fixed), *(cord.length_m for cord in cords)):
        not_negative("length", length, "m")
    terms = (*(_fixed_term(piece) for piece in fixed), *(_cord_term(cord) for cord in cords))
    link = math.fsum(piece.length_m for piece in fixed)
    laid = math.fsum((link, *(cord.length_m for cord in cords)))
    return ChannelLength(Metres(link), Metres(laid), Metres(total(terms)), terms)


def _fixed_term(piece: FixedCable) -> Summand:
    factor = temperature_factor(piece.celsius, piece.screened)
    warm = _warm(piece.celsius, piece.screened, factor)
    return Summand(piece.what, factor * piece.length_m, f"{piece.length_m:g} m{warm}" if warm else "as laid")


def _cord_term(cord: Cord) -> Summand:
    derating = cord_derating(cord.awg)
    warmth = temperature_factor(cord.celsius, cord.screened)
    thin = f"{cord.length_m:g} m of {cord.awg} AWG cord, factor {derating.factor:g}; {derating.basis}"
    source = f"{thin}{_warm(cord.celsius, cord.screened, warmth)}"
    return Summand(cord.what, warmth * derating.factor * cord.length_m, source)


def _warm(celsius: float, screened: bool, factor: float) -> str:
    """How warmth lengthens a term, so that it can be redone by hand; cool cable counts as it is long."""
    if factor <= 1:
        return ""
    bands = [band for band in temperature_deratings() if band.screened == screened and band.from_c < celsius]
    rates = " and ".join(f"{band.percent_per_k:g} % per K from {band.from_c:g} °C" for band in bands)
    return f" at {celsius:g} °C, factor {factor:.6g} by {rates}; {bands[0].basis}"


class ThinCords(NamedTuple):
    """All cords together [m] of a gauge so thin that a limit on their sum is published: the row that has it."""

    length_m: Metres
    derating: CordDerating


def thin_cords(cords: Sequence[Cord]) -> ThinCords | None:
    """The cords that are limited in all, or None if there is none.

    C = sum of C_i over the cords of 28 AWG; more than 10 m is advised against, 15 m is the most
    cords of a channel. Result [m] with the row of standards.cabling that says both limits.
    Valid as cord_derating; a gauge between 26 and 28 counts as 28.
    Source: ANSI/TIA-568.2-D (2018), annex on 28 AWG cords, see standards.cabling.
    """
    thin = [cord for cord in cords if cord_derating(cord.awg).total_max_m is not None]
    if not thin:
        return None
    length = math.fsum(cord.length_m for cord in thin)
    return ThinCords(Metres(length), cord_derating(max(cord.awg for cord in thin)))


def iso_fixed_length(
    model: str,
    cabling_class: str,
    cords_m: float,
    cord_ratio: float,
    point_m: float = 0.0,
    point_ratio: float = 1.0,
) -> Metres:
    """The longest fixed cable by the international models.

    H = base - allowance - F X - C Y, and at most 90 m
    model, cabling_class: a key of standards.cabling.fixed_link_models; cords_m F [m];
    cord_ratio X (1.2 or 1.5); point_m C [m], at a consolidation point; point_ratio Y. Result [m], at least 0.
    Valid at 20 °C. Raises LookupError for a model that is not published.
    Source: ISO/IEC 11801 (2002), Table 21, from memory.
    """
    row = fixed_link_models()[model, cabling_class]
    within("ratio of cord loss", cord_ratio, 1.0, 2.0)
    within("ratio of consolidation-point cable loss", point_ratio, 1.0, 2.0)
    used = (
        not_negative("cords", cords_m, "m") * cord_ratio + not_negative("cable", point_m, "m") * point_ratio
    )
    left = row.base_m - row.allowance_m - used
    return Metres(max(0.0, min(cabling_limits().permanent_link.value, left)))


def reach_verdict(length_m: float, reach: PairReach) -> Verdict:
    """Whether a channel's length is within what its signalling reaches.

    sure: L <= sure_m; possible: L <= possible_m; else too long
    length_m: the channel as laid [m]; reach: from standards.twisted_pair.pair_reach.
    Source: the row's own basis.
    """
    if at_most(not_negative("length", length_m, "m"), reach.sure_m):
        return Verdict.SURE
    return Verdict.POSSIBLE if at_most(length_m, reach.possible_m) else Verdict.TOO_LONG
