"""Cabinets and their layouts: what is mounted in which units, at which face and side, and every unit accounted for."""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Cooling, Fitting, Mount, Occupancy
from firstfix.parts.facts import AUTHOR, Figure, Unknown, exactly
from firstfix.parts.part import Library
from firstfix.plan.model import CabinetSpec, Plan, SlotSpec
from firstfix.resolve.notes import Notes, named_span, value_span
from firstfix.resolve.phases import PhaseOrder
from firstfix.resolve.places import Places
from firstfix.resolve.settle import find_part, settle_room
from firstfix.span import Span

_UNSAID = Unknown("the plan does not say")


class Slot(NamedTuple):
    """Where a device stands in a cabinet, found before the device itself is made. `phase`: when that place is there."""

    cabinet: str
    carried_by: str
    phase: str
    at: Span


class Layouts(NamedTuple):
    """`slots` by device name."""

    cabinets: dict[str, Cabinet]
    fittings: dict[str, Fitting]
    mounts: tuple[Mount, ...]
    occupancy: tuple[Occupancy, ...]
    slots: dict[str, Slot]


def resolve_cabinets(
    plan: Plan, library: Library, places: Places, phases: PhaseOrder, notes: Notes
) -> Layouts:
    cabinets: dict[str, Cabinet] = {}
    layer = _Layer(
        {device.name for device in plan.devices} if plan.cabinets else set(), library, phases, notes
    )
    for spec in plan.cabinets:
        cabinet = _cabinet(spec, library, places, notes)
        if cabinet is None:
            # Where they stand is said; the cabinet has its finding.
            notes.meant.update(name for slot in spec.slots for name in (slot.name, slot.over, *slot.carries))
        else:
            cabinets[cabinet.id] = cabinet
            for slot in spec.slots:
                layer.lay(slot, cabinet)
    ordered = tuple(
        sorted(
            layer.mounts,
            key=lambda mount: (
                mount.cabinet,
                mount.low,
                mount.high,
                mount.face,
                mount.side,
                mount.item,
                mount.what,
            ),
        )
    )
    return Layouts(cabinets, layer.fittings, ordered, _occupancy(cabinets, ordered), layer.slots)


def _cabinet(spec: CabinetSpec, library: Library, places: Places, notes: Notes) -> Cabinet | None:
    cabinet_id = ids.cabinet(spec.name)
    notes.wrote(cabinet_id, spec.written)
    at = value_span(spec.written, "part")
    part = find_part(spec.part, cabinet_id, library, notes, at)
    room = settle_room(spec.room, cabinet_id, places, notes, value_span(spec.written, "room"))
    if part is None:
        return None
    if part.kind != "cabinet":
        message = (
            f"the part '{part.name}' is a {part.kind}, not a cabinet; `firstfix parts cabinet` lists those"
        )
        notes.gap("part-kind", cabinet_id, message, at)
        return None
    return Cabinet(
        cabinet_id,
        spec.name,
        part,
        room,
        part.units,
        part.usable_depth,
        part.rails,
        part.thread,
        spec.is_owned,
        spec.phase,
        Cooling(spec.cooling, _figure(spec.air_flow)),
        _figure(spec.above_floor),
        _figure(spec.clear_in_front),
    )


def _figure(value: float | None) -> Figure:
    return _UNSAID if value is None else exactly(value, AUTHOR)


class _Layer:
    """Lays slot after slot; holds what has come of it."""

    def __init__(self, devices: set[str], library: Library, phases: PhaseOrder, notes: Notes) -> None:
        self.fittings: dict[str, Fitting] = {}
        self.mounts: list[Mount] = []
        self.slots: dict[str, Slot] = {}
        self._devices = devices
        self._library = library
        self._phases = phases
        self._notes = notes

    def lay(self, slot: SlotSpec, cabinet: Cabinet) -> None:
        phase = self._phases.latest(slot.phase, cabinet.phase)
        item = ""
        if slot.what == "fit":
            item = self._fit(slot, cabinet, phase)
        elif slot.what == "device":
            item = self._put(slot.name, cabinet.id, "", phase, slot.written.node.span)
        if slot.what != "keep-free" and not item:
            return
        for name in slot.carries:
            at = named_span(slot.written, "carries", name) or slot.written.span
            self._put(name, cabinet.id, item, phase, at)
        self._mount(slot, cabinet.id, item, phase)
        if slot.over:
            self._behind(slot, cabinet.id, phase)

    def _mount(self, slot: SlotSpec, cabinet: str, item: str, phase: str) -> None:
        is_kept_free = slot.what == "keep-free"
        units = (slot.low, slot.high, slot.face)
        self.mounts.append(
            Mount(
                cabinet,
                item,
                *units,
                slot.name,
                is_kept_free,
                bool(slot.over),
                slot.side,
                _figure(slot.heat),
                phase,
            )
        )
        self._notes.wrote(ids.mount(cabinet, *units, slot.side), slot.written)

    def _behind(self, slot: SlotSpec, cabinet: str, phase: str) -> None:
        """The device that a hinged thing stands `over`: mounted in the same units, behind it."""
        at = value_span(slot.written, "over") or slot.written.span
        item = self._put(slot.over, cabinet, "", phase, at)
        if item:
            behind = Mount(cabinet, item, slot.low, slot.high, slot.face, slot.over, False, False)
            self.mounts.append(behind._replace(phase=phase))

    def _fit(self, slot: SlotSpec, cabinet: Cabinet, phase: str) -> str:
        where = "".join(f"-{each}" for each in (slot.face, slot.side) if each not in ("front", "", "left"))
        fitting_id = f"fitting:{cabinet.name}/{slot.low}{where}"
        at = value_span(slot.written, "fit")
        part = find_part(slot.name, fitting_id, self._library, self._notes, at)
        if part is None:
            return ""
        self._notes.wrote(fitting_id, slot.written)
        self.fittings[fitting_id] = Fitting(fitting_id, part, cabinet.id, slot.is_owned, phase)
        return fitting_id

    def _put(self, name: str, cabinet: str, carrier: str, phase: str, at: Span) -> str:
        device_id = ids.device(name)
        if name not in self._devices:
            self._notes.unknown_name(cabinet, name, "device", self._devices, at)
            return ""
        if name in self.slots:
            message = f"'{name}' stands in the layout twice; the first place is {self.slots[name].at}"
            self._notes.gap("mounted-twice", device_id, message, at)
            return ""
        self.slots[name] = Slot(cabinet, carrier, phase, at)
        return device_id


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
