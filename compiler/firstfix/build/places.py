"""Where things are: sites, buildings, rooms, and the ways between rooms."""

from typing import NamedTuple

from firstfix.parts.facts import Figure, Unknown

_UNSAID = Unknown("the plan does not say")


class Size(NamedTuple):
    """A room's extent in metres: `east` from its west wall to its east wall, `north` from south to north, `height`."""

    east: Figure
    north: Figure
    height: Figure


class Position(NamedTuple):
    """Metres east and north of the site's own corner."""

    east: Figure
    north: Figure


class Site(NamedTuple):
    id: str
    name: str


class Building(NamedTuple):
    """`earth` names the earthing system that its metalwork is bonded to; copper between two of them needs protection.

    `altitude`: metres above the sea.
    """

    id: str
    name: str
    site: str
    earth: str
    altitude: Figure = _UNSAID


class Room(NamedTuple):
    """`drop`: metres of cable from where a way enters the room to a device in it. `mains_outlets`: how many are free.

    `position` is that of its south-west corner. `walls`: side (north, …, ceiling, ground) to material, as far as known.
    `ambient`: degrees Celsius, low on the coldest day and high on the warmest.
    """

    id: str
    name: str
    site: str
    building: str
    floor: int
    is_outdoors: bool
    drop: Figure
    mains_outlets: Figure
    size: Size = Size(_UNSAID, _UNSAID, _UNSAID)
    position: Position = Position(_UNSAID, _UNSAID)
    walls: tuple[tuple[str, str], ...] = ()
    ambient: Figure = _UNSAID


class Way(NamedTuple):
    """A pathway between two rooms. `exposure` is indoor, outdoor or buried, and follows from `kind` (trunking, buried duct).
    `material`: the part it is made of, or "" where that is not bought by this plan. `bends`: its quarter bends.

    `bundle`: how many cables are tied into one bundle there at the most. `is_owned`: it is there and open already.
    """

    id: str
    name: str
    ends: tuple[str, str]
    length: Figure
    kind: str
    exposure: str
    bore: Figure
    temperature: Figure
    joins_buildings: bool
    bundle: Figure = _UNSAID
    phase: str = ""
    is_owned: bool = False
    material: str = ""
    bends: Figure = _UNSAID
