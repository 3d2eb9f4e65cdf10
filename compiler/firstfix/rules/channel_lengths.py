"""The lengths of a copper channel as the standard counts them, each with the terms that an installer can redo by hand.

Takes a build and the pieces of one channel; gives the permanent link, the channel as laid, and its equivalent length with cords
counted by gauge and warm ways by temperature.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN, Piece
from firstfix.build.model import Build
from firstfix.finding.model import Label, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import CableForm
from firstfix.physics.channel import CORD_GAUGES, ChannelLength, Cord, FixedCable, channel_length
from firstfix.physics.constants import REFERENCE_TEMPERATURE_C
from firstfix.physics.range import Summand
from firstfix.rules.warmth import warm_places
from firstfix.units import Metres, metres, number

Pieces = tuple[tuple[Piece, CableForm], ...]

# Horizontal cable is of 22 to 24 AWG (ANSI/TIA-568.2-D (2018), from memory): what is thinner may lose as a cord of its gauge does.
_THINNEST_FIXED_AWG = 24


class Stretches(NamedTuple):
    """A channel cut by gauge and warmth: `fixed` loses as horizontal cable, `cords` by their gauge."""

    fixed: tuple[FixedCable, ...]
    cords: tuple[Cord, ...]


def missing_facts(pieces: Pieces) -> Iterator[str]:
    """What must be known before a channel's length can be told: each length, and the gauge of each cord."""
    for piece, form in pieces:
        if isinstance(piece.length.figure, Unknown):
            yield piece.length.figure.why
        if (piece.kind != RUN or form.is_stranded) and isinstance(form.gauge_awg, Unknown):
            yield f"the part '{piece.part}' does not say its gauge"


def laid(piece: Piece) -> float:
    """Metres as bought and wired; 0 where that is not known, which `missing_facts` tells."""
    figure = piece.length.figure
    return figure.high if isinstance(figure, Fact) else 0.0


def unpublished_gauges(pieces: Pieces) -> Iterator[str]:
    """What counts by its gauge, and is of one for which no factor is published: nothing can be reckoned with it."""
    thickest, thinnest = CORD_GAUGES
    for piece, form in pieces:
        gauge = form.gauge_awg
        if not isinstance(gauge, Fact) or thickest <= gauge.high <= thinnest:
            continue
        if _loses_as_cord(piece, form, at_worst=True):
            yield f"what '{piece.part}' of {gauge.high:g} AWG loses: factors are published for {thickest} to {thinnest} AWG"


def is_thin_run(piece: Piece, form: CableForm) -> bool:
    """Solid cable thinner than horizontal cable is: whether it loses more than its category allows, nobody has published."""
    thin = isinstance(form.gauge_awg, Fact) and form.gauge_awg.high > _THINNEST_FIXED_AWG
    return piece.kind == RUN and not form.is_stranded and thin


def _loses_as_cord(piece: Piece, form: CableForm, at_worst: bool) -> bool:
    """Stranded wire loses more, also where it is laid as a run."""
    return piece.kind != RUN or form.is_stranded or (at_worst and is_thin_run(piece, form))


def stretches(build: Build, pieces: Pieces, at_worst: bool) -> Stretches:
    """The channel's stretches: what is not settled (the warmth of a way, the loss of a thin run) at the worse or the better of its bounds."""
    fixed: list[FixedCable] = []
    cords: list[Cord] = []
    for piece, form in pieces:
        for cable in _by_warmth(build, piece, form, at_worst):
            if _loses_as_cord(piece, form, at_worst) and isinstance(form.gauge_awg, Fact):
                cords.append(Cord(cable.what, cable.length_m, int(form.gauge_awg.high), cable.celsius, cable.screened))  # fmt: skip
            else:
                fixed.append(cable)
    return Stretches(tuple(fixed), tuple(cords))


def _by_warmth(build: Build, piece: Piece, form: CableForm, at_worst: bool) -> Iterator[FixedCable]:
    """The piece's lengths along warm ways, and all the rest of it as warm as the rooms at its ends."""
    places, length = warm_places(build), laid(piece)
    in_room = places.between(build, piece.ends)
    rest = length
    for way_id, metres_there in _along_warm_ways(build, piece, length, at_worst):
        way, warmth = build.ways[way_id], places.of(way_id)
        rest -= metres_there
        celsius = warmth.most_c if at_worst else warmth.least_c
        yield FixedCable(f"way '{way.name}'", metres_there, celsius, form.is_screened)
    yield FixedCable(f"{piece.kind} of '{piece.part}'", round(max(rest, 0.0), 6), in_room, form.is_screened)


