"""Devices: parts found, rooms settled, and what stands in a cabinet with its place there."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Device, Fitting, Mount, Occupancy
from firstfix.parts.part import Library
from firstfix.plan.model import DeviceSpec, Plan
from firstfix.resolve.cabinets import Layouts, Slot, resolve_cabinets
from firstfix.resolve.jacks import MOST_JACKS_IN_PLAN, jack_count
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.phases import PhaseOrder
from firstfix.resolve.places import Places, find_room
from firstfix.resolve.settle import find_part, settle_room

# What no run can end at, and where it is said instead.
_NO_DEVICES = {
    "cabinet": "declared under 'cabinets'", "cable": "said under 'cabling', or as 'cable' at a link",
    "cord": "said under 'cabling', or as 'cord' at a link",
}  # fmt: skip


class Equipment(NamedTuple):
    devices: dict[str, Device]
    cabinets: dict[str, Cabinet]
    fittings: dict[str, Fitting]
    mounts: tuple[Mount, ...]
    occupancy: tuple[Occupancy, ...]


def resolve_equipment(
    plan: Plan, library: Library, places: Places, phases: PhaseOrder, notes: Notes
) -> Equipment:
    layouts = resolve_cabinets(plan, library, places, phases, notes)
    devices = _devices(plan, library, places, layouts, phases, notes)
    return Equipment(devices, layouts.cabinets, layouts.fittings, layouts.mounts, layouts.occupancy)


def _devices(
    plan: Plan,
    library: Library,
    places: Places,
    layouts: Layouts,
    phases: PhaseOrder,
    notes: Notes,
) -> dict[str, Device]:
    found: dict[str, Device] = {}
    jacks = 0
    for spec in plan.devices:
        device_id = ids.device(spec.name)
        notes.wrote(device_id, spec.written)
        part = find_part(spec.part, device_id, library, notes, value_span(spec.written, "part"))
        if part is None:
            continue
        if part.kind in _NO_DEVICES:
            message = (
                f"the part '{part.name}' is a {part.kind}, and no device; it is {_NO_DEVICES[part.kind]}"
            )
            notes.gap("part-kind", device_id, message, value_span(spec.written, "part"))
            notes.meant.add(spec.name)
            continue
        jacks += jack_count(part)
        if jacks > MOST_JACKS_IN_PLAN:
            message = f"with '{spec.name}' the plan has more than {MOST_JACKS_IN_PLAN:,} jacks; its devices are not worked out"
            notes.gap("plan-size", device_id, message, spec.written.span)
            return {}
        slot = layouts.slots.get(spec.name)
        room = _device_room(spec, device_id, slot, places, layouts.cabinets, notes)
        cabinet, carrier = (slot.cabinet, slot.carried_by) if slot else ("", "")
        phase = _phase(spec, slot, phases, notes) if slot else spec.phase
        found[device_id] = Device(
            device_id, spec.name, part, room, cabinet, carrier, spec.is_owned, phase, spec.note, spec.mac
        )
    return found


def _device_room(
    spec: DeviceSpec,
    device_id: str,
    slot: Slot | None,
    places: Places,
    cabinets: dict[str, Cabinet],
    notes: Notes,
) -> str:
    at = value_span(spec.written, "room")
    if slot is None:
        return settle_room(spec.room, device_id, places, notes, at)
    cabinet_room = cabinets[slot.cabinet].room
    if (
        spec.room
        and cabinet_room
        and find_room(spec.room, device_id, places, notes, at) not in ("", cabinet_room)
    ):
        notes.gap(
            "room-conflict",
            device_id,
            f"'{spec.name}' is said to be in '{spec.room}', but its cabinet stands in '{ids.path(cabinet_room)}'",
            at,
        )
    return cabinet_room


def _phase(spec: DeviceSpec, slot: Slot, phases: PhaseOrder, notes: Notes) -> str:
    """A device comes no sooner than the cabinet or shelf that it stands in."""
    phase = phases.latest(spec.phase, slot.phase)
    if phase != spec.phase:
        notes.decide(
            ids.device(spec.name), "phase", phase, "equipment", "the place where it stands comes then"
        )
    return phase
