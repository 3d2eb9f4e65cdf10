"""How warm the cables in ways and rooms get: what the plan says, else what is usual for ways of their kind.

Takes a build; gives bounds in °C. Where they differ, a verdict that hangs on them is *cannot tell*.
"""

from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.places import Way
from firstfix.parts.facts import Fact
from firstfix.physics.constants import REFERENCE_TEMPERATURE_C
from firstfix.standards.cabling import way_warmth


class Warmth(NamedTuple):
    """Bounds of a cable's temperature on the warmest day [°C]."""

    least_c: float
    most_c: float

    @property
    def is_settled(self) -> bool:
        return self.least_c == self.most_c


def warmth_of(build: Build, way: Way) -> Warmth:
    """The plan's `temperature` of the way; else the bounds of standards.cabling.way_warmth for its kind.

    Within a building it gets at least as warm as the warmer of the rooms that it joins, if they say their `ambient`.
    """
    if isinstance(way.temperature, Fact):
        return Warmth(way.temperature.high, way.temperature.high)
    row = way_warmth()[way.kind]
    if way.exposure != "indoor":
        return Warmth(row.least_c, row.most_c)
    rooms = max((_of_room(build, room) for room in way.ends), default=REFERENCE_TEMPERATURE_C)
    return Warmth(max(row.least_c, rooms), max(row.most_c, rooms))


def _of_room(build: Build, room_id: str) -> float:
    """On its warmest day, if the plan says it; else the length tables' own 20 °C."""
    room = build.rooms.get(room_id)
    if room is None or not isinstance(room.ambient, Fact):
        return REFERENCE_TEMPERATURE_C
    return max(room.ambient.high, REFERENCE_TEMPERATURE_C)


class WarmPlaces:
    """The ways and rooms in which a cable may get warmer than the length tables' 20 °C; most plans have none."""

    def __init__(self, build: Build) -> None:
        ways = ((way.id, warmth_of(build, way)) for way in build.ways.values())
        self._ways = {way: each for way, each in ways if each.most_c > REFERENCE_TEMPERATURE_C}
        rooms = ((room, _of_room(build, room)) for room in build.rooms)
        self._rooms = {room: celsius for room, celsius in rooms if celsius > REFERENCE_TEMPERATURE_C}

    @property
    def are_any(self) -> bool:
        return bool(self._ways or self._rooms)

    def along(self, route: tuple[str, ...]) -> tuple[str, ...]:
        """The warm ways of a route, in its order."""
        return tuple(way for way in route if way in self._ways) if self._ways else ()

    def of(self, way: str) -> Warmth:
        """Of one of the ways that `along` gave."""
        return self._ways[way]

    def between(self, build: Build, jacks: tuple[str, str]) -> float:
        """What lies in the rooms of these two jacks: the warmer of them, at least 20 °C."""
        if not self._rooms:
            return REFERENCE_TEMPERATURE_C
        rooms = (build.devices[build.jacks[jack].device].room for jack in jacks)
        return max(self._rooms.get(room, REFERENCE_TEMPERATURE_C) for room in rooms)


warm_places = once_per_build(WarmPlaces)
"""The warm places of a build, found once for all rules that ask."""
