"""Sites, buildings, rooms and ways: names resolved, earths given, what a way's kind implies spelt out."""

from itertools import chain
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.places import Building, Position, Room, Site, Size, Way
from firstfix.parts.facts import AUTHOR, Fact, Figure, Unknown, exactly
from firstfix.parts.part import Library, Part
from firstfix.plan.model import BuildingSpec, Plan, RoomSpec, SiteSpec, WaySpec
from firstfix.plan.read_places import EXPOSURE_OF_KIND
from firstfix.resolve.notes import Notes, named_span, value_span
from firstfix.span import Span

_UNSAID = Unknown("the plan does not say")


class Places(NamedTuple):
    """`rooms_by_name`: a bare room name to the ids that bear it, for references without a site."""

    sites: dict[str, Site]
    buildings: dict[str, Building]
    rooms: dict[str, Room]
    ways: dict[str, Way]
    rooms_by_name: dict[str, list[str]]


def resolve_places(plan: Plan, library: Library, notes: Notes) -> Places:
    places = Places({}, {}, {}, {}, {})
    for site in plan.sites:
        _add_site(site, plan, places, notes)
    for way in plan.ways:
        _add_way(way, plan.cabling.bundle, places, library, notes)
    return places


def _add_site(site: SiteSpec, plan: Plan, places: Places, notes: Notes) -> None:
    site_id = ids.site(site.name)
    places.sites[site_id] = Site(site_id, site.name)
    notes.wrote(site_id, site.written)
    for spec in site.buildings:
        building_id = ids.building(site.name, spec.name)
        earth = _earth(spec, site, building_id, notes)
        altitude = _figure(spec.altitude)
        places.buildings[building_id] = Building(building_id, spec.name, site_id, earth, altitude)
        notes.wrote(building_id, spec.written)
        for room in spec.rooms:
            _add_room(room, site, building_id, plan, places, notes)


def _earth(spec: BuildingSpec, site: SiteSpec, building_id: str, notes: Notes) -> str:
    """Each building has an earth of its own unless the plan says whose it shares: the safe assumption."""
    if spec.earth not in ("", "own"):
        names = [each.name for each in site.buildings]
        if spec.earth in names:
            return f"{site.name}/{spec.earth}"
        at = value_span(spec.written, "earth")
        notes.unknown_name(building_id, spec.earth, "building of this site to share the earth of", names, at)
    elif not spec.earth and len(site.buildings) > 1:
        why = "each of several buildings counts as separately earthed unless the plan says it shares one"
        notes.decide(building_id, "earth", "own", "places", why)
    return f"{site.name}/{spec.name}"


def _add_room(
    room: RoomSpec, site: SiteSpec, building_id: str, plan: Plan, places: Places, notes: Notes
) -> None:
    room_id = ids.room(site.name, room.name)
    if room_id in places.rooms:
        first = notes.provenance.span(room_id)
        notes.gap(
            "name-duplicate",
            room_id,
            f"the site '{site.name}' has two rooms named '{room.name}'; the first is at {first}",
            room.written.span,
        )
        return
    drop = plan.cabling.drop if room.drop is None else room.drop
    basis = AUTHOR if room.drop is not None or plan.cabling.written is not None else "common practice"
    mains: Figure = (
        Unknown("the plan does not say how many mains outlets are free")
        if room.mains is None
        else exactly(room.mains, AUTHOR)
    )
    places.rooms[room_id] = Room(
        room_id,
        room.name,
        ids.site(site.name),
        building_id,
        room.floor,
        room.is_outdoors,
        exactly(drop, basis),
        mains,
        *_shape(room),
    )
    places.rooms_by_name.setdefault(room.name, []).append(room_id)
    notes.wrote(room_id, room.written)


def _shape(room: RoomSpec) -> tuple[Size, Position, tuple[tuple[str, str], ...], Figure]:
    east, north, height = room.size or (None, None, None)
    ambient: Figure = _UNSAID
    if room.ambient is not None:
        low, high = room.ambient
        ambient = Fact(low, (low + high) / 2, high, AUTHOR)
    size = Size(_figure(east), _figure(north), _figure(height))
    position = Position(*map(_figure, room.position or (None, None)))
    return size, position, room.walls, ambient


def _figure(value: float | None) -> Figure:
    return _UNSAID if value is None else exactly(value, AUTHOR)


def find_room(reference: str, subject: str, places: Places, notes: Notes, at: Span | None) -> str:
    """The room's id, or "" with a gap that says why not."""
    if "/" in reference:
        room_id = f"room:{reference}"
        if room_id in places.rooms:
            return room_id
    else:
        found = places.rooms_by_name.get(reference, [])
        if len(found) == 1:
            return found[0]
        if len(found) > 1:
            written = " or ".join(ids.path(each) for each in sorted(found))
            notes.gap(
                "name-unknown", subject, f"'{reference}' is a room of several sites; write {written}", at
            )
            return ""
    known = chain(places.rooms_by_name, map(ids.path, places.rooms))
    notes.unknown_name(subject, reference, "room", known, at)
    return ""


def _add_way(way: WaySpec, usual_bundle: int | None, places: Places, library: Library, notes: Notes) -> None:
    way_id = ids.way(way.name)
    notes.wrote(way_id, way.written)
    # A way has no direction: written either way round it is the same build.
    ends = tuple(
        sorted(
            find_room(each, way_id, places, notes, named_span(way.written, "between", each))
            for each in way.between
        )
    )
    if len(ends) != 2 or "" in ends:
        notes.has_lost_way = True
        return
    buildings = {places.rooms[each].building for each in ends}
    bundle = usual_bundle if way.bundle is None else way.bundle
    length: Figure = (
        Unknown(f"the way '{way.name}' has no length") if way.length is None else exactly(way.length, AUTHOR)
    )
    material = _material(way, library, notes) if way.material else None
    places.ways[way_id] = Way(
        way_id,
        way.name,
        (ends[0], ends[1]),
        length,
        way.kind,
        EXPOSURE_OF_KIND[way.kind],
        _bore(way, material),
        _figure(way.temperature),
        len(buildings) > 1,
        _figure(bundle),
        way.phase,
        way.is_owned,
        "" if material is None else material.name,
        _figure(way.bends),
    )


# What a way can be made of, by the form of the part.
_MAKES_WAYS = ("conduit", "duct", "trunking", "tray", "clip", "tape")


def _material(way: WaySpec, library: Library, notes: Notes) -> Part | None:
    """The part that the way is made of, or None with a gap that says why not."""
    way_id = ids.way(way.name)
    at = value_span(way.written, "material")
    part = library.get(way.material)
    if part is None:
        notes.unknown_name(way_id, way.material, "part", library, at)
    elif part.pathway is None or part.pathway.form not in _MAKES_WAYS:
        message = f"the part '{way.material}' is a {part.kind}; no way is made of that"
        notes.gap("part-kind", way_id, message, at)
    else:
        return part
    return None


def _bore(way: WaySpec, material: Part | None) -> Figure:
    """As the author says it; else a pipe's own. The side of trunking is not the diameter of a bore."""
    form = None if material is None else material.pathway
    if way.bore is None and form is not None and form.form in ("conduit", "duct"):
        return form.inside
    return _figure(way.bore)
