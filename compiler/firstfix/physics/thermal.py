"""Heat in cabinets: what stays inside, how warm it gets there, how much air takes the heat away."""

import math
from enum import StrEnum
from typing import NamedTuple

from firstfix.physics.constants import (
    AIR_DENSITY_KG_M3,
    AIR_GAS_CONSTANT_J_KGK,
    AIR_HEAT_CAPACITY_J_KGK,
    CUBIC_METRES_PER_CUBIC_FOOT,
    FREE_FALL_M_S2,
    ISA_DENSITY_EXPONENT,
    ISA_LAPSE_PER_M,
    ISA_PRESSURE_EXPONENT,
    ISA_PRESSURE_PA,
    WATTS_PER_BTU_PER_HOUR,
    ZERO_CELSIUS_K,
)
from firstfix.physics.range import not_negative, positive, within
from firstfix.standards.thermal import surface_factors
from firstfix.units import Watts


class Standing(StrEnum):
    """How a cabinet stands: what is in front of its faces."""

    FREE = "free"
    WALL = "against a wall"
    ROW_END = "end of a row"
    ROW_END_WALL = "end of a row against a wall"
    ROW_MIDDLE = "middle of a row"
    ROW_MIDDLE_WALL = "middle of a row against a wall"
    ROW_MIDDLE_WALL_COVERED = "middle of a row against a wall, top covered"


class PoeHeat(NamedTuple):
    """A powering switch: what it takes from the mains, and how much of that stays in the cabinet as heat."""

    input_w: Watts
    heat_w: Watts


# Of each standing: top, rear, how many of the two sides are covered. The front is always exposed.
_FACES = {
    Standing.FREE: ("top-exposed", "side-exposed", 0),
    Standing.WALL: ("top-exposed", "side-covered", 0),
    Standing.ROW_END: ("top-exposed", "side-exposed", 1),
    Standing.ROW_END_WALL: ("top-exposed", "side-covered", 1),
    Standing.ROW_MIDDLE: ("top-exposed", "side-exposed", 2),
    Standing.ROW_MIDDLE_WALL: ("top-exposed", "side-covered", 2),
    Standing.ROW_MIDDLE_WALL_COVERED: ("top-covered", "side-covered", 2),
}


def effective_area(height_m: float, width_m: float, depth_m: float, standing: Standing) -> float:
    """The area through which a cabinet sheds heat: each face by how freely it stands.

    A_e = sum over the faces of b * area; top 1.4 (covered 0.7), others 0.9 (covered or shared 0.5), floor 0
    height_m, width_m, depth_m: outside [m]; standing. Result [m²].
    Source: IEC TR 60890 (2014), Table III, see standards.thermal.
    """
    high, wide, deep = (positive("cabinet size", size, "m") for size in (height_m, width_m, depth_m))
    factor = {name: row.factor for name, row in surface_factors().items()}
    top, rear, covered_sides = _FACES[standing]
    sides = covered_sides * factor["side-covered"] + (2 - covered_sides) * factor["side-exposed"]
    return (
        factor[top] * wide * deep
        + (factor["side-exposed"] + factor[rear]) * high * wide
        + sides * high * deep
    )


def temperature_rise(heat_w: float, area_m2: float, heat_w_per_m2k: float) -> float:
    """How much warmer than its room the air in a closed, unventilated cabinet gets.

    dT = P / (k A_e)
    heat_w P [W]; area_m2 A_e [m²]; heat_w_per_m2k k, from standards.thermal.cabinet_heat. Result [K].
    Steady state, heat spread over the height, no sunshine. Rough: IEC TR 60890 has curves for k.
    Source: common practice, no source.
    """
    return not_negative("heat", heat_w, "W") / (
        positive("area", area_m2, "m²") * positive("heat transfer", heat_w_per_m2k, "W/m²K")
    )


def door_exchange(height_m: float, open_m2: float, discharge: float, density: float, celsius: float) -> float:
    """How strongly warmth drives air through the one meshed door of a cabinet: cool air in below, warm air out above.

    b = rho c V / dT^(1/2), V = C_d A / 3 * (g h dT / T)^(1/2)
    height_m h of the opening [m]; open_m2 A: area of its holes together [m²]; discharge C_d; density rho [kg/m³]; celsius of the
    room [°C]. Result b [W/K^1.5]: the air takes b dT^1.5 away.
    One opening, no wind, no fan.
    Source: BS 5925 (1991), single-sided ventilation by temperature difference, from memory.
    """
    high, area = positive("height of the opening", height_m, "m"), not_negative("open area", open_m2, "m²")
    warmth = positive("room temperature", celsius + ZERO_CELSIUS_K, "K")
    flow = within("discharge", discharge, 0.1, 1.0) * area / 3 * math.sqrt(FREE_FALL_M_S2 * high / warmth)
    return positive("density", density, "kg/m³") * AIR_HEAT_CAPACITY_J_KGK * flow


def fan_exchange(flow_m3h: float, density: float) -> float:
    """What a fan's air takes away for each kelvin that it warms by.

    a = rho c V / 3600
    flow_m3h V [m³/h]; density rho [kg/m³]. Result a [W/K].
    Source: derived.
    """
    return (
        positive("density", density, "kg/m³")
        * AIR_HEAT_CAPACITY_J_KGK
        * not_negative("flow", flow_m3h, "m³/h")
        / 3600
    )


