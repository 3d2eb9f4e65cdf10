"""Weights that decide how a thing is handled, and what a cabinet's fixing must hold. Kilograms."""

from collections.abc import Iterable
from typing import NamedTuple

from firstfix.parts.facts import Fact, Figure
from firstfix.parts.part import Part

# From this weight on, a thing goes in while the cabinet is still empty. Common practice, no source.
_HEAVY_KG = 5.0
# From this weight on, two people. HSE INDG143, lifting filter for women, elbow height, close in (from
# memory).
_TWO_PEOPLE_KG = 16.0
# From this weight on, two people lift a thing to the height of the shoulders, at arm's length. HSE INDG143, lifting filter for
# women, shoulder height, arms out (from memory).
_TWO_PEOPLE_HIGH_KG = 7.0
# Heavy or awkward by their kind, whatever their data sheets say.
_HEAVY_KINDS = ("ups", "storage")


class Load(NamedTuple):
    """The sum of the known weights, and the names of what has no known weight."""

    known: float
    unknown: tuple[str, ...]


# Kinds that sit on a ceiling or high on a wall, so that work at them is work on a ladder. Common practice, no source.
HIGH_UP_KINDS = ("access-point", "camera")


def is_heavy(part: Part) -> bool:
    return part.kind in _HEAVY_KINDS or _at_least(part.weight, _HEAVY_KG)


def needs_two_people(part: Part) -> bool:
    """A cabinet of unknown weight is taken for a heavy one."""
    if part.kind == "cabinet" and not isinstance(part.weight, Fact):
        return True
    return _at_least(part.weight, _TWO_PEOPLE_KG)


def hung_by_two(part: Part) -> bool:
    """Of a cabinet: what hangs on a wall is held up there while its screws go in."""
    is_on_wall = part.cabinet is None or part.cabinet.mounting not in ("floor", "desk")
    return needs_two_people(part) or (is_on_wall and _at_least(part.weight, _TWO_PEOPLE_HIGH_KG))


def load(parts: Iterable[tuple[str, Part]]) -> Load:
    """Of named things together, each at its heaviest."""
    known = 0.0
    unknown = []
    for name, part in parts:
        if isinstance(part.weight, Fact):
            known += part.weight.high
        else:
            unknown.append(name)
    return Load(round(known, 6), tuple(unknown))


def _at_least(weight: Figure, limit: float) -> bool:
    return isinstance(weight, Fact) and weight.high >= limit
