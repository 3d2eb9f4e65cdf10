"""The mains circuits that the plan names, each with the rooms whose outlets hang on it."""

from collections import defaultdict

from firstfix.build import ids
from firstfix.build.power import NO_PLUG, Circuit, HouseMains
from firstfix.parts.facts import AUTHOR, Figure, Unknown, exactly
from firstfix.plan.model import CircuitSpec, Plan
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.places import Places

_NO_RATING = Unknown("the plan does not say the circuit's rating")
_NO_VOLTS = Unknown("the plan does not say the circuit's volts")


def resolve_circuits(plan: Plan, places: Places, notes: Notes) -> dict[str, Circuit]:
    """In order of ids. A room that names no circuit of the plan has a gap."""
    known = {spec.name for spec in plan.circuits}
    rooms: defaultdict[str, list[str]] = defaultdict(list)
    for site in plan.sites:
        for building in site.buildings:
            for room in building.rooms:
                room_id = ids.room(site.name, room.name)
                if room.circuit in known and room_id in places.rooms:
                    rooms[room.circuit].append(room_id)
                elif room.circuit:
                    at = value_span(room.written, "circuit")
                    notes.unknown_name(room_id, room.circuit, "circuit", known, at)
    for spec in plan.circuits:
        notes.wrote(ids.circuit(spec.name), spec.written)
    house = house_mains(plan)
    found = (_circuit(spec, tuple(sorted(rooms[spec.name])), house.volts) for spec in plan.circuits)
    return {circuit.id: circuit for circuit in sorted(found, key=lambda circuit: circuit.id)}


def house_mains(plan: Plan) -> HouseMains:
    """What every outlet of the plan is like."""
    said = plan.mains
    volts = _NO_VOLTS if said.volts is None else exactly(said.volts, AUTHOR)
    return HouseMains(said.plug or NO_PLUG, volts)


def _circuit(spec: CircuitSpec, rooms: tuple[str, ...], house_volts: Figure) -> Circuit:
    """A circuit that does not say its volts has the house's."""
    rating: Figure = _NO_RATING if spec.rating is None else exactly(spec.rating, AUTHOR)
    volts = house_volts if spec.volts is None else exactly(spec.volts, AUTHOR)
    return Circuit(ids.circuit(spec.name), spec.name, rating, volts, rooms)
