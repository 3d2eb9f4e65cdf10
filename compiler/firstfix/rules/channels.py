"""Rules on channels of copper pairs: how long, at which rate over which category, through how many connections.

Takes a build; yields one outcome for each channel. Fibre and twinax are judged in optical_channels, under the same rule.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN, Channel, Piece
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Finding, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import CableForm
from firstfix.physics.channel import ChannelLength, Cord, FixedCable, Verdict, channel_length, reach_verdict
from firstfix.physics.constants import REFERENCE_TEMPERATURE_C
from firstfix.physics.range import OutOfRange, at_most
from firstfix.rules.channel_facts import ChannelFacts, Grade, channel_facts
from firstfix.rules.optical_channels import judge_fibre, judge_twinax
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.standards.cabling import cabling_limits
from firstfix.standards.twisted_pair import PairReach, pair_reach, pair_reaches
from firstfix.units import Metres, metres, rate

_LENGTHS = Basis(
    "ANSI/TIA-568.2-D (2018)", "permanent link, channel and cord lengths; reach by IEEE Std 802.3"
)


class _Fault(NamedTuple):
    """One limit that a channel breaks: how it is said, the figures, on which source, and what helps."""

    message: str
    measurement: Measurement | None
    basis: Basis
    cures: tuple[Cure, ...]
    level: Level = Level.ERROR


@rule("channel-length", Level.ERROR, _LENGTHS)
def channel_length_kept(build: Build) -> Iterator[Outcome]:
    """The length of each channel, against what its cabling and its data rate allow.

    Because: a link past its reach comes up on some days, or at a lower rate, and the cable is in the wall by then.
    Compares: all installed runs of a channel [m] <= 90 m; the channel as laid [m] <= 100 m; its equivalent length, cords counted
        by gauge and warm ways by temperature [m] <= 102 m; the channel as laid <= the reach of its rate over the worst
        category in it. The rate is the lower of both ends' highest. A run that ends in a plug counts as installed.
        Fibre: length and loss by signalling and grade; twinax: length by assembly.
        A reach that depends on more than length is a warning. A category that is never meant for the rate is a warning where a
        lower common rate reaches, since the ends can be set to it, else an error; past the reach of its rate is an error.
    Skips: channels of other media. Ways without a temperature count as 20 °C, the tables' own.
    Cannot tell: a way without length, an end without rate, a part without category or gauge; a fibre for which it depends on
        the module.
    Remedy: a shorter way, thicker cords, a better category, a lower rate, a switch half way, or fibre.
    """
    facts = channel_facts(build)
    # Big sites repeat the same few shapes; what was fine once is fine again.
    known_fine: set[object] = set()
    for channel in build.channels.values():
        if channel.medium == "copper":
            shape = _shape(build, facts, channel)
            outcome = Fine(channel.id) if shape in known_fine else _judge_copper(build, facts, channel)
            if isinstance(outcome, Fine):
                known_fine.add(shape)
            yield outcome
        elif channel.medium == "fibre":
            yield judge_fibre(channel_length_kept, facts, channel)
        elif channel.medium == "twinax":
            yield judge_twinax(channel_length_kept, facts, channel)


def _shape(build: Build, facts: ChannelFacts, channel: Channel) -> object:
    """All that a copper channel's verdict rests on."""
    pieces = (build.pieces[each] for each in channel.pieces)
    laid = tuple(
        (each.part, each.kind, each.length.sold or each.length.figure, _warm_ways(build, each))
        for each in pieces
    )
    return laid, facts.rate(channel), facts.grade(channel)


def _warm_ways(build: Build, piece: Piece) -> tuple[str, ...]:
    return tuple(way for way in piece.route if isinstance(build.ways[way].temperature, Fact))


def _judge_copper(build: Build, facts: ChannelFacts, channel: Channel) -> Outcome:
    pieces = facts.pieces(channel)
    missing = [why for piece, form in pieces for why in _missing(piece, form)]
    wanted, grade = facts.rate(channel), facts.grade(channel)
    if missing:
        return channel_length_kept.cannot_tell(channel.id, facts.at(channel), *dict.fromkeys(missing))
    try:
        lengths = _lengths(build, pieces)
    except OutOfRange as fault:
        return channel_length_kept.cannot_tell(channel.id, facts.at(channel), str(fault))
    faults = list(_cabling_faults(lengths, pieces))
    if not faults and (isinstance(wanted, Unknown) or isinstance(grade, Unknown)):
        whys = (each.why for each in (wanted, grade) if isinstance(each, Unknown))
        return channel_length_kept.cannot_tell(channel.id, facts.at(channel), *whys)
    if not isinstance(wanted, Unknown) and not isinstance(grade, Unknown):
        reach = _reach_fault(lengths, pieces, wanted, grade)
        if isinstance(reach, Unknown):
            if not faults:
                return channel_length_kept.cannot_tell(channel.id, facts.at(channel), reach.why)
        elif reach is not None:
            faults.append(reach)
    return _worst(facts, channel, faults) if faults else Fine(channel.id)


