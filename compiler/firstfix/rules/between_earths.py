"""Rules on copper that joins buildings with separate earths: what guards it, and the caution that it needs in any case.

Takes a build; yields outcomes for each copper piece in a way between buildings.
"""

from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple

from firstfix.build.cabling import Channel, Piece
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import Part
from firstfix.rules.channel_facts import channel_facts
from firstfix.rules.other_media import fibre_offer
from firstfix.rules.prices import Wanted, cheapest, cost
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.units import number

_SURGE = Basis(
    "IEC 61643-21 and IEC 62305-4", "surge protection of data lines at both building entries; from memory"
)
_EARTHS = Basis("EN 50174-3 and EN 50310", "lines between separately earthed buildings; from memory")


class Guard(StrEnum):
    """What stands at one entry: a protector, one that faces the wrong way, or none."""

    GUARDED = "guarded"
    REVERSED = "reversed"
    NONE = "none"


class _Crossing(NamedTuple):
    """A copper piece between two earths: the names of both buildings, its channel, and what guards it at each of them."""

    piece: Piece
    buildings: tuple[str, str]
    channel: Channel | None
    guards: tuple[Guard, Guard]


@rule("copper-between-earths", Level.ERROR, _SURGE)
def copper_between_earths(build: Build) -> Iterator[Outcome]:
    """Whether copper between separately earthed buildings is guarded against surges at both entries.

    Because: a near lightning strike lifts one building's earth by thousands of volts against the other's; the data line is the
        way between them, and people and devices at both ends are part of it.
    Compares: a surge protector in the channel on each side of the piece, each in the building whose entry it guards, its line
        side towards the piece. One that stands the wrong way round counts as none.
    Skips: copper within one earth; fibre.
    Cannot tell: a piece whose channel leads nowhere.
    Remedy: fibre without metal between the buildings; else a protector at both entries, bonded by a licensed electrician.
    """
    for each in _crossings(build):
        at = build.provenance.span(each.piece.link)
        if each.channel is None:
            yield copper_between_earths.cannot_tell(each.piece.id, at, "its channel leads nowhere, so what guards it is not known")  # fmt: skip
        elif all(guard is Guard.GUARDED for guard in each.guards):
            yield Fine(each.piece.id)
        else:
            yield _unguarded(build, each, each.channel)


def _unguarded(build: Build, crossing: _Crossing, channel: Channel) -> Outcome:
    near, far = crossing.buildings
    sides = tuple(zip(crossing.buildings, crossing.guards, strict=True))
    open_ = [name for name, guard in sides if guard is not Guard.GUARDED]
    turned = [name for name, guard in sides if guard is Guard.REVERSED]
    which = " or at ".join(f"'{name}'" for name in open_)
    turned_at = " and at ".join(f"'{name}'" for name in turned)
    backwards = f"; what stands at {turned_at} stands the wrong way round" if turned else ""
    return copper_between_earths.finding(
        f"copper joins '{near}' and '{far}', whose earths differ, and no surge protector guards it at {which}{backwards}",
        crossing.piece.id,
        build.provenance.span(crossing.piece.link),
        related=_joining_ways(build, crossing.piece),
        measurement=Measurement("guarded entries", 2.0 - len(open_), "at least", 2, "", _entries(sides)),
        cures=_cures(build, channel, open_, turned),
    )


def _entries(sides: tuple[tuple[str, Guard], ...]) -> tuple[Term, ...]:
    """1 for each entry that is guarded."""
    whence = {
        Guard.GUARDED: "a surge protector stands there, its line side towards the cable",
        Guard.REVERSED: "what stands there is the wrong way round, and counts as none",
        Guard.NONE: "no surge protector stands there in the channel",
    }
    return tuple(
        Term(f"entry of '{name}'", float(guard is Guard.GUARDED), whence[guard]) for name, guard in sides
    )


