"""Cable in its pathway: fill of a conduit, radius of a bend, distance from mains, warmth in a bundle."""

import math

from firstfix.physics.range import Summand, at_most, positive, within
from firstfix.standards.installation import (
    bend_radii,
    conduit_fills,
    installation_limits,
    separation_distances,
    separation_powers,
)


def fill_fraction(diameters_mm: tuple[float, ...], bore_mm: float) -> float:
    """The share of a conduit's bore that cables take.

    sum of d^2 / D^2
    diameters_mm d of the cables and bore_mm D of the conduit [mm]. Result: fraction.
    Source: derived.
    """
    taken = math.fsum(positive("cable diameter", each, "mm") ** 2 for each in diameters_mm)
    return taken / positive("bore", bore_mm, "mm") ** 2


def fill_limit(cables: int) -> float:
    """The highest fill for so many cables: 53 % for one, 31 % for two, 40 % for three or more.

    cables: at least 1. Result: fraction.
    Source: NFPA 70 (2017), Chapter 9 Table 1, see standards.installation.
    """
    within("cables", cables, 1, 10_000)
    return [row.fraction for row in conduit_fills() if row.cables_from <= cables][-1]


def cables_that_fit(diameter_mm: float, bore_mm: float) -> int:
    """How many equal cables a conduit takes at its limit.

    the largest n with n d^2 / D^2 <= limit(n)
    diameter_mm d, bore_mm D [mm]. Result: count, 0 where not even one fits.
    Two cables have a lower limit than three, so more than two may fit where two alone would not.
    Source: NFPA 70 (2017), Chapter 9 Table 1, see standards.installation.
    """
    one = fill_fraction((diameter_mm,), bore_mm)
    most = math.floor(conduit_fills()[-1].fraction / one + 1e-9)
    return next((n for n in range(max(most, 2), 0, -1) if at_most(n * one, fill_limit(n))), 0)


def narrowest_bore_mm(diameters_mm: tuple[float, ...]) -> float:
    """The bore below which cables cannot lie side by side at all, however hard one pulls.

    d for one; d1 + d2 of the thickest two for more; and never less than sqrt(sum of d^2)
    diameters_mm d: at least one [mm]. Result [mm]. Exact for one and two; for more it is a bound from below.
    Source: derived: two round things beside each other, and areas that cannot overlap.
    """
    within("cables", len(diameters_mm), 1, 100_000)
    thickest = sorted((positive("cable diameter", each, "mm") for each in diameters_mm), reverse=True)[:2]
    return max(math.fsum(thickest), math.sqrt(math.fsum(each**2 for each in diameters_mm)))


def plug_diagonal_mm(width_mm: float, height_mm: float) -> float:
    """The round bore that a plug just passes.

    sqrt(w^2 + h^2)
    width_mm w, height_mm h [mm]. Result [mm].
    Source: derived.
    """
    return math.hypot(positive("width", width_mm, "mm"), positive("height", height_mm, "mm"))


def bend_radius_mm(diameter_mm: float, cable: str = "twisted-pair", state: str = "at rest") -> float:
    """The tightest bend, as a radius.

    r = factor * outer diameter
    diameter_mm [mm]; cable and state: a key of standards.installation.bend_radii. Result [mm].
    Source: ANSI/TIA-568.0-D (2015) and ISO/IEC 11801 (2002), see standards.installation.
    """
    return bend_radii()[cable, state].times_diameter * positive("cable diameter", diameter_mm, "mm")


def mains_separation_mm(cable_class: str, containment: str, circuits: int) -> float:
    """Least distance between data cable and parallel mains cable.

    A = S P
    cable_class b (unscreened Cat 5e, 6), c (screened Cat 5e to 6A), d (Cat 7); containment none, open-metal,
    perforated-metal, solid-metal; circuits: of 230 V, 20 A, single phase (three for a three-phase one).
    Result [mm].
    Local safety rules on separation come first, and may ask for more.
    Source: EN 50174-2 (2009), see standards.installation.
    """
    within("circuits", circuits, 0, 10_000)
    factors = [row.factor for row in separation_powers() if row.circuits_from <= circuits]
    return separation_distances()[cable_class, containment].distance_mm * (factors[-1] if factors else 0.0)


def ampacity_factor(ambient_c: float, cable_rating_c: float) -> float:
    """How much of its rated current a cable may carry in air warmer than the rating assumes.

    sqrt((Tc - Ta) / (Tc - 30))
    ambient_c Ta and cable_rating_c Tc [°C]. Result: factor; above 1 in cooler air.
    Valid for Ta from -40 °C to Tc, Tc from 50 °C to 250 °C.
    Source: NFPA 70 (2017), 310.15(B), from memory.
    """
    base = installation_limits().bundle_ambient.value
    within("cable rating", cable_rating_c, 50, 250, "°C")
    within("ambient temperature", ambient_c, -40, cable_rating_c, "°C")
    return math.sqrt((cable_rating_c - ambient_c) / (cable_rating_c - base))


def bundle_temperature(ambient_c: float) -> Summand:
    """What a powered cable may reach inside its bundle when the guideline is kept.

    T = Ta + 15 K
    ambient_c Ta [°C]. Result: a Summand [°C].
    Source: TIA TSB-184-A (2017), see standards.installation.
    """
    rise = installation_limits().bundle_rise
    return Summand("ambient and bundle rise", ambient_c + rise.value, str(rise.basis))
