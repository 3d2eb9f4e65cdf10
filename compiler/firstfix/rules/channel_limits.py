"""The limits that a copper channel must keep, and which of them it breaks: by length, by thin cords, by the reach of its rate.

Takes a build, the pieces of a channel and its lengths; gives faults, each with its figures, terms and source.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.channel import (
    ChannelLength,
    Verdict,
    cord_derating,
    reach_verdict,
    temperature_factor,
    thin_cords,
)
from firstfix.physics.copper import Stretch, pair_loop
from firstfix.physics.range import at_most
from firstfix.rules.channel_facts import Grade
from firstfix.rules.channel_lengths import Pieces, laid, piece_terms, stretches, summed
from firstfix.rules.warmth import warm_places
from firstfix.standards.cabling import cabling_limits
from firstfix.standards.copper import conductor_materials, resistance_limits
from firstfix.standards.twisted_pair import PairReach, pair_reach, pair_reaches
from firstfix.units import metres, number, rate

# Cords thinner than this gauge are limited in their sum: see standards.cabling.cord_deratings.
_THICKER_THAN_THIN = 26


class Fault(NamedTuple):
    """One limit that a channel breaks: how it is said, the figures, on which source.

    `about`: "length" (a shorter way helps), "cords" (thicker ones help) or "category" (a better one helps).
    """

    message: str
    measurement: Measurement | None
    basis: Basis
    about: str
    level: Level = Level.ERROR
    related: tuple[Label, ...] = ()


def cabling_faults(build: Build, pieces: Pieces, lengths: ChannelLength) -> Iterator[Fault]:
    """What the cabling itself breaks, whatever the rate."""
    limits = cabling_limits()
    for what, figure, limit in (
        ("permanent link (installed runs)", lengths.permanent_link_m, limits.permanent_link),
        ("channel as laid", lengths.channel_m, limits.channel),
        ("equivalent length of the channel", lengths.equivalent_m, limits.cord_formula),
    ):
        if at_most(figure, limit.value):
            continue
        over = metres(figure - limit.value)
        related: tuple[Label, ...] = ()
        if limit is limits.cord_formula:
            terms = tuple(Term(*each) for each in lengths.terms)
            related = summed(pieces)
        else:
            terms = piece_terms(tuple(each for each in pieces if each[0].kind == RUN or limit is limits.channel))  # fmt: skip
        words = f"{over} too long: {what} {metres(figure)}, at most {metres(limit.value)}"
        measurement = Measurement(what, figure, "at most", limit.value, "m", terms)
        about = "cords" if limit is limits.cord_formula else "length"
        yield Fault(words, measurement, limit.basis, about, related=related)
    yield from _thin_faults(build, pieces)


def _thin_faults(build: Build, pieces: Pieces) -> Iterator[Fault]:
    """Cords of 28 AWG together, and 28 AWG where an installed run should be."""
    thin = tuple(
        (piece, form)
        for piece, form in pieces
        if isinstance(form.gauge_awg, Fact) and form.gauge_awg.high > _THICKER_THAN_THIN
    )
    if not thin:
        return
    for piece, form in thin:
        if piece.kind == RUN and isinstance(form.gauge_awg, Fact):
            words = (
                f"'{piece.part}' of {form.gauge_awg.high:g} AWG is for cords, and lies in an installed run"
            )
            yield Fault(words, None, cord_derating(28).basis, "cords", Level.WARNING)
    cords = tuple(each for each in thin if each[0].kind != RUN)
    found = thin_cords(stretches(build, cords, at_worst=False).cords)
    if found is None:
        return
    derating = found.derating
    for limit, level in ((derating.total_max_m, Level.ERROR), (derating.total_advised_m, Level.WARNING)):
        if limit is not None and not at_most(found.length_m, limit):
            what = f"cords of {derating.awg} AWG together"
            words = f"{metres(found.length_m - limit)} too much: {what} {metres(found.length_m)}, at most {metres(limit)}"
            figures = Measurement(what, found.length_m, "at most", limit, "m", piece_terms(cords))
            yield Fault(words, figures, derating.basis, "cords", level)
            return


def loop_fault(pieces: Pieces, connections: int) -> Fault | None:
    """The loop resistance of a pair, where every gauge is known; a cable that hides its gauge is taken to keep its category's."""
    stretches_ = [
        Stretch(
            f"{piece.kind} of '{piece.part}'",
            laid(piece),
            form.gauge_awg.high,
            conductivity=conductor_materials()[form.conductor].conductivity,
        )
        for piece, form in pieces
        if isinstance(form.gauge_awg, Fact)
    ]
    if len(stretches_) < len(pieces):
        return None
    limit, loop = resistance_limits().channel_pair_loop, pair_loop(stretches_, connections)
    if at_most(loop.ohms, limit.value):
        return None
    what = "loop resistance of a pair at 20 °C"
    words = f"{what} {number(loop.ohms)} Ω, at most {number(limit.value)} Ω"
    terms = tuple(Term(*each) for each in loop.terms)
    return Fault(
        words, Measurement(what, loop.ohms, "at most", limit.value, "Ω", terms), limit.basis, "cords"
    )


