"""The rule on the air that things work in: the coldest and the warmest day of their room, against what their parts bear.

Takes a build; yields a count of what is fine, and outcomes for the rest. Parts and rooms repeat: each pair is judged once.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.places import Room
from firstfix.finding.model import Basis, Cure, Level, Measurement, Term
from firstfix.graphs.cabinet_air import cabinet_airs, room_warmth
from firstfix.graphs.consumption import LIVE_KINDS
from firstfix.parts.facts import AUTHOR, Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_least, at_most
from firstfix.rules.rule import FineMany, Outcome, Rule, rule
from firstfix.rules.typical import rests_on
from firstfix.standards.thermal import room_air
from firstfix.units import celsius

_AIR = Basis("common practice, no source", "the range is the data sheet's; rooms that say no ambient by kind")


class _Trouble(NamedTuple):
    """`side`: cold or warm. `figure` of the room and `limit` of the part [°C]; `level` None where only a fact is missing."""

    side: str
    figure: float
    limit: Fact | Unknown
    level: Level | None


@rule("ambient-range", Level.ERROR, _AIR)
def ambient_range(build: Build) -> Iterator[Outcome]:
    """Whether each thing with power bears the air of its room, on the coldest and on the warmest day.

    Because: a switch made for an office stands in a loft at 50 °C in July, and does not start in a frosty shed in January.
    Compares: the coldest its part bears <= the room's `ambient` <= the warmest its part bears [°C]. A room that does not say it is
        taken for 10 to 18 °C on its coldest and 22 to 30 °C on its warmest day, outdoors for -20 to 0 °C and 25 to 40 °C, out of the
        sun. Too cold or warm even in the mildest of that is an error. In a cabinet only the cold side counts here, with what
        the cabinet's own heat adds at the best; cabinet-heat has the warm side.
    Skips: passive things; strips that say no range; parts without a range in rooms indoors that do not say their ambient, or
        say one between 10 and 30 °C.
    Cannot tell: a part that says no range outdoors, or where the room's ambient goes beyond that; a room's ambient, where the part
        bears the mildest that it may be and not the worst.
    Remedy: another room, a part made for more, heating or shade.
    """
    # Rooms indoors that say nothing are all alike.
    alike = {
        room.id for room in build.rooms.values() if not room.is_outdoors and isinstance(room.ambient, Unknown)
    }
    known: dict[tuple[str, str], tuple[_Trouble, ...] | None] = {}
    fine = 0
    for device in build.devices.values():
        room = device.room
        key = (device.part.name, device.cabinet or ("alike" if room in alike else room))
        if key not in known:
            known[key] = _judge(build, device.part, room, device.cabinet)
        troubles = known[key]
        if troubles is None:
            continue
        if not troubles:
            fine += 1
        for each in troubles:
            yield _outcome(build, device, each)
    yield FineMany(fine)


def _judge(build: Build, part: Part, room_id: str, cabinet: str) -> tuple[_Trouble, ...] | None:
    """None where there is nothing to judge."""
    room = build.rooms.get(room_id)
    if room is None or part.kind not in LIVE_KINDS:
        return None
    if part.kind == "power-strip" and isinstance(part.exposure.coldest, Unknown):
        return None
    coldest, warmest = part.exposure.coldest, part.exposure.warmest
    if _is_usual(room) and isinstance(coldest, Unknown) and isinstance(warmest, Unknown):
        return None
    sides = [_cold(build, coldest, room_id, cabinet)]
    if not cabinet:
        sides.append(_warm(build, warmest, room_id))
    return tuple(each for each in sides if each is not None)


def _is_usual(room: Room) -> bool:
    """Air as in any lived-in room, which a thing of which nothing is known was bought for."""
    if room.is_outdoors or isinstance(room.ambient, Unknown):
        return not room.is_outdoors
    usual = room_air()["indoors"]
    return at_least(room.ambient.low, usual.coldest_c) and at_most(room.ambient.high, usual.warmest_c)


def _warm(build: Build, bears: Fact | Unknown, room_id: str) -> _Trouble | None:
    air, _ = room_warmth(build, room_id)
    if isinstance(bears, Unknown):
        return _Trouble("warm", air.most, bears, None)
    if not at_most(air.least, bears.high):
        return _Trouble("warm", air.least, bears, Level.ERROR)
    return None if at_most(air.most, bears.low) else _Trouble("warm", air.most, bears, _open_level(build, room_id))  # fmt: skip


def _cold(build: Build, bears: Fact | Unknown, room_id: str, cabinet: str) -> _Trouble | None:
    room = build.rooms[room_id]
    usual = room_air()["outdoors" if room.is_outdoors else "indoors"]
    mild, worst = (
        (room.ambient.low, room.ambient.low)
        if isinstance(room.ambient, Fact)
        else (usual.mild_cold_c, usual.coldest_c)
    )
    if isinstance(bears, Unknown):
        return _Trouble("cold", worst, bears, None)
    own = cabinet_airs(build)[cabinet].rise.most if cabinet in build.cabinets else 0.0
    if not at_least(mild + own, bears.low):
        return _Trouble("cold", mild, bears, Level.ERROR)
    return None if at_least(worst, bears.high) else _Trouble("cold", worst, bears, _open_level(build, room_id))  # fmt: skip


def _open_level(build: Build, room_id: str) -> Level | None:
    """Of a room that may be too cold or warm: where its author says so, it will be."""
    return Level.WARNING if isinstance(build.rooms[room_id].ambient, Fact) else None


def _outcome(build: Build, device: Device, trouble: _Trouble) -> Outcome:
    at = build.provenance.span(device.id, "part") or build.provenance.span(device.id)
    room = build.rooms[device.room]
    word = "coldest" if trouble.side == "cold" else "warmest"
    if isinstance(trouble.limit, Unknown):
        return ambient_range.cannot_tell(
            device.id, at, f"the {word} air that '{device.part.name}' bears (`exposure: {{{word}: …}}`)"
        )
    if trouble.level is None:
        return ambient_range.cannot_tell(device.id, at, f"how {trouble.side} '{room.name}' gets (`ambient:`)")
    limit = trouble.limit.low if trouble.side == "warm" else trouble.limit.high
    relation = "at most" if trouble.side == "warm" else "at least"
    kind = "outdoors" if room.is_outdoors else "indoors"
    source = AUTHOR if isinstance(room.ambient, Fact) else f"not said; the mildest that is usual {kind}"
    return ambient_range.finding(
        f"'{device.name}' bears air of {celsius(limit)} at the {word}, and '{room.name}' gets {celsius(trouble.figure)} {trouble.side}",
        device.id,
        at,
        related=rests_on(trouble.limit),
        measurement=Measurement(
            f"air in '{room.name}' on its {word} day", trouble.figure, relation, limit, "°C",
            (Term(f"'{room.name}' on its {word} day", trouble.figure, source),),
            f"what '{device.part.name}' bears, {trouble.limit.basis}",
        ),
        cures=(Cure("stand it in another room, or take a part that bears it"),),
        level=trouble.level,
    )  # fmt: skip


RULES: tuple[Rule, ...] = (ambient_range,)
