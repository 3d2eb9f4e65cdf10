"""The air in each cabinet: what heats it, how much warmer than its room it gets, and what its things bear.

Takes a build; gives one CabinetAir for each cabinet. A closed or meshed cabinet sheds heat by its faces (IEC TR 60890); warmth drives
air through a meshed door (BS 5925); a fan moves air. All of it is meant for a cabinet at rest, out of the sun, with its air mixed.
"""

import math
from collections import defaultdict
from typing import NamedTuple

from firstfix.build.hardware import Cabinet, Device, Mount
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.graphs.consumption import LIVE_KINDS, NOTHING, Consumption, Spread, consumption
from firstfix.parts.facts import TYPICAL, Fact, Unknown
from firstfix.parts.part import Outside
from firstfix.physics.thermal import (
    Standing,
    air_density,
    airflow_m3h,
    door_exchange,
    effective_area,
    fan_exchange,
    pressure_ratio,
    rise_with_air,
)
from firstfix.standards.thermal import air_limits, cabinet_heat, room_air

CLOSED = "closed"
MESHED = "meshed"
FAN = "fan"
OPEN = "open"
# What a cabinet is where its plan does not say: by the front of its part.
_BY_FRONT = {"glass door": CLOSED, "solid door": CLOSED, "meshed door": MESHED, "open": OPEN}
_SURFACE = "painted-steel"


class Warm(NamedTuple):
    """One thing that gives off heat in a cabinet. `bears`: the warmest air that it works in [°C]."""

    device: str
    name: str
    heat: Spread
    bears: Fact | Unknown
    basis: str


class Kept(NamedTuple):
    """Units kept free, for `what`, which will give off `heat` [W]."""

    what: str
    heat: float


class CabinetAir(NamedTuple):
    """`heat` [W] of all `things`; `rise` [K] above the `room` [°C on the warmest day]; `inside` [°C].

    `heat_later` and `inside_later`: once all that units are kept free for is there, which is in `kept`.
    `limit`: the least of the warmest that its things bear, of the thing `weakest`; None where no thing says it.
    `missing`: facts without which a most is only a bound or infinite. `no_rise`: why the rise can't be told, or "".
    """

    cabinet: str
    cooling: str
    things: tuple[Warm, ...]
    kept: tuple[Kept, ...]
    heat: Spread
    heat_later: float
    room: Spread
    room_is_said: bool
    rise: Spread
    inside: Spread
    inside_later: Spread
    limit: float | None
    weakest: str
    missing: tuple[str, ...]
    no_rise: str = ""


@once_per_build
def cabinet_airs(build: Build) -> dict[str, CabinetAir]:
    """By cabinet id; nothing for a plan without cabinets."""
    if not build.cabinets:
        return {}
    inside: defaultdict[str, list[Device]] = defaultdict(list)
    for device in build.devices.values():
        if device.cabinet:
            inside[device.cabinet].append(device)
    kept: defaultdict[str, list[Mount]] = defaultdict(list)
    for mount in build.mounts:
        if mount.is_kept_free:
            kept[mount.cabinet].append(mount)
    return {
        cabinet.id: _air(build, cabinet, inside[cabinet.id], kept[cabinet.id])
        for cabinet in build.cabinets.values()
    }


def cooling_of(cabinet: Cabinet) -> str:
    """closed, meshed, fan or open; "" where neither plan nor part says it."""
    form = cabinet.part.cabinet
    front = form.front if form is not None else ""
    return cabinet.cooling.kind or (_BY_FRONT.get(front, "") if isinstance(front, str) else "")


def room_warmth(build: Build, room_id: str) -> tuple[Spread, bool]:
    """On the warmest day [°C], and whether the plan says it."""
    room = build.rooms.get(room_id)
    if room is not None and isinstance(room.ambient, Fact):
        return Spread(room.ambient.high, room.ambient.high, room.ambient.high), True
    usual = room_air()["outdoors" if room is not None and room.is_outdoors else "indoors"]
    return Spread(usual.mild_warm_c, usual.warm_c, usual.warmest_c), False


def altitude_of(build: Build, room_id: str) -> float:
    """Metres above the sea; the sea's where nobody says it."""
    room = build.rooms.get(room_id)
    altitude = build.buildings[room.building].altitude if room is not None else None
    return altitude.high if isinstance(altitude, Fact) else 0.0


def air_needed(build: Build, cabinet: Cabinet, heat_w: float, rise_k: float) -> float | None:
    """m³/h of air that carry a heat away while warming by so much, at the cabinet's altitude; None where no air would do."""
    if not (1.0 <= rise_k <= 60.0 and math.isfinite(heat_w)):
        return None
    return airflow_m3h(heat_w, rise_k, pressure_ratio(altitude_of(build, cabinet.room)))