def _missing(piece: Piece, form: CableForm) -> Iterator[str]:
    length = piece.length.figure
    if isinstance(length, Unknown):
        yield length.why
    if _is_cord(piece, form) and isinstance(form.gauge_awg, Unknown):
        yield f"the part '{piece.part}' does not say its gauge"


def _is_cord(piece: Piece, form: CableForm) -> bool:
    """Stranded wire loses more, also where it is laid as a run."""
    return piece.kind != RUN or form.is_stranded


def _laid(piece: Piece) -> float:
    figure = piece.length.figure
    return figure.high if isinstance(figure, Fact) else 0.0


def _lengths(build: Build, pieces: tuple[tuple[Piece, CableForm], ...]) -> ChannelLength:
    """The three lengths. A run that is stranded loses as a cord, and still belongs to the permanent link."""
    fixed: list[FixedCable] = []
    cords: list[Cord] = []
    for piece, form in pieces:
        if _is_cord(piece, form) and isinstance(form.gauge_awg, Fact):
            cords.append(Cord(f"{piece.kind} of '{piece.part}'", _laid(piece), int(form.gauge_awg.high)))
        else:
            fixed.extend(_by_temperature(build, piece, form))
    found = channel_length(fixed, cords)
    installed = sum(_laid(piece) for piece, _ in pieces if piece.kind == RUN)
    return found._replace(permanent_link_m=Metres(round(installed, 6)))


def _by_temperature(build: Build, piece: Piece, form: CableForm) -> Iterator[FixedCable]:
    """The run's stretches along warm ways, and all the rest of it."""
    rest = _laid(piece)
    for way_id in piece.route:
        way = build.ways[way_id]
        warm = isinstance(way.temperature, Fact) and way.temperature.high > REFERENCE_TEMPERATURE_C
        if warm and isinstance(way.temperature, Fact) and isinstance(way.length, Fact):
            rest -= way.length.high
            yield FixedCable(f"way '{way.name}'", way.length.high, way.temperature.high, form.is_screened)
    yield FixedCable(f"installed run of '{piece.part}'", round(max(rest, 0.0), 6))


def _cabling_faults(lengths: ChannelLength, pieces: tuple[tuple[Piece, CableForm], ...]) -> Iterator[_Fault]:
    limits = cabling_limits()
    for what, figure, limit in (
        ("installed runs", lengths.permanent_link_m, limits.permanent_link),
        ("channel as laid", lengths.channel_m, limits.channel),
        ("equivalent length of the channel", lengths.equivalent_m, limits.cord_formula),
    ):
        if at_most(figure, limit.value):
            continue
        over = metres(figure - limit.value)
        if limit is limits.cord_formula:
            terms = tuple(Term(*each) for each in lengths.terms)
        else:
            terms = _piece_terms(
                tuple(each for each in pieces if each[0].kind == RUN or limit is limits.channel)
            )
        cures = (
            Cure(f"shorten it by {over}, or put a switch half way"),
            Cure("use fibre for this run, which goes further"),
        )
        words = f"{over} too long: {what} {metres(figure)}, at most {metres(limit.value)}"
        yield _Fault(words, Measurement(what, figure, "at most", limit.value, "m", terms), limit.basis, cures)


def _piece_terms(pieces: tuple[tuple[Piece, CableForm], ...]) -> tuple[Term, ...]:
    """One run's own terms where there is but one; else each piece as a whole."""
    if len(pieces) == 1 and not pieces[0][0].length.sold:
        return pieces[0][0].length.terms
    return tuple(
        Term(f"{piece.kind} of '{piece.part}'", _laid(piece), "as sold" if piece.length.sold else "")
        for piece, _ in pieces
    )


def _reach_fault(
    lengths: ChannelLength, pieces: tuple[tuple[Piece, CableForm], ...], wanted: float, grade: Grade
) -> _Fault | Unknown | None:
    try:
        reach = pair_reach(wanted, grade.category, grade.is_screened)
    except LookupError as unknown:
        return Unknown(str(unknown.args[0]))
    verdict = Verdict.TOO_LONG if reach is None else reach_verdict(lengths.channel_m, reach)
    if verdict is Verdict.SURE:
        return None
    lower = _fallback(lengths.channel_m, wanted, grade)
    cures = [Cure(f"use category {better} throughout")] if (better := _sufficient(wanted, lengths.channel_m, grade)) else []  # fmt: skip
    if lower:
        cures.append(Cure(f"set both ends to {rate(lower)}, which this cabling carries"))
    if reach is None:
        message = f"category {grade.category} ('{grade.part}') is not meant for {rate(wanted)}"
        still = f"; {rate(lower)} works" if lower else ", nor does a lower rate reach"
        basis = Basis(
            "IEEE Std 802.3 (2018)", f"cabling asked for by twisted-pair signalling at {rate(wanted)}"
        )
        return _Fault(message + still, None, basis, tuple(cures), Level.WARNING if lower else Level.ERROR)
    limit = reach.sure_m if verdict is Verdict.POSSIBLE else reach.possible_m
    measurement = Measurement(
        "channel as laid", lengths.channel_m, "at most", limit, "m", _piece_terms(pieces)
    )
    if verdict is Verdict.POSSIBLE:
        words = (
            f"{reach.phy} over category {grade.category} is sure only up to {metres(limit)}: {reach.caveat}"
        )
        return _Fault(words, measurement, reach.basis, tuple(cures), Level.WARNING)
    over = metres(lengths.channel_m - limit)
    words = f"{over} too long for {reach.phy} over category {grade.category} ('{grade.part}')"
    return _Fault(words, measurement, reach.basis, tuple(cures))


