"""Cures for a copper channel by other copper: thicker cords, or a better category, and what they cost.

Takes a build and the pieces of a channel; gives cures with part names and prices, or None where there is no such cure.
"""

from collections.abc import Callable, Iterator

from firstfix.build.cabling import RUN, Length, Piece
from firstfix.build.model import Build
from firstfix.finding.model import Cure
from firstfix.parts.facts import Fact
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import CableForm, Part
from firstfix.rules.channel_lengths import Pieces, laid
from firstfix.rules.prices import Wanted, cheapest, cost, listed
from firstfix.standards.cabling import cord_deratings
from firstfix.standards.twisted_pair import category
from firstfix.units import metres

_ANY_GAUGE = float("inf")
# As `cabling: desk-cord` has it where the plan says nothing; common practice, no source.
_USUAL_CORD_M = 2.0


def thicker_cords(build: Build, pieces: Pieces, fits: Callable[[Pieces], bool]) -> Cure | None:
    """Cords of the thickest published gauge, if with them the channel `fits`."""
    thickest = cord_deratings()[0].awg

    def better(piece: Piece, form: CableForm) -> Part | None:
        gauge = form.gauge_awg
        if piece.kind == RUN or not isinstance(gauge, Fact) or gauge.high <= thickest:
            return None
        return cheapest(build, _alike, *_like(build, piece, form), rank(form.category), thickest)

    swapped, bought = _swap(pieces, better)
    if not bought or not fits(swapped):
        return None
    return Cure(f"use cords of {thickest} AWG: {listed(bought)}, {cost(build, bought)}")


def shorter_cords(pieces: Pieces, fits: Callable[[Pieces], bool]) -> Cure | None:
    """Cords of the usual length in place of long ones, if with them the channel `fits`; whether they reach is for the room."""
    long = [piece for piece, _ in pieces if piece.kind != RUN and laid(piece) > _USUAL_CORD_M]
    usual = Length((), (), _USUAL_CORD_M)
    swapped = tuple(
        (piece._replace(length=usual) if piece in long else piece, form) for piece, form in pieces
    )
    if not long or not fits(swapped):
        return None
    now = " and ".join(metres(laid(piece)) for piece in long)
    return Cure(f"cords of {metres(_USUAL_CORD_M)} instead of {now}, if they reach")


def better_category(build: Build, pieces: Pieces, name: str) -> Cure:
    """All cables and cords of at least this category; the modules of panels and outlets are named but not priced."""
    least = rank(name)

    def better(piece: Piece, form: CableForm) -> Part | None:
        if rank(form.category) >= least:
            return None
        return cheapest(build, _alike, *_like(build, piece, form), least, _ANY_GAUGE)

    _, bought = _swap(pieces, better)
    hardware = ", jacks and modules apart" if any(piece.kind == RUN for piece, _ in pieces) else ""
    what = f": {listed(bought)}, {cost(build, bought)}{hardware}" if bought else ""
    return Cure(f"use category {name} throughout{what}")


def rank(name: str) -> int:
    """A category's rank; 0 for one that no table knows."""
    known = category(name)
    return 0 if known is None else known.rank


def _swap(pieces: Pieces, better: Callable[[Piece, CableForm], Part | None]) -> tuple[Pieces, list[Wanted]]:
    """The pieces with better parts where there are any, and what is then bought."""
    swapped: list[tuple[Piece, CableForm]] = []
    bought: list[Wanted] = []
    for piece, form in pieces:
        part = better(piece, form)
        if part is None or part.cable is None:
            swapped.append((piece, form))
            continue
        swapped.append((piece._replace(part=part.name), part.cable))
        is_run = piece.kind == RUN
        bought.append(Wanted(part.name, laid(piece) if is_run else 1, is_run))
    return tuple(swapped), bought


def _like(build: Build, piece: Piece, form: CableForm) -> tuple[str, str, float]:
    """What a part must share with a piece's to stand for it: its kind, its rating, and for a cord a length that is sold."""
    return build.library[piece.part].kind, form.rating, 0.0 if piece.kind == RUN else laid(piece)


def _alike(
    build: Build, kind: str, rating: str, length: float, least: int, thinnest: float
) -> Iterator[Part]:
    """Copper of a kind and rating, sold at least as long, of a rank or better, of a known gauge no thinner than this."""
    for part in parts_of_kind(build.library, kind):
        form = part.cable
        if form is None or (form.medium, form.conductor) != ("copper", "copper"):
            continue
        thick = isinstance(form.gauge_awg, Fact) and form.gauge_awg.high <= thinnest
        sold = not length or any(each >= length for each in form.lengths)
        if thick and sold and form.rating == rating and rank(form.category) >= least:
            yield part
