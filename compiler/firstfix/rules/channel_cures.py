"""Which cures a channel's worst fault has, the cheapest to do first; each with names and prices where something is bought.

Takes a build, a channel with its pieces, rate and grade, and the fault; gives cures.
"""

from firstfix.build.cabling import Channel
from firstfix.build.model import Build
from firstfix.finding.model import Cure
from firstfix.parts.facts import Unknown
from firstfix.physics.range import OutOfRange
from firstfix.rules.channel_facts import Grade
from firstfix.rules.channel_lengths import Pieces, lengths_of, missing_facts
from firstfix.rules.channel_limits import (
    Fault,
    cabling_faults,
    loop_fault,
    lower_rate,
    reach_fault,
    sufficient_category,
)
from firstfix.rules.other_cables import better_category, shorter_cords, thicker_cords
from firstfix.rules.other_media import direct_attach, fibre
from firstfix.rules.other_ways import shorter_way, switch_between
from firstfix.units import metres, rate


def cures_for(
    build: Build,
    channel: Channel,
    pieces: Pieces,
    wanted: float | Unknown,
    grade: Grade | Unknown,
    fault: Fault,
) -> tuple[Cure, ...]:
    """Never empty: to shorten what is too long is always one."""

    def fits(other: Pieces) -> bool:
        return _fits(build, other, channel.connections, wanted, grade)

    found: list[Cure | None] = [shorter_way(build, pieces, fits), shorter_cords(pieces, fits)]
    if fault.about == "cords":
        found.append(thicker_cords(build, pieces, fits))
    if isinstance(wanted, Unknown):
        found.append(_shorten(fault))
        return tuple(each for each in found if each is not None)
    if fault.about == "category" and isinstance(grade, Grade):
        found += _by_category(build, pieces, wanted, grade)
        found.append(direct_attach(build, channel, pieces, wanted))
    else:
        found += [_shorten(fault), switch_between(build, channel.id, pieces, wanted)]
    found.append(fibre(build, channel, pieces, wanted))
    return tuple(each for each in found if each is not None)


def _fits(
    build: Build, pieces: Pieces, connections: int, wanted: float | Unknown, grade: Grade | Unknown
) -> bool:
    """Whether nothing is known to be wrong with the channel made so."""
    if any(missing_facts(pieces)):
        return False
    try:
        lengths = lengths_of(build, pieces)
    except OutOfRange:
        return False
    if any(cabling_faults(build, pieces, lengths)) or loop_fault(pieces, connections) is not None:
        return False
    if isinstance(wanted, Unknown) or isinstance(grade, Unknown):
        return True
    return reach_fault(build, pieces, lengths, wanted, grade) is None


def _shorten(fault: Fault) -> Cure | None:
    if fault.measurement is None or fault.measurement.unit != "m":
        return None
    return Cure(f"shorten it by {metres(-fault.measurement.margin)} or more")


def _by_category(build: Build, pieces: Pieces, wanted: float, grade: Grade) -> list[Cure]:
    length = lengths_of(build, pieces, at_worst=False).channel_m
    lower, better = lower_rate(length, wanted, grade), sufficient_category(wanted, length, grade)
    found = [better_category(build, pieces, better)] if better else []
    if lower:
        found.append(Cure(f"set both ends to {rate(lower)}, which this cabling carries; it costs nothing"))
    return found
