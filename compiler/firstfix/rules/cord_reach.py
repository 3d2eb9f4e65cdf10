"""A rule on cords whose length the plan states: whether they reach from unit to unit within their cabinet."""

from collections.abc import Iterator

from firstfix.build.cabling import RUN, Piece
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Level, Measurement
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, FineMany, Outcome, rule
from firstfix.units import metres

_REACH = Basis(
    "IEC 60297-3-100 and the plan's cabling", "units and width of the front; dressing is an allowance"
)


@rule("cord-reach", Level.WARNING, _REACH)
def cord_reach(build: Build) -> Iterator[Outcome]:
    """A cord within a cabinet whose `length` the plan states is as long as it would be reckoned to need.

    Because: a cord that is too short hangs across the fronts, pulls at its jacks, or does not reach at all.
    Compares: from unit to unit + the width of the front + dressing at both ends [m] <= the length, a warning, since the two jacks may
        be near each other; from unit to unit alone, an error.
    Skips: cords whose length is worked out, and those outside cabinets: there the author's own figure is all that is known.
    Cannot tell: never
    Remedy: leave `length` out, or write a length that reaches.
    """
    fine = 0
    for piece in build.pieces.values():
        if piece.kind == RUN:
            continue
        if piece.length.needed and piece.length.sold:
            yield _reaches(build, piece)
        else:
            fine += 1
    yield FineMany(fine)


def _reaches(build: Build, piece: Piece) -> Outcome:
    length, terms = piece.length.sold, piece.length.needed
    needed, rise = sum(term.value for term in terms), terms[0].value
    if at_most(needed, length):
        return Fine(piece.id)
    short = not at_most(rise, length)
    figure = rise if short else needed
    measurement = Measurement(
        "cord needed", figure, "at most", length, "m", terms[: 1 if short else len(terms)]
    )
    words = "is shorter than the way from unit to unit" if short else "may not reach"
    message = f"the cord of {metres(length)} {words}: {metres(figure)} is needed"
    at = build.provenance.span(piece.link, "length") or build.provenance.span(piece.link)
    level = Level.ERROR if short else Level.WARNING
    return cord_reach.finding(message, piece.id, at, (), measurement, (Cure("leave `length` out"),), level)