def rise_with_air(heat_w: float, per_kelvin: float, per_kelvin_and_half: float = 0.0) -> float:
    """How much warmer than its room the air in a cabinet gets, when its faces, a fan and its door take heat away together.

    P = a dT + b dT^1.5, solved for dT by halving an interval
    heat_w P [W]; per_kelvin a: faces (k A_e) and fan [W/K]; per_kelvin_and_half b: door_exchange [W/K^1.5]. Result [K].
    Steady state, air mixed within the cabinet, no sunshine.
    Source: derived.
    """
    heat = not_negative("heat", heat_w, "W")
    low, high = 0.0, heat / positive("heat taken for each kelvin", per_kelvin, "W/K")
    not_negative("exchange through the door", per_kelvin_and_half, "W/K^1.5")
    if not per_kelvin_and_half:
        return high
    # Faces alone would need `high`; the door only helps. 100 halvings are more than a float has digits.
    for _ in range(100):
        middle = (low + high) / 2
        if per_kelvin * middle + per_kelvin_and_half * middle**1.5 < heat:
            low = middle
        else:
            high = middle
    return high


def air_density(celsius: float, altitude_m: float = 0.0) -> float:
    """Density of dry air in a room: at its temperature and at the pressure of its altitude.

    rho = p / (R T), p = 101 325 Pa * pressure ratio
    celsius [°C]; altitude_m [m]. Result [kg/m³].
    Valid for -50 °C to 100 °C. Moist air is up to 2 % thinner.
    Source: ISO 2533 (1975), equation of state and constants.
    """
    warmth = within("temperature", celsius, -50, 100, "°C") + ZERO_CELSIUS_K
    return ISA_PRESSURE_PA * pressure_ratio(altitude_m) / (AIR_GAS_CONSTANT_J_KGK * warmth)


def density_ratio(altitude_m: float) -> float:
    """Density of air at an altitude over that at sea level, in the standard atmosphere.

    (1 - 2.25577e-5 h)^4.2559
    altitude_m h [m]. Result: ratio.
    Valid for -500 m to 11 000 m; the air is as cool as the atmosphere there is.
    Source: ISO 2533 (1975).
    """
    within("altitude", altitude_m, -500, 11_000, "m")
    ratio: float = (1 - ISA_LAPSE_PER_M * altitude_m) ** ISA_DENSITY_EXPONENT
    return ratio


def pressure_ratio(altitude_m: float) -> float:
    """Pressure at an altitude over that at sea level: how density falls at one room temperature.

    (1 - 2.25577e-5 h)^5.2559
    altitude_m h [m]. Result: ratio; the stricter of the two for a heated room.
    Valid for -500 m to 11 000 m.
    Source: ISO 2533 (1975).
    """
    within("altitude", altitude_m, -500, 11_000, "m")
    ratio: float = (1 - ISA_LAPSE_PER_M * altitude_m) ** ISA_PRESSURE_EXPONENT
    return ratio


def airflow_m3h(heat_w: float, rise_k: float, air_ratio: float = 1.0) -> float:
    """Air that carries a heat away while warming by so much.

    V = 3600 P / (rho c dT), rho = 1.2 kg/m³ * ratio, c = 1005 J/(kg K)
    heat_w P [W]; rise_k dT [K]; air_ratio from density_ratio or pressure_ratio. Result [m³/h].
    Valid for a rise of 1 K to 60 K.
    Source: derived.
    """
    within("temperature rise", rise_k, 1.0, 60.0, "K")
    within("density ratio", air_ratio, 0.2, 1.1)
    return (
        not_negative("heat", heat_w, "W")
        * 3600
        / (AIR_DENSITY_KG_M3 * air_ratio * AIR_HEAT_CAPACITY_J_KGK * rise_k)
    )


def cubic_feet_per_minute(flow_m3h: float) -> float:
    """The same flow in cubic feet per minute. flow_m3h [m³/h]."""
    return flow_m3h / CUBIC_METRES_PER_CUBIC_FOOT / 60


def btu_per_hour(heat_w: float) -> float:
    """The same heat in BTU per hour (international table). heat_w [W]."""
    return heat_w / WATTS_PER_BTU_PER_HOUR


def poe_heat(own_w: float, given_w: float, efficiency: float) -> PoeHeat:
    """A powering switch's input, and the heat that stays: what it powers leaves through the cables.

    P_in = P_own + P_poe / eta;  Q = P_own + P_poe (1 / eta - 1)
    own_w P_own [W]; given_w P_poe at its jacks [W]; efficiency eta of its supply, 0.5 to 1. Result [W, W].
    Loss in cable inside the cabinet is not counted.
    Source: derived.
    """
    within("supply efficiency", efficiency, 0.5, 1.0)
    given = not_negative("power given", given_w, "W")
    input_w = not_negative("own draw", own_w, "W") + given / efficiency
    return PoeHeat(Watts(input_w), Watts(input_w - given))
