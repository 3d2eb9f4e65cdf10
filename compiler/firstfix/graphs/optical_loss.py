"""What a channel of fibre loses of its light: one reckoning for the rule that judges it and for the drawing that shows it."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.build.cabling import RUN, Channel, Piece
from firstfix.build.model import Build
from firstfix.parts.facts import Unknown
from firstfix.parts.part import CableForm
from firstfix.physics.fibre import LinkLoss, link_loss
from firstfix.standards.optical import fibre_loss, optical_reaches

Laid = tuple[Piece, CableForm]


class OpticalLoss(NamedTuple):
    """At one wavelength, in nm."""

    wavelength_nm: int
    loss: LinkLoss


def channel_loss(
    grade: str, wavelength_nm: int, length_m: float, channel: Channel, pieces: Sequence[Laid]
) -> LinkLoss:
    """Panels and outlets are a connector pair each; an installed run is spliced to its pigtails there.

    The stricter count: common practice, no source.
    """
    outside = all(form.rating != "indoor" for _, form in pieces)
    runs = sum(piece.kind == RUN for piece, _ in pieces)
    splices = min(2 * runs, channel.connections)
    per_km = fibre_loss(grade, wavelength_nm, outside)
    return link_loss(
        length_m, per_km.loss_db_per_km, channel.connections, splices, fibre_source=str(per_km.basis)
    )


def optical_losses(build: Build, channel: Channel) -> tuple[OpticalLoss, ...]:
    """At each wavelength that signalling over its grade is published for, shortest first; nothing where a length or the grade is
    not known, or where it joins several grades."""
    parts = ((build.pieces[each], build.library.get(build.pieces[each].part)) for each in channel.pieces)
    pieces = [(piece, part.cable) for piece, part in parts if part is not None and part.cable is not None]
    lengths = [piece.length.figure for piece, _ in pieces]
    grades = {form.category.upper() for _, form in pieces}
    known = [figure.high for figure in lengths if not isinstance(figure, Unknown)]
    if channel.medium != "fibre" or len(grades) != 1 or len(known) < len(channel.pieces):
        return ()
    grade = grades.pop()
    windows = sorted({row.wavelength_nm for row in optical_reaches().values() if row.grade == grade})
    return tuple(
        OpticalLoss(window, channel_loss(grade, window, sum(known), channel, pieces)) for window in windows
    )
