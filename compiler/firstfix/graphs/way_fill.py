"""The ways of a build with what runs in them, and how full that makes those that have a bore.

Takes a build; gives the pieces in each way, and one Filled for each that is a pipe or says its bore. The rule on fill and the sheets
of ways both read it.
"""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.places import Way
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.pathway import fill_fraction, fill_limit, narrowest_bore_mm
from firstfix.physics.range import at_most

# Pipes: without a bore nobody knows what they hold. Other ways may say one too.
PIPES = ("conduit", "buried-duct")


class Filled(NamedTuple):
    """`known`: how thick each part is [m], by its name; `unknown`: the parts that don't say it.

    `bore` [mm]; `fill` and `limit` are fractions of it; `least` [mm]: the bore that the cables need at the very least. Each is None
    where it can't be told; `fill` and `least` are of the cables whose thickness is known, and so no more than from below where some
    aren't.
    """

    way: Way
    pieces: tuple[Piece, ...]
    known: dict[str, Fact]
    unknown: tuple[str, ...]
    bore: float | None
    fill: float | None
    limit: float | None
    least: float | None

    @property
    def fits(self) -> bool | None:
        """Whether it is no fuller than the limit, and the cables can lie there at all; None where that can't be told."""
        if self.bore is None:
            return None
        if self.least is not None and not at_most(self.least, self.bore):
            return False
        if self.fill is not None and self.limit is not None and not at_most(self.fill, self.limit):
            return False
        return None if self.unknown else True


def has_bore(way: Way) -> bool:
    """Whether it is asked how full the way gets."""
    return way.kind in PIPES or isinstance(way.bore, Fact)


@once_per_build
def in_pipes(build: Build) -> dict[str, list[Piece]]:
    """The pieces in each way that is a pipe or says its bore, in order."""
    found: dict[str, list[Piece]] = {way.id: [] for way in build.ways.values() if has_bore(way)}
    if found:
        for piece in build.pieces.values():
            for way in piece.route:
                if way in found:
                    found[way].append(piece)
    return found


@once_per_build
def in_ways(build: Build) -> dict[str, list[Piece]]:
    """The pieces in each way of any kind, in order; for those who show all of them."""
    found: defaultdict[str, list[Piece]] = defaultdict(list)
    for piece in build.pieces.values():
        for way in piece.route:
            found[way].append(piece)
    return {way: found[way] for way in build.ways}


def diameters(build: Build, pieces: list[Piece]) -> tuple[dict[str, Fact], list[str]]:
    """The thickness of each part, and the parts that do not say theirs."""
    known: dict[str, Fact] = {}
    unknown: list[str] = []
    for name in sorted({piece.part for piece in pieces}):
        form = build.library[name].cable
        if form is not None and isinstance(form.diameter, Fact):
            known[name] = form.diameter
        else:
            unknown.append(name)
    return known, unknown


def filled(build: Build, way: Way, pieces: list[Piece]) -> Filled:
    """How full `pieces` make `way`, at the thickest that they may be and in the narrowest that it may be."""
    known, unknown = diameters(build, pieces)
    thick = tuple(known[piece.part].high * 1000 for piece in pieces if piece.part in known)
    bore = None if isinstance(way.bore, Unknown) else way.bore.low * 1000
    return Filled(
        way,
        tuple(pieces),
        known,
        tuple(unknown),
        bore,
        fill_fraction(thick, bore) if bore is not None else None,
        fill_limit(len(pieces)) if pieces else None,
        narrowest_bore_mm(thick) if thick else None,
    )
