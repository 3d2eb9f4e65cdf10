"""The rule on cables made for outdoors inside buildings: their jackets burn better, so codes let them in by so many metres only.

Takes a build; yields one outcome for each cable rated for outdoors or for the ground and the indoor ways that its runs share.
"""

import math
from collections.abc import Iterator

from firstfix.build.cabling import RUN, Piece
from firstfix.build.model import Build
from firstfix.build.places import Way
from firstfix.finding.model import Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.range import at_most
from firstfix.rules.rule import FineMany, Outcome, rule
from firstfix.standards.installation import installation_limits
from firstfix.units import metres

_LIMIT = installation_limits().outdoor_jacket_indoors
# EN 50575: Fca is what has met no class, or the least of them; from Eca on a cable is tested for fire as one for indoors is.
_UNTESTED = "Fca"


@rule("outdoor-jacket-indoors", Level.NOTE, _LIMIT.basis)
def outdoor_jacket_indoors(build: Build) -> Iterator[Outcome]:
    """A cable with a jacket for outdoors ends, or becomes one for indoors, soon after it has come into a building.

    Because: its jacket burns and drips where one for indoors goes out by itself; fire codes bound how far it may come in.
    Compares: the indoor ways of an installed run of cable rated outdoor or buried [m] <= 15 m (50 ft) in all. Runs of one cable in the
        same indoor ways are one finding. A note only: what applies is the fire code of the country, and some ask for less or more.
    Skips: cable of the fire class Eca (EN 50575) or better, which has passed a fire test as cable for indoors has; a way without
        length; metal raceways, in which codes allow more: accept it as an exception there. Local codes come first.
    Cannot tell: a cable that runs farther indoors and does not say its fire class.
    Remedy: a joint at the entry and cable for indoors from there on, or cable that is made for both.
    """
    outdoor = _parts_for_outdoors(build)
    together: dict[tuple[str, tuple[tuple[Way, float], ...]], list[Piece]] = {}
    fine = 0
    for piece in build.pieces.values():
        if piece.part in outdoor and piece.kind == RUN:
            inside = tuple(each for each in _known(build, piece) if each[0].exposure == "indoor")
            if at_most(math.fsum(length for _, length in inside), _LIMIT.value):
                fine += 1
            else:
                together.setdefault((piece.part, inside), []).append(piece)
    for (part, inside), pieces in together.items():
        yield _too_far(build, part, inside, pieces)
    yield FineMany(fine)


def _parts_for_outdoors(build: Build) -> frozenset[str]:
    """Of the cables in use only: to look at the whole library would read all of it."""
    used = {piece.part for piece in build.pieces.values()}
    return frozenset(
        name
        for name in used
        if (form := build.library[name].cable) is not None
        and form.rating in ("outdoor", "buried")
        and (isinstance(form.fire_class, Unknown) or form.fire_class == _UNTESTED)
    )


def _too_far(build: Build, part: str, inside: tuple[tuple[Way, float], ...], pieces: list[Piece]) -> Outcome:
    first, *others = pieces
    at = build.provenance.span(first.link, "cable")
    form = build.library[part].cable
    if form is None or isinstance(form.fire_class, Unknown):
        return outdoor_jacket_indoors.cannot_tell(
            first.id, at, f"the fire class of '{part}', `fire-class` of its cable"
        )
    total = math.fsum(length for _, length in inside)
    runs = "runs" if not others else f"runs {len(pieces)} times"
    return outdoor_jacket_indoors.finding(
        f"'{part}' has a jacket for outdoors and {runs} {metres(total)} indoors",
        first.id,
        at,
        (
            *(Label(build.provenance.span(way.id, "length"), f"'{way.name}' is indoors") for way, _ in inside),
            *(Label(build.provenance.span(each.link, "cable"), "so does this run") for each in others),
        ),
        Measurement(
            "length indoors", total, "at most", _LIMIT.value, "m",
            tuple(Term(f"'{way.name}'", length, "as the plan says") for way, length in inside),
        ),
        (Cure("join it at the entry to cable for indoors, or use cable that is made for both; local codes come first"),),
    )  # fmt: skip


def _known(build: Build, piece: Piece) -> Iterator[tuple[Way, float]]:
    for each in piece.route:
        way = build.ways[each]
        if isinstance(way.length, Fact):
            yield way, way.length.low


RULES = (outdoor_jacket_indoors,)
