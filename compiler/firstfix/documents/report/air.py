"""The air in cabinets and what UPSs carry, in words: a row for each, as graphs has worked it out."""

import math
from collections.abc import Callable
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.documents.stubs.figures import NOTHING
from firstfix.graphs.cabinet_air import CabinetAir, cabinet_airs
from firstfix.graphs.consumption import Spread
from firstfix.units import celsius, number, watts


class AirRow(NamedTuple):
    """Heat, rise, room and inside run from the least to the most. `things`: what gives off heat, a phrase each.

    `later`: inside, once what units are kept free for is there. `doubts`: facts that are missing.
    """

    cabinet: str
    cooling: str
    heat: str
    rise: str
    room: str
    inside: str
    limit: str
    later: str
    things: tuple[str, ...]
    doubts: tuple[str, ...]


def air_rows(build: Build) -> tuple[AirRow, ...]:
    """In order of the cabinets' ids; nothing for a plan without one."""
    return tuple(_row(air) for air in cabinet_airs(build).values())


def spread_words(spread: Spread, write: Callable[[float], str]) -> str:
    """`28 W – 59 W – 101 W`, or one figure where all are the same; a most that nothing bounds can't be told."""
    shown = [write(each) if math.isfinite(each) else "cannot tell" for each in spread]
    return shown[0] if len(set(shown)) == 1 else f" {NOTHING} ".join(shown)


def _kelvin(value: float) -> str:
    return f"{number(value, 1)} K"


def _watts(value: float) -> str:
    return watts(round(value, 1))


def _row(air: CabinetAir) -> AirRow:
    heaters = sorted(air.things, key=lambda each: (-each.heat.usual, each.device))
    return AirRow(
        ids.path(air.cabinet),
        air.cooling or "not said",
        spread_words(air.heat, _watts),
        spread_words(air.rise, _kelvin),
        spread_words(air.room, celsius) + ("" if air.room_is_said else " (not said)"),
        spread_words(air.inside, celsius),
        NOTHING if air.limit is None else f"{celsius(air.limit)} ({air.weakest})",
        f"{spread_words(air.inside_later, celsius)} (+ {_watts(air.heat_later)})" if air.kept else NOTHING,
        tuple(f"{each.name} {spread_words(each.heat, _watts)}" for each in heaters if each.heat.most > 0),
        tuple(each for each in (air.no_rise, *air.missing) if each),
    )
