"""How long a mains cord is bought: from unit to unit within a cabinet, else as a cord in the open room."""

from firstfix.build.hardware import Device
from firstfix.parts.part import Library
from firstfix.plan.model import CablingSpec
from firstfix.resolve.equipment import Equipment
from firstfix.standards.cabinet import cabinet_dimensions


class LeadLengths:
    """Takes the equipment and the cabling's allowances; asked for few cords, it looks at cabinets only then."""

    def __init__(self, equipment: Equipment, cabling: CablingSpec, library: Library) -> None:
        self._equipment = equipment
        self._cabling = cabling
        self._library = library
        self._units: dict[str, float] = {}

    def of(self, device: Device, source: Device | None, cord: str) -> float:
        """Metres of the shortest such cord that is sold and reaches; 0 where none is known to."""
        form = self._library[cord].cable if cord in self._library else None
        needed = self._needed(device, source)
        return next((each for each in sorted(form.lengths) if each + 1e-9 >= needed), 0.0) if form else 0.0

    def _needed(self, device: Device, source: Device | None) -> float:
        if source is None or not device.cabinet or device.cabinet != source.cabinet:
            return self._cabling.desk_cord
        geometry = cabinet_dimensions()
        rise = abs(self._unit(device) - self._unit(source)) * geometry.rack_unit.value / 1000
        return rise + geometry.panel_width.value / 1000 + 2 * self._cabling.dressing

    def _unit(self, device: Device) -> float:
        if not self._units:
            mounts = self._equipment.mounts
            self._units = {each.item: (each.low + each.high) / 2 for each in mounts if each.item}
        return self._units.get(device.carried_by or device.id, 0.0)
