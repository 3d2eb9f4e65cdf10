"""Worked checks 33 to 36: optical links."""

from firstfix.physics.fibre import LinkLoss, OpticalVerdict, link_loss, optical_verdict
from firstfix.standards.optical import CHOSEN, fibre_loss, optical_reach
from standards.worked import Calculations, Check, parametrized, verify


def loss(
    length_m: float,
    grade: str,
    wavelength: int,
    pairs: int,
    splices: int = 0,
    outside: bool = False,
    reading: str = CHOSEN,
    connector_db: float | None = None,
) -> LinkLoss:
    each = fibre_loss(grade, wavelength, outside, reading).loss_db_per_km
    return link_loss(length_m, each, pairs, splices, connector_db)


def judged(
    phy: str,
    length_m: float,
    grade: str,
    wavelength: int,
    pairs: int,
    splices: int = 0,
    outside: bool = False,
    reading: str = CHOSEN,
    connector_db: float | None = None,
) -> OpticalVerdict:
    row = optical_reach(phy, grade)
    assert row is not None
    assert row.wavelength_nm == wavelength
    lost = loss(length_m, grade, wavelength, pairs, splices, outside, reading, connector_db)
    return optical_verdict(length_m, lost, row)


def in_words(verdict: OpticalVerdict) -> str:
    length = "kept" if verdict.length_sure else "broken"
    return f"length {length} and loss {'kept' if verdict.loss_kept else 'broken'}"


CALCULATIONS: Calculations = {
    "loss": lambda **given: loss(**given).loss_db,
    "margin": lambda **given: judged(**given).margin_db,
    "verdict": lambda **given: in_words(judged(**given)),
}


@parametrized("fibre")
def test_fibre(check: Check) -> None:
    verify(check, CALCULATIONS)
