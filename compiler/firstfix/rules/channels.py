"""Rules on channels of copper pairs: how long, at which rate over which category, through how many connections.

Takes a build; yields one outcome for each channel. What limits there are is in channel_limits; fibre and twinax are judged in
optical_channels, under the same rule.
"""

from collections.abc import Iterator

from firstfix.build.cabling import Channel, Piece
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Finding, Label, Level, Measurement, Term
from firstfix.graphs.wired import WiredChannel, wired_channels
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.range import OutOfRange, at_most
from firstfix.rules.channel_cures import cures_for
from firstfix.rules.channel_facts import ChannelFacts, Grade, channel_facts
from firstfix.rules.channel_lengths import (
    Pieces,
    at_least_lengths,
    is_thin_run,
    lengths_of,
    missing_facts,
    unpublished_gauges,
    unsettled_ways,
    warmest_that_fits,
)
from firstfix.rules.channel_limits import Fault, cabling_faults, loop_fault, reach_fault
from firstfix.rules.optical_channels import judge_fibre, judge_twinax
from firstfix.rules.rule import Fine, FineMany, Outcome, Rule, rule
from firstfix.rules.warmth import WarmPlaces, warm_places
from firstfix.standards.cabling import cabling_limits
from firstfix.standards.twisted_pair import PairReach, pair_reach
from firstfix.units import metres, number

_WAYS_SHOWN = 2
_LENGTHS = Basis(
    "ANSI/TIA-568.2-D (2018)", "permanent link, channel and cord lengths; reach by IEEE Std 802.3"
)


@rule("channel-length", Level.ERROR, _LENGTHS)
def channel_length_kept(build: Build) -> Iterator[Outcome]:
    """The length of each channel, against what its cabling and its data rate allow.

    Because: a link past its reach comes up on some days, or at a lower rate, and the cable is in the wall by then.
    Compares: the permanent link, which is all installed runs of a channel [m] <= 90 m; the channel as laid, runs and all cords
        with those at the equipment [m] <= 100 m; its equivalent length, cords counted by gauge (24 AWG 1.2, 26 AWG 1.5, 28 AWG
        1.95) and warm ways by temperature [m] <= 102 m, which is the cord formula C = (102 - H) / (1 + D); cords of 28 AWG
        together <= 15 m, above 10 m a warning; the loop resistance of a pair, by gauge, with 0.4 ohm for each connection
        [ohm] <= 25; the channel as laid <= the reach of its rate over the worst category in it.
        The rate is the lower of both ends' highest. A run that ends in a plug counts as installed; one that is stranded
        loses as a cord. Fibre: length and loss by signalling and grade; twinax: length by assembly.
        A reach that depends on more than length is a warning. A category that is never meant for the rate is a warning where a
        lower common rate reaches, since the ends can be set to it, else an error; past the reach of its rate is an error.
    Skips: channels of other media. A way is as warm as its `temperature`; without it as the warmer of its rooms' `ambient`, or
        20 °C, in a building; 20 °C in the ground; between 20 and 60 °C in a loft and outdoors. Cords are as warm as their room.
    Cannot tell: a way without length, an end without rate, a part without category or gauge, a way that may be so warm that it
        matters, a solid run thinner than 24 AWG; a fibre for which it depends on the module. Where a missing fact cannot change
        the verdict, the verdict is given.
    Remedy: a shorter way, thicker cords, a better category, a lower rate, a switch half way, or fibre.
    """
    facts, warm = channel_facts(build), warm_places(build)
    # Big sites repeat the same few shapes; what was fine once is fine again.
    known_fine: set[object] = set()
    fine = 0
    for wired in wired_channels(build):
        channel = wired.channel
        if channel.medium == "copper":
            shape = _shape(build, facts, warm, wired)
            if shape in known_fine:
                fine += 1
                continue
            outcome = _judge_copper(build, facts, channel)
            if isinstance(outcome, Fine):
                known_fine.add(shape)
            yield outcome
        elif channel.medium == "fibre":
            yield judge_fibre(channel_length_kept, facts, channel)
        elif channel.medium == "twinax":
            yield judge_twinax(channel_length_kept, facts, channel)
    if fine:
        yield FineMany(fine)


def _shape(build: Build, facts: ChannelFacts, warm: WarmPlaces, wired: WiredChannel) -> object:
    """All that a copper channel's verdict rests on."""
    channel, near, far = wired
    pieces = [build.pieces[each] for each in channel.pieces]
    laid = tuple([(each.part, each.kind, each.length.sold or each.length.figure) for each in pieces])
    warmth = tuple([_warmth(build, warm, each) for each in pieces]) if warm.are_any else ()
    in_line = tuple([facts.in_line(each) for each in channel.through])
    return laid, warmth, channel.connections, near.rate, far.rate, in_line


def _warmth(build: Build, warm: WarmPlaces, piece: Piece) -> object:
    """How warm the piece gets, and along which part of its length."""
    ways = warm.along(piece.route) and (piece.route, piece.length.terms[:1])
    return ways, warm.between(build, piece.ends)


