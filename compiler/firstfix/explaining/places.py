"""Why a way, a room, a site or a building is as it is, and what goes through it or stands in it."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.places import Room
from firstfix.build.reasons import PLAN, WORKED_OUT, WRITTEN
from firstfix.explaining.lines import (
    counted,
    decided,
    figure,
    from_decision,
    room_name,
    said,
    sections,
    shown_jack,
)
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.views import views
from firstfix.units import celsius, metres, millimetres, number


def explain_way(build: Build, id_: str) -> Explanation:
    way = build.ways[id_]
    ends = " and ".join(room_name(build, each) for each in way.ends)
    written = build.provenance.written
    itself = (
        figure("length", way.length, metres, written(id_, "length")),
        said(build, id_, "between", ends),
        said(build, id_, "kind", way.kind, otherwise="the usual kind where the plan names none"),
        Line("exposure", way.exposure, WORKED_OUT, f"a {way.kind} is {way.exposure}"),
        figure("bore", way.bore, millimetres, written(id_, "bore")),
        figure("temperature", way.temperature, celsius, written(id_, "temperature")),
    )
    joins = (Line("joins", "two buildings", WORKED_OUT, "its ends are in different buildings"),)
    parts = sections(
        ("the way", (*itself, *(joins if way.joins_buildings else ()))), ("in it", _in_way(build, id_))
    )
    return Explanation(id_, "way", f"{way.name}, between {ends}", build.provenance.span(id_), parts)


def _in_way(build: Build, way: str) -> Iterator[Line]:
    inside = [piece for piece in build.pieces.values() if way in piece.route]
    if not inside:
        yield Line("nothing", "no run goes through it")
    for piece in inside:
        yield Line(
            ids.path(piece.id), f"{shown_jack(piece.ends[0])} to {shown_jack(piece.ends[1])}, {piece.part}"
        )


def explain_room(build: Build, id_: str) -> Explanation:
    room = build.rooms[id_]
    parts = sections(
        ("the room", _room(build, id_)), ("stands in it", _stands(build, id_)), ("ways", _ways(build, id_))
    )
    return Explanation(id_, "room", f"{ids.path(id_)}, a room of {ids.path(room.building)}", build.provenance.span(id_), parts)  # fmt: skip


def _room(build: Build, id_: str) -> Iterator[Line]:
    room = build.rooms[id_]
    usual = "the usual where the plan says nothing"
    yield said(build, id_, "floor", str(room.floor), otherwise=usual)
    yield said(build, id_, "outdoors", "yes" if room.is_outdoors else "no", otherwise=usual)
    yield _drop(build, room)
    yield figure("mains outlets free", room.mains_outlets, number, build.provenance.written(id_, "mains"))
    earth = build.buildings[room.building].earth
    yield _earth(build, room.building)._replace(value=f"that of {earth}")


def _drop(build: Build, room: Room) -> Line:
    """The room's own, else that of the plan's cabling, else the usual."""
    line = figure("drop of cable to a device", room.drop, metres)
    at = build.provenance.written(room.id, "drop")
    if at is not None:
        return line._replace(origin=WRITTEN, at=at)
    at = build.provenance.written(PLAN, "cabling", "drop")
    if at is not None:
        return line._replace(origin=WRITTEN, why="the plan's cabling", at=at)
    return line._replace(origin=WORKED_OUT, why="what is usual: common practice, no source")


def _earth(build: Build, building: str) -> Line:
    decision = decided(build, building, "earth")
    if decision is not None:
        return from_decision("earth", decision, build.provenance.written(building, "earth"))
    return said(build, building, "earth", build.buildings[building].earth, otherwise="there is one building")


def _stands(build: Build, room: str) -> Iterator[Line]:
    for cabinet in build.cabinets.values():
        if cabinet.room == room:
            yield Line(
                cabinet.name, f"cabinet, {cabinet.part.title}", "", "", build.provenance.span(cabinet.id)
            )
    for device in views(build).in_room.get(room, ()):
        where = f", in {ids.path(device.cabinet)}" if device.cabinet else ""
        yield Line(device.name, f"{device.part.kind}, {device.part.name}{where}")
    fed = views(build).fed.get(room, ())
    if fed:
        value = f"{', '.join(ids.path(each.device) for each in fed)}: {counted(len(fed), 'outlet')} in use"
        yield Line("plugged into its mains", value, WORKED_OUT)


def _ways(build: Build, room: str) -> Iterator[Line]:
    for way in build.ways.values():
        if room in way.ends:
            other = way.ends[1] if way.ends[0] == room else way.ends[0]
            length = figure(way.name, way.length, metres, build.provenance.written(way.id, "length"))
            yield length._replace(value=f"to {room_name(build, other)}, {length.value}")


def explain_building(build: Build, id_: str) -> Explanation:
    rooms = [room.name for room in build.rooms.values() if room.building == id_]
    lines = (_earth(build, id_), Line("rooms", ", ".join(rooms) or "none"))
    return Explanation(
        id_, "building", ids.path(id_), build.provenance.span(id_), sections(("the building", lines))
    )


def explain_site(build: Build, id_: str) -> Explanation:
    named = [each.name for each in build.buildings.values() if each.site == id_]
    lines = (Line("buildings", ", ".join(named) or "none"),)
    return Explanation(id_, "site", ids.path(id_), build.provenance.span(id_), sections(("the site", lines)))
