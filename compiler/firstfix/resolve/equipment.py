"""Devices and cabinets: parts found, rooms settled, what is mounted in which unit, and every unit accounted for."""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Device, Fitting, Mount, Occupancy
from firstfix.parts.part import Library, Part
from firstfix.plan.model import CabinetSpec, DeviceSpec, Plan, SlotSpec
from firstfix.resolve.jacks import MOST_JACKS_IN_PLAN, jack_count
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.places import Places, find_room
from firstfix.span import Span


class Equipment(NamedTuple):
    devices: dict[str, Device]
    cabinets: dict[str, Cabinet]
    fittings: dict[str, Fitting]
    mounts: tuple[Mount, ...]
    occupancy: tuple[Occupancy, ...]


class _Slot(NamedTuple):
    """Where a device stands in a cabinet, found before the device itself is made."""

    cabinet: str
    carried_by: str
    at: Span


def resolve_equipment(plan: Plan, library: Library, places: Places, notes: Notes) -> Equipment:
    cabinets = _cabinets(plan, library, places, notes)
    fittings: dict[str, Fitting] = {}
    mounts: list[Mount] = []
    slots: dict[str, _Slot] = {}
    known = {device.name for device in plan.devices}
    for spec in plan.cabinets:
        if ids.cabinet(spec.name) in cabinets:
            _lay_out(spec, library, known, fittings, mounts, slots, notes)
    devices = _devices(plan, library, places, cabinets, slots, notes)
    ordered = tuple(
        sorted(
            mounts,
            key=lambda mount: (mount.cabinet, mount.low, mount.high, mount.face, mount.item, mount.what),
        )
    )
    return Equipment(devices, cabinets, fittings, ordered, _occupancy(cabinets, ordered))


def find_part(name: str, subject: str, library: Library, notes: Notes, at: Span | None) -> Part | None:
    part = library.get(name)
    if part is None and name:
        notes.unknown_name(subject, name, "part", library, at)
    return part


def _cabinets(plan: Plan, library: Library, places: Places, notes: Notes) -> dict[str, Cabinet]:
    found: dict[str, Cabinet] = {}
    for spec in plan.cabinets:
        cabinet_id = ids.cabinet(spec.name)
        notes.wrote(cabinet_id, spec.written)
        part = find_part(spec.part, cabinet_id, library, notes, value_span(spec.written, "part"))
        room = _room(spec.room, cabinet_id, places, notes, value_span(spec.written, "room"))
        if part is None:
            continue
        if part.kind != "cabinet":
            notes.gap(
                "part-kind",
                cabinet_id,
                f"the part '{part.name}' is a {part.kind}, not a cabinet",
                value_span(spec.written, "part"),
            )
            continue
        found[cabinet_id] = Cabinet(
            cabinet_id,
            spec.name,
            part,
            room,
            part.units,
            part.usable_depth,
            part.rails,
            part.thread,
            spec.is_owned,
        )
    return found


def _room(reference: str, subject: str, places: Places, notes: Notes, at: Span | None) -> str:
    if reference:
        return find_room(reference, subject, places, notes, at)
    if len(places.rooms) == 1:
        only = next(iter(places.rooms))
        notes.decide(subject, "room", ids.path(only), "equipment", "the plan has one room")
        return only
    if places.rooms:
        notes.gap("room-unsaid", subject, f"the plan does not say in which room '{ids.path(subject)}' is", at)
    return ""


def _lay_out(
    spec: CabinetSpec,
    library: Library,
    known: set[str],
    fittings: dict[str, Fitting],
    mounts: list[Mount],
    slots: dict[str, _Slot],
    notes: Notes,
) -> None:
    cabinet_id = ids.cabinet(spec.name)
    for slot in spec.slots:
        item = ""
        if slot.what == "fit":
            item = _fit(slot, spec.name, library, fittings, notes)
        elif slot.what == "device":
            item = _put(slot.name, cabinet_id, "", slot.written.node.span, known, slots, notes)
        if slot.what != "keep-free" and not item:
            continue
        for name in slot.carries:
            _put(
                name,
                cabinet_id,
                item,
                value_span(slot.written, "carries") or slot.written.span,
                known,
                slots,
                notes,
            )
        mounts.append(
            Mount(
                cabinet_id,
                item,
                slot.low,
                slot.high,
                slot.face,
                slot.name,
                slot.what == "keep-free",
                bool(slot.over),
            )
        )
        notes.wrote(f"mount:{spec.name}/{slot.low}-{slot.high}", slot.written)
        if slot.over:
            mounts.extend(_behind(slot, cabinet_id, known, slots, notes))


