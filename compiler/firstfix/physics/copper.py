"""Conductors by gauge: diameter, area, resistance; the loop resistance of a channel of several lengths.

All d.c. A "pairset" is two pairs that carry power out and back, each with its two wires in parallel.
"""

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

from firstfix.physics.constants import (
    AWG_36_DIAMETER_MM,
    AWG_RATIO,
    AWG_STEPS,
    COPPER_RESISTIVITY_OHM_M,
    COPPER_TEMPERATURE_COEFFICIENT_PER_K,
    MM_PER_MIL,
    REFERENCE_TEMPERATURE_C,
)
from firstfix.physics.range import Summand, not_negative, total, within
from firstfix.standards.copper import resistance_limits
from firstfix.units import Ohms

PoweredPairs = Literal[2, 4]


class Stretch(NamedTuple):
    """One cable or cord of several in a row; its temperature [°C], its conductivity relative to copper."""

    what: str
    length_m: float
    awg: float
    celsius: float = REFERENCE_TEMPERATURE_C
    conductivity: float = 1.0


class Loop(NamedTuple):
    """A resistance [ohm] and the terms that it is made of."""

    ohms: Ohms
    terms: tuple[Summand, ...]


def conductor_diameter_mm(awg: float) -> float:
    """Diameter of a solid conductor.

    d = 0.127 mm * 92^((36 - n) / 39)
    awg: gauge number n, -3 for No. 0000. Result [mm].
    Valid for No. 0000 to No. 40, solid round wire.
    Source: ASTM B258, from memory.
    """
    within("gauge", awg, -3, 40, "AWG")
    diameter: float = AWG_36_DIAMETER_MM * AWG_RATIO ** ((36 - awg) / AWG_STEPS)
    return diameter


def conductor_area_mm2(awg: float) -> float:
    """Cross-section of a solid conductor.

    A = pi d^2 / 4
    awg: gauge number. Result [mm²].
    Valid as conductor_diameter_mm.
    Source: ASTM B258, from memory.
    """
    return math.pi * conductor_diameter_mm(awg) ** 2 / 4


def area_kcmil(awg: float) -> float:
    """Cross-section in thousands of circular mils.

    A = d^2 / 1000, d in thousandths of an inch

    awg: gauge number, 0 for No. 1/0, -1 for 2/0, -3 for 4/0. Result [kcmil].
    Valid as conductor_diameter_mm.
    Source: ASTM B258, from memory.
    """
    return (conductor_diameter_mm(awg) / MM_PER_MIL) ** 2 / 1000


def conductor_resistance(
    awg: float, length_m: float, celsius: float = REFERENCE_TEMPERATURE_C, conductivity: float = 1.0
) -> Ohms:
    """Resistance of one conductor, one way.

    R = rho L / (k A) * (1 + alpha (T - 20))
    awg: gauge number; length_m [m]; celsius T [°C]; conductivity k relative to annealed copper. Result [ohm].
    Nominal solid wire; stranded wire is a few percent higher. Valid for -60 °C to 150 °C, 0.01 <= k <= 1.1.
    The copper coefficient serves for copper-clad aluminium too (aluminium: 0.00403 per K).
    Source: IEC 60028 (1925); ASTM B566 for k, see standards.copper.
    """
    not_negative("length", length_m, "m")
    within("conductor temperature", celsius, -60, 150, "°C")
    within("conductivity ratio", conductivity, 0.01, 1.1)
    at_reference = COPPER_RESISTIVITY_OHM_M * length_m / (conductivity * conductor_area_mm2(awg) * 1e-6)
    return Ohms(
        at_reference * (1 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (celsius - REFERENCE_TEMPERATURE_C))
    )


def highest_resistance(length_m: float) -> Ohms:
    """The most that one conductor of a compliant cable may have, whatever its gauge, at 20 °C.

    R = 9.38 ohm / 100 m * L
    length_m [m]. Result [ohm]. For horizontal cable only, not for cords.
    Source: ANSI/TIA-568.2-D, see standards.copper.
    """
    return Ohms(resistance_limits().conductor_per_100m.value * not_negative("length", length_m, "m") / 100)


def powered_loop(stretches: Sequence[Stretch], connections: int, pairs: PoweredPairs) -> Loop:
    """Loop resistance that power meets over 2 pairs (one pairset) or 4 (two pairsets in parallel).

    R_pairset = sum of R_conductor + 0.2 ohm * connections;  R_4pair = R_pairset / 2
    stretches: the cables and cords in a row; connections: mated ones. Result [ohm] with its terms.
    Two wires in parallel out and two back make a pairset's loop equal to one conductor's resistance one way.
    Source: derived; 0.2 ohm per mated connection from IEC 60603-7, see standards.copper.
    """
    share = 1.0 if pairs == 2 else 0.5
    each = resistance_limits().per_connection
    not_negative("connections", connections)
    shared = "" if pairs == 2 else ", half of it over four pairs"
    terms = [_conductor_term(piece, share, shared) for piece in stretches]
    if connections:
        terms.append(
            Summand(
                f"{connections} mated connections",
                share * each.value * connections,
                f"{each.value:g} Ω each{shared}; {each.basis}",
            )
        )
    return Loop(Ohms(total(tuple(terms))), tuple(terms))


def _conductor_term(piece: Stretch, share: float, shared: str) -> Summand:
    resistance = conductor_resistance(piece.awg, piece.length_m, piece.celsius, piece.conductivity)
    wire = 100 * resistance / piece.length_m if piece.length_m else 0.0
    return Summand(
        piece.what,
        share * resistance,
        f"{piece.length_m:g} m of {piece.awg:g} AWG, a wire of it {wire:.4g} Ω per 100 m{shared}; IEC 60028",
    )


def pair_loop(stretches: Sequence[Stretch], connections: int) -> Loop:
    """Loop resistance of one pair, as a tester measures it and the 25 ohm channel limit means it.

    R = 2 * R_pairset
    stretches, connections as powered_loop. Result [ohm] with terms.
    Source: derived; the limit is in ANSI/TIA-568.2-D, see standards.copper.
    """
    pairset = powered_loop(stretches, connections, 2)
    terms = tuple(
        term._replace(value=2 * term.value, source=f"twice, out and back: {term.source}")
        for term in pairset.terms
    )
    return Loop(Ohms(total(terms)), terms)
