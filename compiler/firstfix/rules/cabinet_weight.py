"""Rules on weight: what a cabinet carries, and whether one that stands on a floor stands safely.

Cables and cords are not weighed: their parts state no weight.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Label, Level, Measurement, Term
from firstfix.graphs.cabinet_view import carried_by, mounted_in, part_of
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.cabinet import mass_centre, opening_height_mm, tip_angle_deg
from firstfix.physics.range import at_least, at_most
from firstfix.rules.rule import Fine, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.rules.wording import listed
from firstfix.standards.cabinet import cabinet_stability
from firstfix.units import kilograms, millimetres, number

_TIPS = Basis("IEC 62368-1 (2018)", "8.6 stability of equipment; from memory")


class Load(NamedTuple):
    """One thing in a cabinet: its part, and in which units it stands."""

    name: str
    part: Part
    mount: Mount


def loads(build: Build, cabinet: Cabinet) -> list[Load]:
    """All that the cabinet carries, and what its shelves do."""
    found: list[Load] = []
    for mount in mounted_in(build)[cabinet.id]:
        if (part := part_of(build, mount)) is None:
            continue
        name = (
            build.devices[mount.item].name
            if mount.item in build.devices
            else f"{part.name} in unit {mount.low}"
        )
        found.append(Load(name, part, mount))
        found += (Load(each.name, each.part, mount) for each in carried_by(build).get(mount.item, ()))
    return found


def weighed(things: list[Load]) -> tuple[tuple[Term, ...], list[str]]:
    """The terms of what is known, heaviest of its range [kg], and the names of things whose weight is not."""
    terms = tuple(
        Term(each.name, each.part.weight.high, each.part.weight.basis)
        for each in things
        if isinstance(each.part.weight, Fact)
    )
    return terms, [each.name for each in things if isinstance(each.part.weight, Unknown)]


def not_weighed(names: list[str]) -> tuple[Label, ...]:
    return (Label(None, f"not known, and not counted: the weight of {listed(names)}"),) if names else ()


@rule("cabinet-load", Level.ERROR, COMMON_PRACTICE)
def cabinet_load(build: Build) -> Iterator[Outcome]:
    """What a cabinet carries is no heavier than it is made for.

    Because: a cabinet that is too full comes off its wall, onto whoever stands below.
    Compares: the weights of all that is mounted in it and of what its shelves carry, without cables [kg] <= its `load`.
    Skips: nothing. Units kept free weigh nothing yet. Whether the wall and its fixings bear the load and the cabinet's own weight
        is for their own papers.
    Cannot tell: a cabinet without a load; a thing whose weight is not known, unless the others are too heavy already.
    Remedy: heavy things onto the floor, a second cabinet, or a stronger one.
    """
    for cabinet in build.cabinets.values():
        yield _load(build, cabinet)


def _load(build: Build, cabinet: Cabinet) -> Outcome:
    each, at, form = cabinet_load, build.provenance.span(cabinet.id), cabinet.part.cabinet
    terms, unknown = weighed(loads(build, cabinet))
    if form is None or isinstance(form.load, Unknown):
        return each.cannot_tell(
            cabinet.id, at, f"what the cabinet's part '{cabinet.part.name}' carries, its `cabinet.load`"
        )
    total = sum(term.value for term in terms)
    if at_most(total, form.load.low):
        if unknown:
            return each.cannot_tell(cabinet.id, at, f"the weight of {listed(unknown)}")
        return Fine(cabinet.id)
    measurement = Measurement("weight carried", total, "at most", form.load.low, "kg", terms, form.load.basis)
    message = f"'{cabinet.name}' carries {kilograms(total)}, and is made for {kilograms(form.load.low)}"
    return each.finding(message, cabinet.id, at, (*not_weighed(unknown), *rests_on(form.load)), measurement)


@rule("top-heavy", Level.WARNING, _TIPS)
def top_heavy(build: Build) -> Iterator[Outcome]:
    """A cabinet that stands on the floor can be tilted without falling, and carries the heavier things low.

    Because: a top-heavy cabinet falls when somebody leans on its open door or pulls a device out.
    Compares: the angle at which its common centre of gravity comes over the edge of its narrower side, its own weight taken at half its
        height and all in the middle of its floor [degrees] >= 10 (IEC 62368-1, 8.6, from memory). Common practice, no source, a note: what
        is heavier together than the empty cabinet has its centre no higher than half the cabinet's height.
    Skips: cabinets on walls and desks.
    Cannot tell: how it is mounted, its outer size, its weight, or the weight of something in it.
    Remedy: backups, storage and batteries into the lowest units; fix the cabinet to floor or wall before it is filled, with two people.
    """
    for cabinet in build.cabinets.values():
        form = cabinet.part.cabinet
        if form is None or form.mounting not in ("wall", "desk"):
            yield _stands(build, cabinet)


def _stands(build: Build, cabinet: Cabinet) -> Outcome:
    each, at, part = top_heavy, build.provenance.span(cabinet.id), cabinet.part
    things = loads(build, cabinet)
    unknown = weighed(things)[1]
    outside, own = part.outside, part.weight
    missing = (
        []
        if part.cabinet is not None and isinstance(part.cabinet.mounting, str)
        else [f"how '{part.name}' is mounted"]
    )
    if outside is None or any(isinstance(side, Unknown) for side in outside):
        missing.append(f"the outer size of '{part.name}'")
    if isinstance(own, Unknown):
        missing.append(f"the weight of '{part.name}'")
    if unknown:
        missing.append(f"the weight of {listed(unknown)}")
    if missing or outside is None or not isinstance(own, Fact) or not isinstance(outside.height, Fact):
        return each.cannot_tell(cabinet.id, at, *missing)
    sides = [side for side in (outside.width, outside.depth) if isinstance(side, Fact)]
    return _judge(build, cabinet, things, own, outside.height, min(sides))


def _judge(
    build: Build, cabinet: Cabinet, things: list[Load], own: Fact, height: Fact, base: Fact
) -> Outcome:
    each, at, tall = top_heavy, build.provenance.span(cabinet.id), height.high
    below = (tall - opening_height_mm(cabinet.units) / 1000) / 2
    lifted = tuple(
        (thing.name, thing.part.weight, below + _centre(thing.mount))
        for thing in things
        if isinstance(thing.part.weight, Fact)
    )
    masses = tuple((weight.high, at_height) for _, weight, at_height in lifted)
    centre = mass_centre(((own.low, tall / 2), *masses))
    angle, tip = tip_angle_deg(centre, base.low), cabinet_stability().tip_angle
    related = rests_on(own, height, base, *(weight for _, weight, _ in lifted))
    if not at_least(angle, tip.value):
        what = f"atan({millimetres(base.low / 2)} / {millimetres(centre)}), half its base over its centre of gravity"
        terms = (Term(what, angle, "derived"),)
        measurement = Measurement(
            "angle at which it falls", angle, "at least", tip.value, "°", terms, str(tip.basis)
        )
        message = (
            f"'{cabinet.name}' falls when it is tilted by {number(angle)}°: its centre of gravity is {millimetres(centre)} "
            f"above the floor on a base of {millimetres(base.low)}"
        )
        return each.finding(
            message, cabinet.id, at, (*related, *_summed(cabinet, own, tall, lifted)), measurement
        )
    carried = sum(mass for mass, _ in masses)
    if carried <= own.low or at_most(mass_centre(masses), tall / 2):
        return Fine(cabinet.id)
    shares = tuple(
        Term(
            f"{kilograms(weight.high)} of '{name}' of {kilograms(carried)}, {millimetres(at_height)} up",
            round(weight.high * at_height / carried * 1000, 2),
            weight.basis,
        )
        for name, weight, at_height in lifted
    )
    inside = sum(term.value for term in shares)
    source = f"half the height of '{cabinet.part.name}', {height.basis}"
    measurement = Measurement(
        "centre of what it carries", inside, "at most", tall * 500, "mm", shares, source
    )
    message = (
        f"what '{cabinet.name}' carries, {kilograms(carried)}, has its centre {number(inside, 1)} mm above the floor, "
        f"over half the cabinet's height"
    )
    return each.finding(
        message, cabinet.id, at, related, measurement, level=Level.NOTE, basis=COMMON_PRACTICE
    )


def _summed(
    cabinet: Cabinet, own: Fact, tall: float, lifted: tuple[tuple[str, Fact, float], ...]
) -> tuple[Label, ...]:
    """The centre of gravity, to be redone by hand."""
    parts = [f"{kilograms(own.low)} of '{cabinet.part.name}' at {millimetres(tall / 2)}"]
    parts += [
        f"{kilograms(weight.high)} of '{name}' at {millimetres(height)}" for name, weight, height in lifted
    ]
    return (Label(None, f"its centre of gravity, by weight: {', '.join(parts)}"),)


def _centre(mount: Mount) -> float:
    """Metres from the lowest unit's lower edge to the middle of its units."""
    return opening_height_mm(mount.low - 1 + (mount.high - mount.low + 1) / 2) / 1000