def _behind(
    slot: SlotSpec, cabinet: str, known: set[str], slots: dict[str, _Slot], notes: Notes
) -> Iterator[Mount]:
    """The device that a hinged thing stands `over`: mounted in the same units, behind it."""
    at = value_span(slot.written, "over") or slot.written.span
    item = _put(slot.over, cabinet, "", at, known, slots, notes)
    if item:
        yield Mount(cabinet, item, slot.low, slot.high, slot.face, slot.over, False, False)


def _fit(slot: SlotSpec, cabinet: str, library: Library, fittings: dict[str, Fitting], notes: Notes) -> str:
    fitting_id = f"fitting:{cabinet}/{slot.low}" + ("" if slot.face == "front" else "-rear")
    part = find_part(slot.name, fitting_id, library, notes, value_span(slot.written, "fit"))
    if part is None:
        return ""
    notes.wrote(fitting_id, slot.written)
    fittings[fitting_id] = Fitting(fitting_id, part, ids.cabinet(cabinet), False)
    return fitting_id


def _put(
    name: str, cabinet: str, carrier: str, at: Span, known: set[str], slots: dict[str, _Slot], notes: Notes
) -> str:
    device_id = ids.device(name)
    if name not in known:
        notes.unknown_name(cabinet, name, "device", known, at)
        return ""
    if name in slots:
        notes.gap(
            "mounted-twice",
            device_id,
            f"'{name}' stands in the layout twice; the first place is {slots[name].at}",
            at,
        )
        return ""
    slots[name] = _Slot(cabinet, carrier, at)
    return device_id


def _devices(
    plan: Plan,
    library: Library,
    places: Places,
    cabinets: dict[str, Cabinet],
    slots: dict[str, _Slot],
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
        jacks += jack_count(part)
        if jacks > MOST_JACKS_IN_PLAN:
            message = f"with '{spec.name}' the plan has more than {MOST_JACKS_IN_PLAN:,} jacks; its devices are not worked out"
            notes.gap("plan-size", device_id, message, spec.written.span)
            return {}
        slot = slots.get(spec.name)
        room = _device_room(spec, device_id, slot, places, cabinets, notes)
        cabinet, carrier = (slot.cabinet, slot.carried_by) if slot else ("", "")
        found[device_id] = Device(
            device_id, spec.name, part, room, cabinet, carrier, spec.is_owned, spec.phase, spec.note, spec.mac
        )
    return found


def _device_room(
    spec: DeviceSpec,
    device_id: str,
    slot: _Slot | None,
    places: Places,
    cabinets: dict[str, Cabinet],
    notes: Notes,
) -> str:
    at = value_span(spec.written, "room")
    if slot is None:
        return _room(spec.room, device_id, places, notes, at)
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


def _occupancy(cabinets: dict[str, Cabinet], mounts: tuple[Mount, ...]) -> tuple[Occupancy, ...]:
    """Every unit of every cabinet, in order, also those beyond a cabinet's height that something wants."""
    wanted: defaultdict[tuple[str, int], list[Mount]] = defaultdict(list)
    for mount in mounts:
        for unit in range(mount.low, mount.high + 1):
            wanted[mount.cabinet, unit].append(mount)
    for cabinet in cabinets.values():
        for unit in range(1, cabinet.units + 1):
            wanted[cabinet.id, unit]
    return tuple(Occupancy(cabinet, unit, tuple(found)) for (cabinet, unit), found in sorted(wanted.items()))