def _along_warm_ways(
    build: Build, piece: Piece, length: float, at_worst: bool
) -> Iterator[tuple[str, float]]:
    """How much of the piece lies in each warm way. Of a length that was stated or measured, ways share it as long as they are."""
    warm = warm_places(build).along(piece.route)
    if not warm:
        return
    known = {way: each.high for way in piece.route if isinstance(each := build.ways[way].length, Fact)}
    if len(known) < len(piece.route):
        # Stated in all, while a way's own length is not known: at the worst all of it lies in the warmest way.
        hottest = max(warm, key=lambda way: warm_places(build).of(way).most_c)
        yield hottest, length if at_worst else 0.0
        return
    ways, first = sum(known.values()), f"way '{build.ways[piece.route[0]].name}'"
    reckoned = piece.length.terms[:1] and piece.length.terms[0].what == first
    share = 1.0 if reckoned or not ways else length / ways if at_worst else min(1.0, length / ways)
    yield from ((way, known[way] * share) for way in warm)


def lengths_of(build: Build, pieces: Pieces, at_worst: bool = True) -> ChannelLength:
    """The three lengths. A run that is stranded loses as a cord, and still belongs to the permanent link.

    Raises physics.range.OutOfRange for a temperature or a gauge that the tables do not cover.
    """
    cut = stretches(build, pieces, at_worst)
    found = channel_length(cut.fixed, cut.cords)
    installed = sum(laid(piece) for piece, _ in pieces if piece.kind == RUN)
    return found._replace(permanent_link_m=Metres(round(installed, 6)))


def at_least_lengths(pieces: Pieces) -> ChannelLength:
    """The least that the three lengths can be: what is known of them as laid, with nothing for gauge or warmth."""
    installed = sum(laid(piece) for piece, _ in pieces if piece.kind == RUN)
    everything = sum(laid(piece) for piece, _ in pieces)
    terms = tuple(Summand(f"{piece.kind} of '{piece.part}'", laid(piece)) for piece, _ in pieces)
    return ChannelLength(Metres(round(installed, 6)), Metres(everything), Metres(everything), terms)


def unsettled_ways(build: Build, pieces: Pieces) -> tuple[str, ...]:
    """The ways whose warmth the plan doesn't say and their kind doesn't settle, in order."""
    warm = warm_places(build)
    found = (way for piece, _ in pieces for way in warm.along(piece.route) if not warm.of(way).is_settled)
    return tuple(dict.fromkeys(found))


def warmest_that_fits(build: Build, pieces: Pieces, limit_m: float) -> float:
    """The highest whole °C at which the unsettled ways may be for the equivalent length to keep `limit_m`; at least 20."""
    cut = stretches(build, pieces, at_worst=True)
    open_names = {f"way '{build.ways[way].name}'" for way in unsettled_ways(build, pieces)}
    hottest = max(warm_places(build).of(way).most_c for way in unsettled_ways(build, pieces))

    def equivalent(celsius: float) -> float:
        fixed = [each._replace(celsius=celsius) if each.what in open_names else each for each in cut.fixed]
        cords = [each._replace(celsius=celsius) if each.what in open_names else each for each in cut.cords]
        return channel_length(fixed, cords).equivalent_m

    low, high = int(REFERENCE_TEMPERATURE_C), int(hottest)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if equivalent(middle) <= limit_m else (low, middle)
    return float(low)


def piece_terms(pieces: Pieces) -> tuple[Term, ...]:
    """One run's own terms where there is but one; else each piece as a whole, with what it is the sum of."""
    if len(pieces) == 1 and not pieces[0][0].length.sold:
        return pieces[0][0].length.terms
    return tuple(Term(f"{piece.kind} of '{piece.part}'", laid(piece), _sum_of(piece)) for piece, _ in pieces)


def summed(pieces: Pieces) -> tuple[Label, ...]:
    """For each run, of which terms its length is the sum."""
    runs = (piece for piece, _ in pieces if piece.kind == RUN)
    return tuple(
        Label(None, f"{piece.kind} of '{piece.part}', {metres(laid(piece))} = {_sum_of(piece)}")
        for piece in runs
    )


def _sum_of(piece: Piece) -> str:
    parts = " + ".join(f"{term.what} {number(term.value, 3)}" for term in piece.length.terms)
    return f"as sold; needed: {parts}" if piece.length.sold else parts