def _cures(build: Build, channel: Channel, open_: list[str], turned: list[str]) -> tuple[Cure, ...]:
    facts = channel_facts(build)
    wanted, pieces = facts.rate_at_most(channel), facts.pieces(channel)
    offer = None if isinstance(wanted, Unknown) else fibre_offer(build, channel, pieces, wanted)
    found = [Cure("use fibre without metal between the buildings, which carries no surge" + (f": {offer}" if offer else ""))]  # fmt: skip
    bare = [name for name in open_ if name not in turned]
    if bare:
        part = cheapest(build, _protectors)
        price = f" ({cost(build, [Wanted(part.name, len(bare))])})" if part is not None else ""
        plural = "s" if len(bare) > 1 else ""
        found.append(
            Cure(
                f"add {len(bare)} surge protector{plural}{price} at the entry of {' and '.join(bare)};"
                " bonding is a licensed electrician's work, to local codes"
            )
        )
    if turned:
        what = " and ".join(turned)
        found.insert(0, Cure(f"turn the protector at {what} round: its line side belongs to the cable between the buildings"))  # fmt: skip
    return tuple(found)


def _protectors(build: Build) -> Iterator[Part]:
    return parts_of_kind(build.library, "surge-protector")


@rule("copper-joins-earths", Level.WARNING, _EARTHS)
def copper_joins_earths(build: Build) -> Iterator[Outcome]:
    """A caution for copper that joins two earths, also where it is guarded.

    Because: protectors lessen surges, and stop no direct strike. Between two earths a voltage may stand at any time.
    Compares: nothing; each copper piece between differing earths is told once. Within one earth all is fine.
    Skips: fibre.
    Cannot tell: never
    Remedy: fibre without metal. Keep away from the line while there is thunder; earthing is licensed work, to local codes.
        Where protectors and bonding are settled with an electrician, an entry under `exceptions:` says so, and keeps it in sight.
    """
    crossing = {each.piece.id: each for each in _crossings(build)}
    joining = {way.id for way in build.ways.values() if way.joins_buildings}
    for piece in build.pieces.values() if joining else ():
        if joining.isdisjoint(piece.route):
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
    between_earths = {way for way in build.ways if _earths_differ(build, way)}
    for piece in build.pieces.values() if between_earths else ():
        form = build.library[piece.part].cable
        if form is None or form.medium not in ("copper", "twinax"):
            continue
        if between_earths.isdisjoint(piece.route):
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
        names = build.buildings[near].name, build.buildings[far].name
        return _Crossing(piece, names, None, (Guard.NONE, Guard.NONE))
    index = channel.pieces.index(piece.id)
    ends = [build.jacks[jack].device for jack in channel.ends]
    before, after = channel.through[:index], channel.through[index:]
    near, far = _building(build, (ends[0], *before)[-1]), _building(build, (*after, ends[1])[0])
    names = build.buildings[near].name, build.buildings[far].name
    # Each thing in line faces the crossing with the piece that follows it before it, and with the one ahead of it behind it.
    facing_before = tuple(zip(before, channel.pieces[1:], strict=False))
    facing_after = tuple(zip(after, channel.pieces[index:], strict=False))
    return _Crossing(
        piece, names, channel, (_guard(build, facing_before, near), _guard(build, facing_after, far))
    )


def _building(build: Build, device: str) -> str:
    return build.rooms[build.devices[device].room].building


def _guard(build: Build, facing: tuple[tuple[str, str], ...], building: str) -> Guard:
    """What the things in line at this building's earth are, each with the piece by which it faces the crossing."""
    earth = build.buildings[building].earth
    found = Guard.NONE
    for device, piece in facing:
        if build.devices[device].part.kind != "surge-protector" or _earth(build, device) != earth:
            continue
        if _faces_line(build, device, piece):
            return Guard.GUARDED
        found = Guard.REVERSED
    return found


def _faces_line(build: Build, device: str, piece: str) -> bool:
    """Whether the piece is at the protector's line side: the jack that its part names so, else the near jack of its pass."""
    part = build.devices[device].part
    line = (part.surge.line if part.surge is not None else "") or next(
        (each.near for each in part.passes), ""
    )
    jacks = (build.jacks[jack] for jack in build.pieces[piece].ends)
    return not line or any(jack.device == device and jack.name == line for jack in jacks)


def _earth(build: Build, device: str) -> str:
    """The earth where a device stands, or "" where the plan doesn't say its room."""
    room = build.rooms.get(build.devices[device].room)
    return "" if room is None else build.buildings[room.building].earth


RULES: tuple[Rule, ...] = (copper_between_earths, copper_joins_earths)