def _judge_copper(build: Build, facts: ChannelFacts, channel: Channel) -> Outcome:
    pieces = facts.pieces(channel)
    wanted, grade = facts.rate_at_most(channel), facts.grade(channel)
    missing = list(dict.fromkeys(missing_facts(pieces)))
    if unheard_of := list(dict.fromkeys(unpublished_gauges(pieces))):
        return channel_length_kept.cannot_tell(channel.id, facts.at(channel), *missing, *unheard_of)
    # What is missing only adds: what is too long without it is too long with it.
    lengths = at_least_lengths(pieces)
    if not missing:
        try:
            lengths = lengths_of(build, pieces, at_worst=False)
        except OutOfRange as fault:
            missing = [str(fault)]
    faults = list(cabling_faults(build, pieces, lengths))
    if (loop := loop_fault(pieces, channel.connections)) is not None:
        faults.append(loop)
    missing += [each.why for each in (wanted, grade) if isinstance(each, Unknown)]
    if not isinstance(wanted, Unknown) and not isinstance(grade, Unknown):
        reach = reach_fault(build, pieces, lengths, wanted, grade)
        rate_open = facts.rate(channel)
        if isinstance(reach, Unknown):
            missing.append(reach.why)
        elif reach is not None and isinstance(rate_open, Unknown):
            missing.append(rate_open.why)
        elif reach is not None:
            faults.append(reach)
    if not missing:
        missing += _doubts(build, pieces)
    if faults:
        return _worst(build, facts, channel, pieces, wanted, grade, faults, missing)
    return channel_length_kept.cannot_tell(channel.id, facts.at(channel), *missing) if missing else Fine(channel.id)  # fmt: skip


def _doubts(build: Build, pieces: Pieces) -> Iterator[str]:
    """What must be known where a channel fits at its best, and would not at its worst."""
    thin = dict.fromkeys(piece.part for piece, form in pieces if is_thin_run(piece, form))
    ways = unsettled_ways(build, pieces)
    if not (thin or ways):
        return
    lengths, limit = lengths_of(build, pieces), cabling_limits().cord_formula.value
    if at_most(lengths.equivalent_m, limit):
        return
    over = metres(lengths.equivalent_m - limit)
    for part in thin:
        yield f"what '{part}' loses over 100 m: it is thinner than horizontal cable (24 AWG), and losing as a cord it is {over} too long"
    for way in ways:
        found, most = build.ways[way], number(warm_places(build).of(way).most_c)
        fits = (
            "" if thin else f"up to {number(warmest_that_fits(build, pieces, limit))} °C this channel fits, "
        )
        yield f"how warm the way '{found.name}' ({found.kind}) gets, its `temperature`: {fits}at {most} °C it is {over} too long"


def _worst(
    build: Build,
    facts: ChannelFacts,
    channel: Channel,
    pieces: Pieces,
    wanted: float | Unknown,
    grade: Grade | Unknown,
    faults: list[Fault],
    missing: list[str],
) -> Finding:
    """One finding for a channel: its worst fault; the others are told beside it, and what is not known that may add to them."""

    def badness(fault: Fault) -> tuple[bool, float]:
        return fault.level is Level.ERROR, -fault.measurement.margin if fault.measurement else 0.0

    ordered = sorted(faults, key=badness, reverse=True)
    worst = ordered[0]
    return channel_length_kept.finding(
        f"{facts.shown(channel)}: {worst.message}",
        channel.id,
        facts.at(channel),
        related=(
            *worst.related,
            *_longest_ways(build, pieces),
            *(Label(None, f"also {other.message}") for other in ordered[1:]),
            *(Label(None, f"not known: {each}") for each in missing),
        ),
        measurement=worst.measurement,
        cures=cures_for(build, channel, pieces, wanted, grade, worst),
        level=worst.level,
        basis=worst.basis,
    )


def _longest_ways(build: Build, pieces: Pieces) -> Iterator[Label]:
    """Where most of the length comes from: a slip in one way's length shows in every channel through it."""
    ways = (build.ways[way] for way in dict.fromkeys(way for piece, _ in pieces for way in piece.route))
    known = [(way.length.low, way) for way in ways if isinstance(way.length, Fact)]
    for length, way in sorted(known, key=lambda each: (-each[0], each[1].id))[:_WAYS_SHOWN]:
        yield Label(build.provenance.span(way.id, "length"), f"'{way.name}' is {metres(length)} of it")


@rule(
    "channel-connections", Level.ERROR, Basis("ANSI/TIA-568.2-D (2018)", "channel configuration; from memory")
)
def channel_connections(build: Build) -> Iterator[Outcome]:
    """How many connections a copper channel has between its two ends.

    Because: each connection reflects and loses a little of the signal, and is one more that works loose.
    Compares: connections of the channel <= 4, or what its signalling allows over its category (2 for category 8). Each panel,
        outlet, coupler, surge protector or injector on the way is mated hardware and counts once, however many contacts it has
        inside; the plugs in the equipment at both ends don't (ANSI/TIA-568.2-D and ISO/IEC 11801-1, channel definition).
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
                tuple(Term(f"'{name}'", 1, "mated hardware in line counts once") for name in names),
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