def _fallback(length: float, wanted: float, grade: Grade) -> float:
    """The highest lower rate that is sure to reach, or 0."""
    rates = sorted({row.rate_mbps for row in pair_reaches() if row.rate_mbps < wanted}, reverse=True)
    for lower in rates:
        reach = pair_reach(lower, grade.category, grade.is_screened)
        if reach is not None and reach_verdict(length, reach) is Verdict.SURE:
            return lower
    return 0.0


def _sufficient(wanted: float, length: float, grade: Grade) -> str:
    """The lowest published category over which the rate is sure to reach, or ""."""
    for row in pair_reaches():
        fits = row.rate_mbps == wanted and row.screened in (None, grade.is_screened)
        if fits and reach_verdict(length, row) is Verdict.SURE:
            return row.category
    return ""


def _worst(facts: ChannelFacts, channel: Channel, faults: list[_Fault]) -> Finding:
    """One finding for a channel: its worst fault; the others are told beside it."""

    def badness(fault: _Fault) -> tuple[bool, float]:
        return fault.level is Level.ERROR, -fault.measurement.margin if fault.measurement else 0.0

    ordered = sorted(faults, key=badness, reverse=True)
    worst = ordered[0]
    return channel_length_kept.finding(
        f"{facts.shown(channel)}: {worst.message}",
        channel.id,
        facts.at(channel),
        related=tuple(Label(None, f"also {other.message}") for other in ordered[1:]),
        measurement=worst.measurement,
        cures=worst.cures,
        level=worst.level,
        basis=worst.basis,
    )


@rule(
    "channel-connections", Level.ERROR, Basis("ANSI/TIA-568.2-D (2018)", "channel configuration; from memory")
)
def channel_connections(build: Build) -> Iterator[Outcome]:
    """How many connections a copper channel has between its two ends.

    Because: each connection reflects and loses a little of the signal, and is one more that works loose.
    Compares: connections of the channel <= 4, or what its signalling allows over its category (2 for category 8). Each panel,
        outlet, coupler, surge protector or injector on the way counts once; the plugs in the equipment don't.
    Skips: fibre and twinax, whose joints count as loss.
    Cannot tell: never
    Remedy: one run from end to end for two with a coupler; a cord straight to the switch.
    """
    facts = channel_facts(build)
    for channel in build.channels.values():
        if channel.medium != "copper":
            continue
        most, basis = _most_connections(facts, channel)
        if at_most(channel.connections, most):
            yield Fine(channel.id)
            continue
        names = [build.devices[each].name for each in channel.through]
        yield channel_connections.finding(
            f"{facts.shown(channel)} has {channel.connections} connections, at most {most:g}",
            channel.id,
            facts.at(channel),
            related=tuple(
                Label(build.provenance.span(device, "part"), f"'{name}' adds a connection")
                for device, name in zip(channel.through, names, strict=True)
            ),
            measurement=Measurement(
                "connections",
                channel.connections,
                "at most",
                most,
                "",
                tuple(Term(f"'{name}'", 1) for name in names),
            ),
            cures=(Cure(f"leave out {channel.connections - most:g} of them: {', '.join(names)}"),),
            basis=basis,
        )


def _most_connections(facts: ChannelFacts, channel: Channel) -> tuple[float, Basis]:
    limit = cabling_limits().connections
    reach = (
        _reach_of(facts, channel)
        if channel.connections > cabling_limits().connections_category_8.value
        else None
    )
    if reach is None or reach.connections_max >= limit.value:
        return limit.value, limit.basis
    return reach.connections_max, reach.basis


def _reach_of(facts: ChannelFacts, channel: Channel) -> PairReach | None:
    wanted, grade = facts.rate(channel), facts.grade(channel)
    if isinstance(wanted, Unknown) or isinstance(grade, Unknown):
        return None
    try:
        return pair_reach(wanted, grade.category, grade.is_screened)
    except LookupError:
        return None


RULES: tuple[Rule, ...] = (channel_length_kept, channel_connections)
