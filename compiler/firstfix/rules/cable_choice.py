"""Rules on what a cable is made of and where it may lie: conductor, jacket, and copper between separate earths.

Takes a build; yields outcomes for each cable part, each piece, each piece that joins two earths.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import Channel, Piece
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact
from firstfix.parts.part import Part
from firstfix.physics.copper import conductor_resistance
from firstfix.rules.rule import Fine, FineMany, Outcome, Rule, rule
from firstfix.standards.copper import conductor_materials, resistance_limits
from firstfix.units import metres, number

_MATERIAL = Basis(
    "ANSI/TIA-568.2-D (2018) and ASTM B566",
    "data cable has copper wires; conductivity of clad wire by class 10A",
)
_SURGE = Basis(
    "IEC 61643-21 and IEC 62305-4", "surge protection of data lines at both building entries; from memory"
)
_EARTHS = Basis("EN 50174-3 and EN 50310", "lines between separately earthed buildings; from memory")
_EXPOSURES = ("indoor", "outdoor", "buried")


@rule("conductor-material", Level.ERROR, _MATERIAL)
def conductor_material(build: Build) -> Iterator[Outcome]:
    """Whether the wires of data cables are copper.

    Because: aluminium with a skin of copper has half as much resistance again: PoE arrives weak and warms the cable, and the wire
        breaks in the blocks of panels. No data-cable standard admits it, whatever category is printed on it.
    Compares: the material of each cable and cord that is used. The figure is one conductor's resistance over 100 m.
    Skips: fibre.
    Cannot tell: never
    Remedy: the same cable with copper wires.
    """
    used: dict[str, list[Piece]] = {}
    for piece in build.pieces.values():
        used.setdefault(piece.part, []).append(piece)
    for name, pieces in sorted(used.items()):
        part = build.library[name]
        if part.cable is None or part.cable.conductor not in conductor_materials():
            continue
        if conductor_materials()[part.cable.conductor].compliant:
            yield Fine(f"part:{name}")
        else:
            yield _clad(build, part, pieces)


def _clad(build: Build, part: Part, pieces: list[Piece]) -> Outcome:
    assert part.cable is not None
    material = conductor_materials()[part.cable.conductor]
    limit = resistance_limits().conductor_per_100m
    measurement = None
    if isinstance(part.cable.gauge_awg, Fact):
        gauge = part.cable.gauge_awg.high
        copper = conductor_resistance(gauge, 100)
        clad = conductor_resistance(gauge, 100, conductivity=material.conductivity)
        terms = (
            Term(f"copper of {gauge:g} AWG", copper, "IEC 60028"),
            Term("more for being clad aluminium", clad - copper, str(material.basis)),
        )
        what = f"resistance of one wire of '{part.name}' over 100 m"
        measurement = Measurement(what, clad, "at most", limit.value, "Ω", terms)
    total = sum(each.length.figure.high for each in pieces if isinstance(each.length.figure, Fact))
    links = sorted({each.link for each in pieces})
    spans = [build.provenance.span(link, "cable") for link in links]
    count = f"{len(pieces)} pieces" if len(pieces) > 1 else "1 piece"
    return conductor_material.finding(
        f"'{part.name}' has wires of {material.name.replace('-', ' ')}, which no data-cable standard admits; {count} of it, {metres(total)}",
        f"part:{part.name}",
        spans[0],
        related=tuple(Label(span, "also made of it") for span in spans[1:]),
        measurement=measurement,
        cures=(Cure(f"take {metres(total)} of {_copper_like(build, part)}"),),
    )  # fmt: skip


def _copper_like(build: Build, part: Part) -> str:
    form = part.cable
    for name, other in sorted(build.library.items()):
        found = other.cable
        if found is None or form is None or other.kind != part.kind or found.conductor != "copper":
            continue
        if (found.medium, found.category, found.rating) == (form.medium, form.category, form.rating):
            return f"'{name}' instead"
    return "the same with copper wires"


@rule("cable-exposure", Level.ERROR, COMMON_PRACTICE)
def cable_exposure(build: Build) -> Iterator[Outcome]:
    """Whether each cable's jacket bears the places that it runs through.

    Because: sun cracks an indoor jacket within a few summers, and water stands in every buried duct.
    Compares: the cable's rating >= the greatest exposure of its ways and of the rooms at its ends, of indoor, outdoor, buried.
    Skips: nothing
    Cannot tell: never; a piece without a way is reported by itself.
    Remedy: the same cable with an outdoor or a buried rating.
    """
    fine = 0
    # Many pieces lie in the same ways between the same rooms.
    known: dict[tuple[tuple[str, ...], str, str], tuple[int, tuple[str, ...]]] = {}
    for piece in build.pieces.values():
        form = build.library[piece.part].cable
        if form is None or form.rating not in _EXPOSURES:
            continue
        near, far = (build.devices[build.jacks[jack].device].room for jack in piece.ends)
        found = known.get((piece.route, near, far))
        if found is None:
            found = known[piece.route, near, far] = _exposure(build, piece)
        need, places = found
        if _EXPOSURES.index(form.rating) >= need:
            fine += 1
            continue
        wanted = _EXPOSURES[need]
        better = _rated(build, piece.part, need)
        where = " and ".join(f"'{each}'" for each in places)
        yield cable_exposure.finding(
            f"'{piece.part}' of {_article(piece.kind)} is made for {form.rating} use, and {where} asks for {wanted}",
            piece.id,
            build.provenance.span(piece.link, "cable"),
            related=tuple(
                Label(build.provenance.span(each), f"{build.ways[each].kind}: {build.ways[each].exposure}")
                for each in piece.route
                if _EXPOSURES.index(build.ways[each].exposure) == need
            ),
            cures=(Cure(f"use '{better}'" if better else f"use one with a rating for {wanted} use"),),
        )
    yield FineMany(fine)


def _article(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeiou" else f"a {noun}"


def _exposure(build: Build, piece: Piece) -> tuple[int, tuple[str, ...]]:
    """The worst exposure on the piece's way, and the names of the ways or rooms that have it."""
    if piece.route:
        found = [(_EXPOSURES.index(build.ways[each].exposure), build.ways[each].name) for each in piece.route]
    else:
        found = []
    for jack in piece.ends:
        room = build.rooms.get(build.devices[build.jacks[jack].device].room)
        if room is not None and room.is_outdoors:
            found.append((1, room.name))
    worst = max((each for each, _ in found), default=0)
    return worst, tuple(dict.fromkeys(name for each, name in found if each == worst))