def _air(build: Build, cabinet: Cabinet, devices: list[Device], kept: list[Mount]) -> CabinetAir:
    taken = [(each, consumption(build, each)) for each in devices if each.part.kind in LIVE_KINDS]
    things = tuple(_warm(device, found) for device, found in taken)
    heat = NOTHING
    for each in things:
        heat = heat.plus(each.heat)
    later = tuple(Kept(mount.what, mount.heat.high) for mount in kept if isinstance(mount.heat, Fact))
    heat_later = sum(each.heat for each in later)
    room, is_said = room_warmth(build, cabinet.room)
    missing = tuple(dict.fromkeys(doubt for _, found in taken for doubt in found.missing))
    bears = [(each.bears.low, each.name) for each in things if isinstance(each.bears, Fact)]
    limit, weakest = min(bears) if bears else (None, "")
    shed = _shedding(build, cabinet, room)
    if isinstance(shed, str):
        none = Spread(0.0, 0.0, math.inf)
        return CabinetAir(
            cabinet.id, cooling_of(cabinet), things, later, heat, heat_later, room, is_said, none, room.plus(none),
            room.plus(none), limit, weakest, missing, shed,
        )  # fmt: skip
    rise = _rise(heat, shed)
    after = _rise(heat.plus(Spread(heat_later, heat_later, heat_later)), shed)
    return CabinetAir(
        cabinet.id, cooling_of(cabinet), things, later, heat, heat_later, room, is_said, rise, room.plus(rise),
        room.plus(after), limit, weakest, missing,
    )  # fmt: skip


def _warm(device: Device, found: Consumption) -> Warm:
    return Warm(device.id, device.name, found.heat, device.part.exposure.warmest, found.basis or TYPICAL)


class _Shedding(NamedTuple):
    """Heat that goes for each kelvin [W/K], and through the door [W/K^1.5]: at the best, as usual, at the worst."""

    per_kelvin: Spread
    through_door: Spread


_FREELY = _Shedding(Spread(math.inf, math.inf, math.inf), NOTHING)


def _rise(heat: Spread, shed: _Shedding) -> Spread:
    return Spread(*map(_one_rise, heat, shed.per_kelvin, shed.through_door))


def _one_rise(heat: float, per_kelvin: float, through_door: float) -> float:
    if not heat or math.isinf(per_kelvin):
        return 0.0
    return heat if math.isinf(heat) else rise_with_air(heat, per_kelvin, through_door)


def _shedding(build: Build, cabinet: Cabinet, room: Spread) -> _Shedding | str:
    """How a cabinet sheds heat, or the fact that is missing to tell."""
    cooling = cooling_of(cabinet)
    if cooling == OPEN:
        return _FREELY
    if not cooling:
        return f"how '{cabinet.name}' is cooled (`cooling:`)"
    outside = cabinet.part.outside
    # A size of nothing sheds nothing, which no cabinet does: it is as good as not said.
    if outside is None or not all(isinstance(each, Fact) and each.low > 0 for each in outside):
        return f"the outer size of '{cabinet.name}' (`outside:` of its part)"
    faces = _faces(cabinet, outside)
    altitude = altitude_of(build, cabinet.room)
    thin = Spread(*(air_density(celsius, altitude) for celsius in room))
    if cooling == MESHED:
        door = Spread(*map(lambda share, rho, c: _door(outside, share, rho, c), _holes(), thin, room))
        return _Shedding(faces, door)
    if cooling == FAN:
        flow = cabinet.cooling.air_flow
        if isinstance(flow, Unknown):
            return f"the air flow of the fan of '{cabinet.name}'"
        in_place = air_limits().fan_in_place.value
        moved = Spread(flow.high, (1 + in_place) / 2 * flow.typical, flow.low * in_place)
        return _Shedding(faces.plus(Spread(*map(fan_exchange, moved, thin))), NOTHING)
    return _Shedding(faces, NOTHING)


def _holes() -> Spread:
    most, least = air_limits().mesh_open_most.value, air_limits().mesh_open_least.value
    return Spread(most, (most + least) / 2, least)


def _metres(figure: Fact | Unknown, index: int) -> float:
    assert isinstance(figure, Fact)
    return (figure.high, figure.typical, figure.low)[index]


def _faces(cabinet: Cabinet, outside: Outside) -> Spread:
    """k A_e: one on a wall has that behind it; one on the floor stands free at the best, and against a wall at the worst."""
    form = cabinet.part.cabinet
    on_wall = form is not None and form.mounting == "wall"
    stands = (Standing.WALL if on_wall else Standing.FREE, Standing.WALL, Standing.WALL)
    shed = cabinet_heat()[_SURFACE].heat_w_per_m2k
    areas = (
        effective_area(
            _metres(outside.height, end), _metres(outside.width, end), _metres(outside.depth, end), stand
        )
        for end, stand in enumerate(stands)
    )
    return Spread(*(shed * area for area in areas))


def _door(outside: Outside, share: float, density: float, celsius: float) -> float:
    high, wide = _metres(outside.height, 1), _metres(outside.width, 1)
    return door_exchange(high, share * high * wide, air_limits().discharge.value, density, celsius)
