"""Cabinet geometry in millimetres: heights, panels, holes, which units an item takes, plugs and bends, and what tips."""

import math

from firstfix.physics.range import not_negative, positive, within
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


def plug_reach_mm(plug_mm: float, bend_mm: float, diameter_mm: float) -> float:
    """How far a plugged cord stands out, its plug, its bend to the side and its own thickness.

    plug + r + d
    plug_mm: the plug out of its jack before the cord may bend, 0 for wires on a block; bend_mm r: least radius at the inside
    of the bend; diameter_mm d of the cord [mm]. Result [mm].
    Source: derived.
    """
    return (
        not_negative("plug", plug_mm, "mm")
        + not_negative("bend", bend_mm, "mm")
        + not_negative("cable diameter", diameter_mm, "mm")
    )


def fastener_holes(height: int) -> int:
    """How many holes two rails have along an item of so many units.

    2 * 3 * n
    height n: whole units, at least 1. Result: count.
    Source: EIA/ECA-310-E (2005), see standards.cabinet.
    """
    within("height", height, 1, 100, "U")
    return 2 * int(cabinet_dimensions().holes_per_unit.value) * height


def mass_centre(masses: tuple[tuple[float, float], ...]) -> float:
    """The height of the common centre of gravity.

    sum of m h / sum of m
    masses: pairs of m [kg] and h, in any one unit; together more than 0 kg. Result in the unit of h.
    Source: derived.
    """
    moment = math.fsum(not_negative("mass", mass, "kg") * height for mass, height in masses)
    return moment / positive("mass", math.fsum(mass for mass, _ in masses), "kg")


def tip_angle_deg(centre: float, base: float) -> float:
    """How far a standing thing can be tilted before its centre of gravity is over its edge.

    atan((b / 2) / h)
    centre h above the floor and base b, the narrower side it stands on, in one unit. Result [degrees].
    The masses are taken to stand in the middle of the base.
    Source: derived.
    """
    return math.degrees(math.atan(positive("base", base) / 2 / positive("centre of gravity", centre)))