def _rated(build: Build, name: str, need: int) -> str:
    part = build.library[name]
    form = part.cable
    for other_name, other in sorted(build.library.items()):
        found = other.cable
        if found is None or form is None or other.kind != part.kind or found.rating not in _EXPOSURES:
            continue
        if (found.medium, found.category, found.conductor, _EXPOSURES.index(found.rating)) == (
            form.medium, form.category, "copper" if form.medium != "fibre" else form.conductor, need,
        ):  # fmt: skip
            return other_name
    return ""


class _Crossing(NamedTuple):
    """A copper piece between two earths: the names of both buildings, and at which of them a protector stands."""

    piece: Piece
    buildings: tuple[str, str]
    protected: tuple[bool, bool] | None


@rule("copper-between-earths", Level.ERROR, _SURGE)
def copper_between_earths(build: Build) -> Iterator[Outcome]:
    """Whether copper between separately earthed buildings is guarded against surges at both entries.

    Because: a near lightning strike lifts one building's earth by thousands of volts against the other's; the data line is the
        way between them, and people and devices at both ends are part of it.
    Compares: a surge protector in the channel on each side of the piece, each in the building whose entry it guards.
    Skips: copper within one earth; fibre.
    Cannot tell: a piece whose channel leads nowhere.
    Remedy: fibre without metal between the buildings; else a protector at both entries, bonded by a licensed electrician.
    """
    for each in _crossings(build):
        at = build.provenance.span(each.piece.link)
        near, far = each.buildings
        if each.protected is None:
            yield copper_between_earths.cannot_tell(each.piece.id, at, "its channel leads nowhere, so what guards it is not known")  # fmt: skip
            continue
        open_ = [name for name, guarded in zip(each.buildings, each.protected, strict=True) if not guarded]
        if not open_:
            yield Fine(each.piece.id)
            continue
        which = " or at ".join(f"'{name}'" for name in open_)
        yield copper_between_earths.finding(
            f"copper joins '{near}' and '{far}', whose earths differ, and no surge protector guards it at {which}",
            each.piece.id,
            at,
            related=_joining_ways(build, each.piece),
            measurement=Measurement("guarded entries", 2.0 - len(open_), "at least", 2, ""),
            cures=(
                Cure("use fibre without metal between the buildings, which carries no surge"),
                Cure(
                    f"add {len(open_)} surge protector{'s' if len(open_) > 1 else ''} at the entry of {' and '.join(open_)};"
                    " bonding is a licensed electrician's work, to local codes"
                ),
            ),
        )  # fmt: skip


