"""Worked checks 1 to 4 and 18: conductors."""

from firstfix.physics.copper import conductor_diameter_mm, conductor_resistance, highest_resistance
from firstfix.physics.range import at_most
from firstfix.standards.copper import conductor_materials
from standards.worked import Calculations, Check, parametrized, verify


def resistance(awg: float, length_m: float, celsius: float = 20.0, material: str = "copper") -> float:
    return conductor_resistance(awg, length_m, celsius, conductor_materials()[material].conductivity)


def passes_conductor_limit(awg: float, length_m: float, material: str) -> bool:
    return at_most(resistance(awg, length_m, material=material), highest_resistance(length_m))


CALCULATIONS: Calculations = {
    "diameter": conductor_diameter_mm,
    "resistance": resistance,
    "passes conductor limit": passes_conductor_limit,
}


@parametrized("copper")
def test_copper(check: Check) -> None:
    verify(check, CALCULATIONS)
