"""Where things are: sites, buildings, rooms, and the ways between rooms."""

from typing import NamedTuple

from firstfix.parts.facts import Figure


class Site(NamedTuple):
    id: str
    name: str


class Building(NamedTuple):
    """`earth` names the earthing system that its metalwork is bonded to; copper between two of them needs protection."""

    id: str
    name: str
    site: str
    earth: str


class Room(NamedTuple):
    """`drop`: metres of cable from where a way enters the room to a device in it. `mains_outlets`: how many are free."""

    id: str
    name: str
    site: str
    building: str
    floor: int
    is_outdoors: bool
    drop: Figure
    mains_outlets: Figure


class Way(NamedTuple):
    """A pathway between two rooms. `exposure` is indoor, outdoor or buried, and follows from `kind` (trunking, buried duct)."""

    id: str
    name: str
    ends: tuple[str, str]
    length: Figure
    kind: str
    exposure: str
    bore: Figure
    temperature: Figure
    joins_buildings: bool
