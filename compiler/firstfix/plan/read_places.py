"""`sites:` and `ways:`: where things are, and the pathways between rooms."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import BuildingSpec, SiteSpec, WaySpec, Written
from firstfix.plan.read_labels import own_label
from firstfix.plan.read_rooms import read_rooms
from firstfix.plan.series import SeriesReader
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import Scalar, clip
from firstfix.units import LENGTH, TEMPERATURE

_SITE_KEYS = ("rooms", "buildings", "earth", "altitude", "label", "was", "note")
_BUILDING_KEYS = ("rooms", "earth", "altitude", "label", "was", "note")
_WAY_KEYS = (
    "owned", "between", "length", "kind", "material", "bends", "bore", "temperature", "bundle", "phase", "was", "note",
)  # fmt: skip

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

# More cables than any one bundle holds, and more bends than any way has.
MOST_IN_BUNDLE = 10_000
MOST_BENDS = 1_000


# The shore of the Dead Sea and the highest places people live at, roundly; no limit of any rule.
_LOWEST, _HIGHEST = -450.0, 6000.0


def read_sites(fields: Fields, series: SeriesReader, faults: Collector) -> Iterator[SiteSpec]:
    """What a site says of `earth` and `altitude` holds for those of its buildings that say nothing."""
    for name, key, node in fields.table("sites"):
        check_name(name, key, faults)
        site = Fields(node, faults, f"the site '{clip(name)}'", _SITE_KEYS)
        earth = site.text("earth") or ""
        altitude = site.quantity("altitude", LENGTH, _LOWEST, _HIGHEST)
        buildings = list(_read_buildings(site, earth, altitude, series, faults))
        rooms = tuple(read_rooms(site, series, faults))
        if rooms or not buildings:
            # Rooms written straight into a site lie in its one building, which bears the site's name.
            buildings.insert(0, BuildingSpec(name, earth, altitude, rooms, Written(key, node)))
        yield SiteSpec(name, tuple(buildings), Written(key, node), own_label(site))


def _read_buildings(
    site: Fields, earth: str, altitude: float | None, series: SeriesReader, faults: Collector
) -> Iterator[BuildingSpec]:
    for name, key, node in site.table("buildings"):
        check_name(name, key, faults)
        building = Fields(node, faults, f"the building '{clip(name)}'", _BUILDING_KEYS)
        own_altitude = building.quantity("altitude", LENGTH, _LOWEST, _HIGHEST)
        yield BuildingSpec(
            name,
            building.text("earth") or earth,
            altitude if own_altitude is None else own_altitude,
            tuple(read_rooms(building, series, faults)),
            Written(key, node),
            own_label(building),
        )


def read_ways(fields: Fields, series: SeriesReader, faults: Collector) -> Iterator[WaySpec]:
    for name, key, node in series.named(fields, "ways", own_key="between"):
        way = Fields(node, faults, f"the way '{clip(key.text)}'", _WAY_KEYS)
        between = _between(way, key)
        yield WaySpec(
            name,
            between,
            way.quantity("length", LENGTH, 0, 20_000),
            way.choice("kind", EXPOSURE_OF_KIND) or "trunking",
            way.quantity("bore", LENGTH, 0.001, 2),
            way.quantity("temperature", TEMPERATURE, -60, 90),
            way.text("phase") or "",
            Written(key, node),
            way.integer("bundle", 1, MOST_IN_BUNDLE),
            way.flag("owned") or False,
            way.text("material") or "",
            way.integer("bends", 0, MOST_BENDS),
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
    if rooms[0][0] == rooms[1][0]:
        message = f"the way '{clip(key.text)}' goes from '{clip(rooms[0][0])}' to itself; it joins two rooms"
        way.wrong(rooms[1][1], message)
        return ()
    return tuple(text for text, _ in rooms)
