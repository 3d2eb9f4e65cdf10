"""Cabinet geometry in millimetres: heights, panels, holes, and which units an item takes."""

from firstfix.physics.range import positive, within
from firstfix.standards.cabinet import cabinet_dimensions


def opening_height_mm(units: float) -> float:
    """Height of so many units of mounting space.

    h = 44.45 mm * n
    units n. Result [mm].
    Source: EIA/ECA-310-E (2005), see standards.cabinet.
    """
    return cabinet_dimensions().rack_unit.value * positive("units", units, "U")


def panel_height_mm(units: float) -> float:
    """Height of a front panel, a little less than its space.

    h = 44.45 mm * n - 0.79 mm
    units n. Result [mm].
    Source: EIA/ECA-310-E (2005), see standards.cabinet.
    """
    return opening_height_mm(units) - cabinet_dimensions().panel_clearance.value


def hole_heights_mm(units: int) -> tuple[float, ...]:
    """Centres of a rail's holes above the lower edge of the lowest unit, lowest first: three in each unit.

    h = 44.45 mm * (i - 1) + 6.35 mm + 15.875 mm * k, k = 0, 1, 2
    units: how many. Result [mm]. The 12.7 mm gap straddles the boundary of two units.
    Source: EIA/ECA-310-E (2005), see standards.cabinet.
    """
    within("units", units, 1, 100, "U")
    known = cabinet_dimensions()
    return tuple(
        known.rack_unit.value * unit + known.first_hole.value + known.hole_pitch.value * hole
        for unit in range(units)
        for hole in range(int(known.holes_per_unit.value))
    )


def occupied_units(position: int, height: int) -> range:
    """The units that an item takes: from the one it stands on upwards.

    p, p + 1, ... p + n - 1
    position p: counted from 1 at the bottom; height n: whole units, at least 1. Result: a range.
    Source: counting from the bottom, ANSI/TIA-606-C (2017), from memory.
    """
    within("position", position, 1, 100, "U")
    within("height", height, 1, 100, "U")
    return range(position, position + height)


def fits(position: int, height: int, size: int) -> bool:
    """Whether all units of an item at a position lie within a cabinet of `size` units."""
    return position >= 1 and height >= 1 and position + height - 1 <= size


def shared_units(first: range, second: range) -> range:
    """The units that two items both claim; empty where they keep clear of each other."""
    return range(max(first.start, second.start), min(first.stop, second.stop))
