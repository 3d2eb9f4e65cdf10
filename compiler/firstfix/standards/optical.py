"""Optical links: how far, and with how much loss, each Ethernet signalling goes; what each part loses."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import keyed, read

CHOSEN = "chosen"


class OpticalReach(NamedTuple):
    """How far a signalling goes over fibre of a grade, and how much loss it bears: both must be kept.

    Beyond `sure_m`, up to `possible_m`, as `needs` says. `connector_loss_max_db` is the part of the loss that
    the connectors may take; None: it has no limit of its own.
    """

    phy: str
    rate_mbps: float
    wavelength_nm: int
    grade: str
    sure_m: float
    possible_m: float
    loss_max_db: float
    connector_loss_max_db: float | None
    needs: str
    basis: Basis
    note: str


class FibreLoss(NamedTuple):
    """Highest loss per kilometre. `setting`: any, inside, outside; `reading`: chosen, or which other text."""

    grade: str
    wavelength_nm: int
    setting: str
    reading: str
    loss_db_per_km: float
    basis: Basis
    note: str


class FibreJoint(NamedTuple):
    """Highest loss of one joint: connector-pair or splice."""

    name: str
    loss_db: float
    basis: Basis
    note: str


@cache
def optical_reaches() -> Mapping[tuple[str, str], OpticalReach]:
    """By signalling and fibre grade: ("10GBASE-SR", "OM3")."""
    rows = (
        OpticalReach(
            row.text("phy"), row.number("rate_mbps"), row.whole("wavelength_nm"), row.text("grade"),
            row.number("sure_m"), row.number("possible_m"), row.number("loss_max_db"),
            row.number_or_none("connector_loss_max_db"), row.text("needs"), row.basis, row.note,
        )
        for row in read("optical_reach")
    )  # fmt: skip
    return keyed(rows, lambda row: (row.phy, row.grade))


@cache
def fibre_losses() -> tuple[FibreLoss, ...]:
    return tuple(
        FibreLoss(
            row.text("grade"), row.whole("wavelength_nm"), row.text("setting"), row.text("reading"),
            row.number("loss_db_per_km"), row.basis, row.note,
        )
        for row in read("fibre_loss")
    )  # fmt: skip


@cache
def fibre_joints() -> Mapping[str, FibreJoint]:
    rows = (
        FibreJoint(row.text("joint"), row.number("loss_db"), row.basis, row.note)
        for row in read("fibre_joints")
    )
    return keyed(rows, lambda row: row.name)


def optical_reach(phy: str, grade: str) -> OpticalReach | None:
    """The published reach; None: none is published for this pair, which is no permission."""
    return optical_reaches().get((phy, grade))


def fibre_loss(grade: str, wavelength_nm: int, outside: bool, reading: str = CHOSEN) -> FibreLoss:
    """The loss per kilometre that applies; `reading` picks "older edition" or "other standard" instead.

    Raises LookupError where nothing is published.
    """
    here = ("any", "outside" if outside else "inside")
    for row in fibre_losses():
        if (row.grade, row.wavelength_nm, row.reading) == (
            grade,
            wavelength_nm,
            reading,
        ) and row.setting in here:
            return row
    raise LookupError(f"no {reading} loss of {grade} at {wavelength_nm} nm {here[1]}")