@rule("copper-joins-earths", Level.NOTE, _EARTHS)
def copper_joins_earths(build: Build) -> Iterator[Outcome]:
    """A caution for copper that joins two earths, also where it is guarded.

    Because: protectors lessen surges, and stop no direct strike. Between two earths a voltage may stand at any time.
    Compares: nothing; each copper piece between differing earths is told once. Within one earth all is fine.
    Skips: fibre.
    Cannot tell: never
    Remedy: fibre without metal. Keep away from the line while there is thunder; earthing is licensed work, to local codes.
    """
    crossing = {each.piece.id: each for each in _crossings(build)}
    for piece in build.pieces.values():
        if not any(build.ways[way].joins_buildings for way in piece.route):
            continue
        found = crossing.get(piece.id)
        if found is None:
            yield Fine(piece.id)
            continue
        near, far = found.buildings
        yield copper_joins_earths.finding(
            f"copper between the earths of '{near}' and '{far}': danger from lightning and from voltage between earths, "
            "and a licensed electrician must see to its earthing, to local codes",
            piece.id,
            build.provenance.span(piece.link),
            related=_joining_ways(build, piece),
            cures=(Cure("use fibre without metal here; it carries neither surge nor voltage"),),
        )


def _joining_ways(build: Build, piece: Piece) -> tuple[Label, ...]:
    return tuple(
        Label(build.provenance.span(way), f"'{build.ways[way].name}' joins two buildings{_long(build, way)}")
        for way in piece.route
        if build.ways[way].joins_buildings
    )


def _long(build: Build, way: str) -> str:
    length = build.ways[way].length
    return f", {number(length.high)} m" if isinstance(length, Fact) else ""


def _crossings(build: Build) -> Iterator[_Crossing]:
    channel_of: dict[str, Channel] | None = None
    for piece in build.pieces.values():
        form = build.library[piece.part].cable
        if form is None or form.medium not in ("copper", "twinax"):
            continue
        if not any(_earths_differ(build, way) for way in piece.route):
            continue
        if channel_of is None:
            channel_of = {each: channel for channel in build.channels.values() for each in channel.pieces}
        yield _crossing(build, piece, channel_of.get(piece.id))


def _earths_differ(build: Build, way_id: str) -> bool:
    way = build.ways[way_id]
    if not way.joins_buildings:
        return False
    near, far = (build.buildings[build.rooms[room].building].earth for room in way.ends)
    return near != far


def _crossing(build: Build, piece: Piece, channel: Channel | None) -> _Crossing:
    if channel is None:
        near, far = (_building(build, build.jacks[jack].device) for jack in piece.ends)
        return _Crossing(piece, (build.buildings[near].name, build.buildings[far].name), None)
    index = channel.pieces.index(piece.id)
    ends = [build.jacks[jack].device for jack in channel.ends]
    before = channel.through[:index]
    after = channel.through[index:]
    near, far = _building(build, (ends[0], *before)[-1]), _building(build, (*after, ends[1])[0])
    names = build.buildings[near].name, build.buildings[far].name
    return _Crossing(piece, names, (_guarded(build, before, near), _guarded(build, after, far)))


def _building(build: Build, device: str) -> str:
    return build.rooms[build.devices[device].room].building


def _guarded(build: Build, devices: tuple[str, ...], building: str) -> bool:
    """Whether one of them is a protector at this building's earth."""
    earth = build.buildings[building].earth
    return any(
        build.devices[each].part.kind == "surge-protector" and _earth(build, each) == earth
        for each in devices
    )


def _earth(build: Build, device: str) -> str:
    """The earth where a device stands, or "" where the plan doesn't say its room."""
    room = build.rooms.get(build.devices[device].room)
    return "" if room is None else build.buildings[room.building].earth


RULES: tuple[Rule, ...] = (conductor_material, cable_exposure, copper_between_earths, copper_joins_earths)
