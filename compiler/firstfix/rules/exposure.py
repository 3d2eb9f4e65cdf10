"""Rules on what bears its place: the jackets of cables along each of their ways, and devices in outdoor rooms.

Takes a build; yields outcomes for each piece and each device that stands outdoors.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import Piece
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.graphs.wired import wired_pieces
from firstfix.parts.facts import NOT_SAID, Fact, Figure, Unknown
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.prices import Wanted, cheapest, cost
from firstfix.rules.rule import Fine, FineMany, Outcome, Rule, rule
from firstfix.rules.typical import rests_on
from firstfix.rules.warmth import warm_places
from firstfix.units import number

_JACKETS = Basis("common practice, no source", "jackets of IEC 61156-5 cable by where it lies; from memory")
_HOUSINGS = Basis("IEC 60529", "degrees of protection by enclosures; that outdoors asks for one is common practice")  # fmt: skip
_EXPOSURES = ("indoor", "outdoor", "buried")
# Where the sun reaches the jacket.
_SUNLIT_KINDS = ("clipped-outdoors", "overhead")


class _Need(NamedTuple):
    """What a piece's places ask of its jacket: the worst exposure and where it is, and which of them are in the sun."""

    exposure: int
    places: tuple[str, ...]
    sunlit: tuple[str, ...]


class _Lacking(NamedTuple):
    """What a jacket does not bear, the rating that would, and the figures where it is a matter of warmth."""

    message: str
    rating: str
    measurement: Measurement | None = None
    bears: Figure = NOT_SAID


@rule("cable-exposure", Level.ERROR, _JACKETS)
def cable_exposure(build: Build) -> Iterator[Outcome]:
    """Whether each cable's jacket bears all the places that it runs through, the worst of them included.

    Because: sun cracks an indoor jacket within a few summers, and water stands in every buried duct.
    Compares: the cable's rating >= the greatest exposure of its ways and of the rooms at its ends, of indoor, outdoor, buried;
        where it is clipped outdoors, overhead, or ends outdoors, its jacket bears sunlight; the warmth of its ways [°C] <= the
        warmest that its part bears.
    Skips: nothing
    Cannot tell: a cable that does not say its rating, or one for the ground that comes into the sun and does not say whether it
        bears it. A piece without a way is reported by itself.
    Remedy: the same cable with an outdoor or a buried rating.
    """
    fine = 0
    # Many pieces of one part lie in the same ways between the same rooms.
    known: dict[tuple[str, tuple[str, ...], tuple[str, str]], _Lacking | Unknown | None] = {}
    devices = build.devices
    for piece, near, far in wired_pieces(build):
        rooms = (devices[near.device].room, devices[far.device].room)
        key = (piece.part, piece.route, rooms)
        if key not in known:
            known[key] = _judge(build, build.library[piece.part], _need(build, piece.route, rooms), piece.route)  # fmt: skip
        found = known[key]
        if found is None:
            fine += 1
        elif isinstance(found, Unknown):
            yield cable_exposure.cannot_tell(piece.id, build.provenance.span(piece.link, "cable"), found.why)
        else:
            yield _too_weak(build, piece, found)
    yield FineMany(fine)


def _need(build: Build, route: tuple[str, ...], rooms: tuple[str, str]) -> _Need:
    ways = [build.ways[each] for each in route]
    outdoors = [
        room.name for each in rooms if (room := build.rooms.get(each)) is not None and room.is_outdoors
    ]
    found = [(_EXPOSURES.index(way.exposure), way.name) for way in ways] + [(1, name) for name in outdoors]
    worst = max((exposure for exposure, _ in found), default=0)
    places = dict.fromkeys(name for exposure, name in found if exposure == worst)
    sunlit = dict.fromkeys([*(way.name for way in ways if way.kind in _SUNLIT_KINDS), *outdoors])
    return _Need(worst, tuple(places), tuple(sunlit))


def _judge(build: Build, part: Part, need: _Need, route: tuple[str, ...]) -> _Lacking | Unknown | None:
    form = part.cable
    if form is None:
        return None
    if form.rating not in _EXPOSURES:
        return Unknown(f"the part '{part.name}' does not say its rating") if need.exposure else None
    if _EXPOSURES.index(form.rating) < need.exposure:
        wanted = _EXPOSURES[need.exposure]
        return _Lacking(
            f"is made for {form.rating} use, and {_all_of(need.places)} {_ask(need.places)} for {wanted}",
            wanted,
        )
    if need.sunlit and part.exposure.uv is False:
        return _Lacking(f"does not bear sunlight, which reaches it at {_all_of(need.sunlit)}", "outdoor")
    if need.sunlit and isinstance(part.exposure.uv, Unknown) and form.rating == "buried":
        return Unknown(f"whether '{part.name}' bears sunlight, which reaches it at {_all_of(need.sunlit)}")
    return _too_warm(build, part, form.rating, route)


