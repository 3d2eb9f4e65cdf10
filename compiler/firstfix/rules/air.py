"""The rule on the air in cabinets: how warm it gets, against the warmest that any of its things bears.

Takes a build, whose heat and rise come from graphs.cabinet_air with their spread; yields one outcome for each cabinet.
"""

import math
from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.graphs.cabinet_air import (
    CLOSED,
    FAN,
    MESHED,
    OPEN,
    CabinetAir,
    Warm,
    air_needed,
    cabinet_airs,
)
from firstfix.parts.facts import AUTHOR, TYPICAL, Fact, Unknown
from firstfix.physics.range import at_most
from firstfix.rules.ends import End, end_over
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.typical import TYPICAL_NOTE
from firstfix.standards.thermal import room_air
from firstfix.units import air_flow, celsius, number, watts

_SHED = Basis("IEC TR 60890 (2014)", "Table III for the faces; 5.5 W/m²K of painted steel is common practice, no source")  # fmt: skip
# How many of the things that give off heat are named.
_MOST_NAMED = 6
_HOW_SHED = {
    CLOSED: "closed: by its faces",
    MESHED: "meshed door: by its faces and the door",
    FAN: "by its faces and the fan",
    OPEN: "open: as warm as its room",
}
_GIVEN_OFF = ("at the least", "as usual", "at the most")
_WORDS = (
    "gets {} inside even when its things give off the least",
    "gets {} inside when its things give off what they usually do",
    "gets {} inside when all its things give off their most",
)


@rule("cabinet-heat", Level.ERROR, _SHED)
def cabinet_heat(build: Build) -> Iterator[Outcome]:
    """How warm the air in a cabinet gets on the warmest day, and whether all that is in it bears that.

    Because: a closed cabinet in a warm room cooks what is in it: switches restart in the afternoon, disks die in their second summer.
    Compares: the room on its warmest day and the rise by the heat that stays inside [°C] <= the least of the warmest that its
        things bear. Heat is what they draw themselves, with what is lost in making PoE; what PoE carries out of the cabinet is not
        counted, a board that it feeds within is. A closed cabinet sheds P = k A dT by its faces (IEC TR 60890), a meshed door adds
        air that warmth drives (BS 5925, 40 to 80 % of it holes), a fan its air (half of its free flow at the worst), thinner at an
        altitude that the plan says. Reckoned at the least, as usual and at the most: over the limit at the least is an error,
        else a warning; only over with what units are kept free for is a note. `cooling:` is closed, meshed or a fan; else it
        follows from the front of the cabinet's part. A room whose ambient is not said is taken for 22 to 30 °C on the warmest day,
        usually 25 °C, and outdoors for 25 to 40 °C. Rough: no sun, no wind, its air mixed; near its top it is warmer.
    Skips: cabinets without anything that gives off heat; what strips bear that do not say it.
    Cannot tell: what a thing draws or bears, the cabinet's outer size or cooling, its room's ambient, where that matters.
    Remedy: a meshed door, a fan, a larger cabinet, a cooler place, less in it.
    """
    for air in cabinet_airs(build).values():
        if air.things:
            yield _judge(build, air)


def _judge(build: Build, air: CabinetAir) -> Outcome:
    unsaid = [
        f"how warm '{each.name}' may get (`exposure: {{warmest: …}}` of its part)"
        for each in air.things
        if isinstance(each.bears, Unknown) and not _is_strip(build, each)
    ]
    if air.limit is None:
        return _cannot_tell(build, air, unsaid) if unsaid else Fine(air.cabinet)
    end = end_over(air.inside, air.limit)
    if end in (End.LEAST, End.USUAL):
        return _finding(build, air, air.limit, end)
    doubts = _doubts(build, air, air.limit)
    if end is End.MOST:
        return _cannot_tell(build, air, doubts) if doubts else _finding(build, air, air.limit, end)
    if unsaid:
        return _cannot_tell(build, air, unsaid)
    later = end_over(air.inside_later, air.limit) if air.kept else None
    if later is None or (later is End.MOST and not air.room_is_said):
        return Fine(air.cabinet)
    return _later(build, air, air.limit, later)


def _is_strip(build: Build, thing: Warm) -> bool:
    """Data sheets of plain strips name no range, and what is plugged in suffers first."""
    return build.devices[thing.device].part.kind == "power-strip"


def _doubts(build: Build, air: CabinetAir, limit: float) -> list[str]:
    """Facts that are missing, with which the most might keep the limit."""
    found = [air.no_rise, *air.missing]
    in_usual_room = air.inside.most - air.room.most + air.room.usual
    if not air.room_is_said and (math.isinf(in_usual_room) or at_most(in_usual_room, limit)):
        room = build.rooms.get(build.cabinets[air.cabinet].room)
        found.append(f"how warm '{room.name}' gets (`ambient:`)" if room is not None else "the room")
    return [each for each in found if each]


