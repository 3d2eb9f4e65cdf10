"""`mains:` and `circuits:`: what the outlets are like, and the mains circuits of a building, which rooms name."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.parts.forms import PLUGS
from firstfix.plan.model import NO_MAINS_SAID, CircuitSpec, MainsSpec, Written
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import clip
from firstfix.units import CURRENT, VOLTAGE

_MAINS_KEYS = ("plug", "volts", "note")
# Letters only: that a house has "local" outlets says nothing.
_LETTERS = tuple(each for each in PLUGS if len(each) == 1)
_CIRCUIT_KEYS = ("rating", "volts", "note")


def read_mains(fields: Fields) -> MainsSpec:
    """`{plug: F, volts: 230 V}`"""
    mains = fields.below("mains", "'mains'", _MAINS_KEYS)
    if mains is None:
        return NO_MAINS_SAID
    return MainsSpec(mains.choice("plug", _LETTERS) or "", mains.quantity("volts", VOLTAGE, 12, 1000))


def read_circuits(fields: Fields, faults: Collector) -> Iterator[CircuitSpec]:
    """`{ring-1: {rating: 16 A, volts: 230 V}}`"""
    for name, key, node in fields.table("circuits"):
        check_name(name, key, faults)
        circuit = Fields(node, faults, f"the circuit '{clip(name)}'", _CIRCUIT_KEYS)
        circuit.require("rating")
        yield CircuitSpec(
            name,
            circuit.quantity("rating", CURRENT, 0.5, 1000),
            circuit.quantity("volts", VOLTAGE, 12, 1000),
            Written(key, node),
        )
