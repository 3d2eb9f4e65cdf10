"""What a strip, a UPS and a circuit carry, as watts at the least load, as usual and at the most, each with where it comes from.

Takes a build and one of them; gives bounds, of which the smallest counts. Without a rating there is none.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import Circuit
from firstfix.graphs.consumption import Spread
from firstfix.parts.facts import Fact, Figure
from firstfix.physics.mains import continuous_power
from firstfix.standards.mains import mains_limits
from firstfix.units import number


class Bound(NamedTuple):
    """What it carries at each end of its load [W], and where that figure comes from, with its basis."""

    watts: Spread
    source: str
    basis: Figure


def strip_bounds(build: Build, strip: Device, rating: Fact) -> Iterator[Bound]:
    """Of a strip or UPS: its rating; a strip's amperes at the volts of the mains; a UPS's volt-amperes."""
    yield Bound(Spread(rating.low, rating.low, rating.low), f"rating of '{strip.part.name}'", rating)
    amps, volts = strip.part.mains.current, build.mains.volts
    if strip.part.kind == "power-strip" and isinstance(amps, Fact) and isinstance(volts, Fact):
        # Watts on a label are those at the voltage that it was made for; the wires bear amperes.
        carried = amps.low * volts.low
        source = f"{number(amps.low)} A of '{strip.part.name}' at {number(volts.low)} V"
        yield Bound(Spread(carried, carried, carried), source, amps)
    battery = strip.part.battery
    if battery is not None and isinstance(battery.apparent, Fact):
        worst = mains_limits().power_factor_least.value
        rated = battery.apparent.low
        source = f"{number(rated)} VA of '{strip.part.name}' by a power factor of 1 at the best and {number(worst)} at the worst"
        yield Bound(Spread(rated, rated * (1 + worst) / 2, rated * worst), source, battery.apparent)


def circuit_bound(circuit: Circuit) -> Bound | None:
    """All of its rating at the least and at the most, 80 % of it as usual, for hours (standards.mains); None where one is not known."""
    if not isinstance(circuit.volts, Fact) or not isinstance(circuit.rating, Fact):
        return None
    volts, amps = circuit.volts.low, circuit.rating.low
    whole = volts * amps
    source = f"{number(amps)} A at {number(volts)} V"
    return Bound(Spread(whole, float(continuous_power(volts, amps)), whole), source, circuit.rating)