def _cannot_tell(build: Build, air: CabinetAir, missing: list[str]) -> Outcome:
    return cabinet_heat.cannot_tell(air.cabinet, build.provenance.span(air.cabinet), *missing)


def _finding(build: Build, air: CabinetAir, limit: float, end: End) -> Outcome:
    name = build.cabinets[air.cabinet].name
    inside = air.inside[end]
    return cabinet_heat.finding(
        f"'{name}' {_WORDS[end].format(celsius(inside))}, and '{air.weakest}' bears {celsius(limit)}",
        air.cabinet,
        build.provenance.span(air.cabinet),
        related=(*_heaters(build, air, end), *_basis_notes(air)),
        measurement=Measurement(
            f"air in '{name}'", inside, "at most", limit, "°C",
            (_room_term(build, air, end), Term(f"rise by {watts(air.heat[end])} {_GIVEN_OFF[end]}", air.rise[end], _HOW_SHED[air.cooling])),
            _limit_source(air),
        ),
        cures=_cures(build, air, limit, air.heat[end], air.room[end]),
        level=Level.ERROR if end is End.LEAST else Level.WARNING,
    )  # fmt: skip


def _later(build: Build, air: CabinetAir, limit: float, end: End) -> Outcome:
    """Fine today; too warm with what units are kept free for."""
    name = build.cabinets[air.cabinet].name
    inside, kept = air.inside_later[end], " and ".join(f"'{each.what}'" for each in air.kept)
    heat = air.heat[end] + air.heat_later
    today = air.rise[end]
    return cabinet_heat.finding(
        f"'{name}' {_WORDS[end].format(celsius(inside))} once {kept} is in the units kept free for it,"
        f" and '{air.weakest}' bears {celsius(limit)}",
        air.cabinet,
        build.provenance.span(air.cabinet),
        related=(
            *(Label(None, f"'{each.what}', which units are kept free for, will give off {watts(each.heat)}") for each in air.kept),
            *_heaters(build, air, end), *_basis_notes(air),
        ),
        measurement=Measurement(
            f"air in '{name}' with what is kept free for", inside, "at most", limit, "°C",
            (
                _room_term(build, air, end),
                Term(f"rise by {watts(air.heat[end])} {_GIVEN_OFF[end]}", today, _HOW_SHED[air.cooling]),
                Term(f"with what is kept free for, {watts(air.heat_later)}", inside - air.room[end] - today, AUTHOR),
            ),
            _limit_source(air),
        ),
        cures=_cures(build, air, limit, heat, air.room[end]),
        level=Level.NOTE,
    )  # fmt: skip


def _room_term(build: Build, air: CabinetAir, end: End) -> Term:
    room = build.rooms.get(build.cabinets[air.cabinet].room)
    source = AUTHOR if air.room_is_said else f"not said; {room_air()['indoors'].basis}"
    return Term(f"'{room.name if room else ''}' on its warmest day", air.room[end], source)


def _limit_source(air: CabinetAir) -> str:
    bases = (
        each.bears.basis for each in air.things if each.name == air.weakest and isinstance(each.bears, Fact)
    )
    return f"the warmest that '{air.weakest}' bears, {next(bases, '')}"


def _heaters(build: Build, air: CabinetAir, end: End) -> Iterator[Label]:
    warmest = sorted(air.things, key=lambda each: (-each.heat[end], each.device))
    shown = [each for each in warmest if each.heat[end] > 0]
    for each in shown[:_MOST_NAMED]:
        yield Label(build.provenance.span(each.device, "part"), f"gives off {watts(each.heat[end])}")
    if len(shown) > _MOST_NAMED:
        rest = sum(each.heat[end] for each in shown[_MOST_NAMED:])
        yield Label(None, f"{len(shown) - _MOST_NAMED} more give off {watts(rest)}")


def _basis_notes(air: CabinetAir) -> tuple[Label, ...]:
    return (TYPICAL_NOTE,) if any(each.basis == TYPICAL for each in air.things) else ()


def _cures(build: Build, air: CabinetAir, limit: float, heat: float, room: float) -> tuple[Cure, ...]:
    cabinet = build.cabinets[air.cabinet]
    if at_most(limit, room):
        return (Cure(f"stand it in a cooler room: {celsius(room)} is too warm without any heat of its own"),)
    needed = air_needed(build, cabinet, heat, limit - room)
    cures = []
    if air.cooling == CLOSED:
        cures.append(Cure("take a cabinet with a meshed door, 'cooling: meshed'"))
    if needed is not None:
        cures.append(Cure(
            f"a fan that moves {air_flow(needed)} once built in carries {watts(heat)} away with a rise of {number(limit - room, 1)} K"
        ))  # fmt: skip
    cures.append(Cure("put what gives off most elsewhere, take a larger cabinet, or a cooler room"))
    return tuple(cures)


RULES: tuple[Rule, ...] = (cabinet_heat,)