def _too_warm(build: Build, part: Part, rating: str, route: tuple[str, ...]) -> _Lacking | None:
    """Only where a way's warmth is settled: that a loft may get as warm as cable bears is no fault of the cable's."""
    bears = part.exposure.warmest
    places = warm_places(build)
    settled = [(places.of(way).most_c, way) for way in places.along(route) if places.of(way).is_settled]
    if not settled or isinstance(bears, Unknown):
        return None
    celsius, way = max(settled)
    if at_most(celsius, bears.low):
        return None
    name = build.ways[way].name
    whence = (
        "as the plan says"
        if isinstance(build.ways[way].temperature, Fact)
        else f"usual for a way of the kind {build.ways[way].kind}"
    )
    figures = Measurement(f"warmth of '{name}'", celsius, "at most", bears.low, "°C", (Term("on its warmest day", celsius, whence),), bears.basis)  # fmt: skip
    return _Lacking(
        f"bears {number(bears.low)} °C, and '{name}' gets {number(celsius)} °C warm", rating, figures, bears
    )


def _ask(names: tuple[str, ...]) -> str:
    return "asks" if len(names) == 1 else "ask"


def _all_of(names: tuple[str, ...]) -> str:
    return " and ".join(f"'{each}'" for each in names)


def _too_weak(build: Build, piece: Piece, lacking: _Lacking) -> Outcome:
    better = _rated(build, piece.part, lacking)
    cure = f"use '{better}'" if better else f"use one with a rating for {lacking.rating} use"
    return cable_exposure.finding(
        f"'{piece.part}' of {_article(piece.kind)} {lacking.message}",
        piece.id,
        build.provenance.span(piece.link, "cable"),
        related=(*_exposed(build, piece.route), *rests_on(lacking.bears)),
        measurement=lacking.measurement,
        cures=(Cure(cure),),
    )


def _exposed(build: Build, route: tuple[str, ...]) -> Iterator[Label]:
    for each in route:
        way = build.ways[each]
        if way.exposure != "indoor":
            yield Label(build.provenance.span(each), f"{way.kind}: {way.exposure}")


def _article(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeiou" else f"a {noun}"


def _rated(build: Build, name: str, lacking: _Lacking) -> str:
    """The library's like cable of the rating; none for what is too warm, of which a rating says nothing."""
    if lacking.measurement is not None:
        return ""
    part = build.library[name]
    form = part.cable
    for other_name, other in sorted(build.library.items()):
        found = other.cable
        if found is None or form is None or other.kind != part.kind or other_name == name:
            continue
        if (found.medium, found.category, found.conductor, found.rating) == (
            form.medium, form.category, "copper" if form.medium != "fibre" else form.conductor, lacking.rating,
        ):  # fmt: skip
            return other_name
    return ""


@rule("device-exposure", Level.ERROR, _HOUSINGS)
def device_exposure(build: Build) -> Iterator[Outcome]:
    """Whether what stands in an outdoor room is made for it, or stands in a cabinet that is.

    Because: a housing for indoors lets in the first rain, and dew gets in before that; with mains inside it can kill.
    Compares: the place that each device and cabinet is made for (`exposure: {place: …}` of its part) with the room's `outdoors`.
    Skips: rooms indoors; what a cabinet for outdoors holds; cables and cords, of which cable-exposure tells.
    Cannot tell: a part that does not say where it may be.
    Remedy: a part made for outdoors, a cabinet made for outdoors around it, or a place indoors with a cable through the wall.
    """
    outdoors = {room.id for room in build.rooms.values() if room.is_outdoors}
    if not outdoors:
        return
    sheltering = set()
    for cabinet in build.cabinets.values():
        if cabinet.room in outdoors:
            place = cabinet.part.exposure.place
            if place in _EXPOSURES[1:]:
                sheltering.add(cabinet.id)
            yield _placed(build, cabinet.id, cabinet.name, cabinet.part, cabinet.room)
    for device in build.devices.values():
        if device.room in outdoors and not device.cabinet:
            yield _placed(build, device.id, device.name, device.part, device.room)
        elif device.room in outdoors:
            yield _in_cabinet(build, device, device.cabinet in sheltering)


def _in_cabinet(build: Build, device: Device, is_sheltered: bool) -> Outcome:
    return Fine(device.id) if is_sheltered else _placed(build, device.id, device.name, device.part, device.room)  # fmt: skip


def _placed(build: Build, subject: str, name: str, part: Part, room: str) -> Outcome:
    at, place = build.provenance.span(subject, "part"), part.exposure.place
    if isinstance(place, Unknown):
        return device_exposure.cannot_tell(subject, at, f"where '{part.name}' may be (`exposure: {{place: …}}` of the part)")  # fmt: skip
    if place in _EXPOSURES[1:]:
        return Fine(subject)
    better = cheapest(build, _for_outdoors, part.kind)
    such = f", such as '{better.name}', {cost(build, [Wanted(better.name, 1)])}" if better is not None else ""
    return device_exposure.finding(
        f"'{name}' ('{part.name}') is made for indoors, and '{build.rooms[room].name}' is outdoors",
        subject,
        at,
        related=(Label(build.provenance.span(room), f"'{build.rooms[room].name}' is outdoors"),),
        cures=(Cure(f"use a part made for outdoors{such}"), Cure("put it into a cabinet made for outdoors, or indoors with a cable through the wall")),
    )  # fmt: skip


def _for_outdoors(build: Build, kind: str) -> Iterator[Part]:
    return (part for part in parts_of_kind(build.library, kind) if part.exposure.place == "outdoor")


RULES: tuple[Rule, ...] = (cable_exposure, device_exposure)