def reach_fault(
    build: Build, pieces: Pieces, lengths: ChannelLength, wanted: float, grade: Grade
) -> Fault | Unknown | None:
    """What the rate breaks over the worst category of the channel; Unknown where no table tells."""
    try:
        reach = pair_reach(wanted, grade.category, grade.is_screened)
    except LookupError as unknown:
        return Unknown(str(unknown.args[0]))
    if reach is None:
        return _never_meant(lengths, wanted, grade)
    verdict = reach_verdict(lengths.channel_m, reach)
    terms = piece_terms(pieces)
    if verdict is Verdict.SURE:
        return _category_8(build, pieces, lengths, reach)
    if verdict is Verdict.POSSIBLE:
        words = f"{reach.phy} over category {grade.category} is sure only up to {metres(reach.sure_m)}: {reach.caveat}"
        figures = Measurement("channel as laid", lengths.channel_m, "at most", reach.sure_m, "m", terms)
        return Fault(words, figures, reach.basis, "category", Level.WARNING)
    over = metres(lengths.channel_m - reach.possible_m)
    words = f"{over} too long for {reach.phy} over category {grade.category} ('{grade.part}')"
    figures = Measurement("channel as laid", lengths.channel_m, "at most", reach.possible_m, "m", terms)
    return Fault(
        words,
        figures,
        reach.basis,
        "category" if sufficient_category(wanted, lengths.channel_m, grade) else "length",
    )


def _never_meant(lengths: ChannelLength, wanted: float, grade: Grade) -> Fault:
    lower = lower_rate(lengths.channel_m, wanted, grade)
    message = f"category {grade.category} ('{grade.part}') is not meant for {rate(wanted)}"
    still = f"; {rate(lower)} works" if lower else ", nor does a lower rate reach"
    basis = Basis("IEEE Std 802.3 (2018)", f"cabling asked for by twisted-pair signalling at {rate(wanted)}")
    return Fault(message + still, None, basis, "category", Level.WARNING if lower else Level.ERROR)


def _category_8(
    build: Build, pieces: Pieces, lengths: ChannelLength, reach: PairReach
) -> Fault | Unknown | None:
    """Category 8 has a permanent link of its own, and no published de-rating by temperature."""
    limits = cabling_limits()
    if reach.sure_m > limits.channel_category_8.value:
        return None
    limit = limits.permanent_link_category_8
    if not at_most(lengths.permanent_link_m, limit.value):
        over = metres(lengths.permanent_link_m - limit.value)
        terms = piece_terms(tuple(each for each in pieces if each[0].kind == RUN))
        what = "permanent link of category 8"
        figures = Measurement(what, lengths.permanent_link_m, "at most", limit.value, "m", terms)
        return Fault(f"{over} too long: {what}, for {reach.phy}", figures, limit.basis, "length", Level.WARNING)  # fmt: skip
    warm = warm_places(build)
    hottest = [warm.of(way).most_c for piece, _ in pieces for way in warm.along(piece.route)]
    if hottest and not at_most(temperature_factor(max(hottest), True) * lengths.channel_m, reach.sure_m):
        return Unknown(f"how far {reach.phy} goes in a way of {max(hottest):g} °C: no de-rating is published for category 8")  # fmt: skip
    return None


def lower_rate(length: float, wanted: float, grade: Grade) -> float:
    """The highest lower rate that is sure to reach, or 0."""
    rates = sorted({row.rate_mbps for row in pair_reaches() if row.rate_mbps < wanted}, reverse=True)
    for lower in rates:
        reach = pair_reach(lower, grade.category, grade.is_screened)
        if reach is not None and reach_verdict(length, reach) is Verdict.SURE:
            return lower
    return 0.0


def sufficient_category(wanted: float, length: float, grade: Grade) -> str:
    """The lowest published category over which the rate is sure to reach, or ""."""
    for row in pair_reaches():
        fits = row.rate_mbps == wanted and row.screened in (None, grade.is_screened)
        if fits and reach_verdict(length, row) is Verdict.SURE:
            return row.category
    return ""
