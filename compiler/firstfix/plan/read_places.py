"""`sites:` and `ways:`: where things are, and the pathways between rooms."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import BuildingSpec, RoomSpec, SiteSpec, WaySpec, Written
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import Scalar, clip
from firstfix.units import LENGTH, TEMPERATURE

_SITE_KEYS = ("rooms", "buildings", "earth", "note")
_BUILDING_KEYS = ("rooms", "earth", "note")
_ROOM_KEYS = ("floor", "outdoors", "drop", "mains", "note")
_WAY_KEYS = ("between", "length", "kind", "bore", "temperature", "note")

# What a way's kind implies for what lies in it (the design's closed list).
EXPOSURE_OF_KIND = {
    "trunking": "indoor",
    "riser": "indoor",
    "ceiling": "indoor",
    "wall": "indoor",
    "floor": "indoor",
    "loft": "indoor",
    "conduit": "indoor",
    "clipped-outdoors": "outdoor",
    "overhead": "outdoor",
    "buried-duct": "buried",
    "direct-burial": "buried",
}


def read_sites(fields: Fields, faults: Collector) -> Iterator[SiteSpec]:
    for name, key, node in fields.table("sites"):
        check_name(name, key, faults)
        site = Fields(node, faults, f"the site '{clip(name)}'", _SITE_KEYS)
        buildings = list(_read_buildings(site, faults))
        rooms = tuple(_read_rooms(site, faults))
        if rooms or not buildings:
            # Rooms written straight into a site lie in its one building, which bears the site's name.
            buildings.insert(0, BuildingSpec(name, site.text("earth") or "", rooms, Written(key, node)))
        yield SiteSpec(name, tuple(buildings), Written(key, node))


def _read_buildings(site: Fields, faults: Collector) -> Iterator[BuildingSpec]:
    for name, key, node in site.table("buildings"):
        check_name(name, key, faults)
        building = Fields(node, faults, f"the building '{clip(name)}'", _BUILDING_KEYS)
        yield BuildingSpec(
            name, building.text("earth") or "", tuple(_read_rooms(building, faults)), Written(key, node)
        )


def _read_rooms(holder: Fields, faults: Collector) -> Iterator[RoomSpec]:
    for name, key, node in holder.table("rooms"):
        check_name(name, key, faults)
        room = Fields(node, faults, f"the room '{clip(name)}'", _ROOM_KEYS)
        yield RoomSpec(
            name,
            room.integer("floor", -9, 200) or 0,
            room.flag("outdoors") or False,
            room.quantity("drop", LENGTH, 0, 200),
            room.integer("mains", 0, 500),
            Written(key, node),
        )


def read_ways(fields: Fields, faults: Collector) -> Iterator[WaySpec]:
    for name, key, node in fields.table("ways"):
        check_name(name, key, faults)
        way = Fields(node, faults, f"the way '{clip(name)}'", _WAY_KEYS)
        between = _between(way, key)
        yield WaySpec(
            name,
            between,
            way.quantity("length", LENGTH, 0, 20_000),
            way.choice("kind", EXPOSURE_OF_KIND) or "trunking",
            way.quantity("bore", LENGTH, 0.001, 2),
            way.quantity("temperature", TEMPERATURE, -60, 90),
            Written(key, node),
        )


def _between(way: Fields, key: Scalar) -> tuple[str, ...]:
    if not way.require("between"):
        return ()
    rooms = way.texts("between")
    if len(rooms) != 2:
        value = way.value("between")
        assert value is not None
        way.wrong(
            value,
            f"'between' names the two rooms that the way '{clip(key.text)}' joins, such as [study, landing]",
        )
        return ()
    return tuple(text for text, _ in rooms)
