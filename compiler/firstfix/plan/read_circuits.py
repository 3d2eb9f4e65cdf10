"""`circuits:`: the mains circuits of a building, which rooms name."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import CircuitSpec, Written
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import clip
from firstfix.units import CURRENT, VOLTAGE

_CIRCUIT_KEYS = ("rating", "volts", "note")


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
