"""Whether it fits: units wanted twice, units that do not exist, heights and depths."""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Mount, Occupancy
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.typical import rests_on
from firstfix.span import Span
from firstfix.units import millimetres

_RACK = Basis("IEC 60297-3-100 and EIA/ECA-310-E", "unit of height 44.45 mm")


def _part(build: Build, mount: Mount) -> Part | None:
    if mount.item in build.devices:
        return build.devices[mount.item].part
    return build.fittings[mount.item].part if mount.item in build.fittings else None


def _shown(build: Build, mount: Mount) -> str:
    if mount.is_kept_free:
        return f"what is kept free for '{mount.what}'"
    part = _part(build, mount)
    return (
        f"'{build.devices[mount.item].name}'"
        if mount.item in build.devices
        else f"the {part.title if part else mount.what}"
    )


def _span(build: Build, mount: Mount) -> Span | None:
    written = ids.mount(mount.cabinet, mount.low, mount.high, mount.face, mount.side)
    return build.provenance.span(written) or build.provenance.span(mount.item)


@rule("cabinet-overlap", Level.ERROR, _RACK)
def cabinet_overlap(build: Build) -> Iterator[Outcome]:
    """No unit of a cabinet is wanted twice at the same face, and every unit that is used exists.

    Because: two things cannot be screwed to the same holes.
    Compares: for each unit, the widths of what is mounted there with one full width (two half-width things share a unit).
    Skips: a hinged thing said to stand `over` another.
    Remedy: move one of the two, or give a range of units that is as tall as the part.
    """
    units: defaultdict[str, list[Occupancy]] = defaultdict(list)
    for occupancy in build.occupancy:
        units[occupancy.cabinet].append(occupancy)
    mounted = _by_cabinet(build)
    for cabinet in build.cabinets.values():
        clashes: dict[tuple[Mount, Mount], list[int]] = {}
        for occupancy in units[cabinet.id]:
            faces: dict[str, list[Mount]] = {}
            for mount in occupancy.mounts:
                if not mount.is_over:
                    faces.setdefault(mount.face, []).append(mount)
            for mounts in faces.values():
                if sum(_width(build, mount) for mount in mounts) > 2:
                    clashes.setdefault((mounts[0], mounts[1]), []).append(occupancy.unit)
        yield from _clash_findings(build, cabinet, clashes)
        beyond = list(_beyond(build, cabinet, mounted[cabinet.id]))
        yield from beyond
        if not clashes and not beyond:
            yield Fine(cabinet.id)


def _by_cabinet(build: Build) -> defaultdict[str, list[Mount]]:
    found: defaultdict[str, list[Mount]] = defaultdict(list)
    for mount in build.mounts:
        found[mount.cabinet].append(mount)
    return found


def _width(build: Build, mount: Mount) -> int:
    """In halves of the full width."""
    if mount.is_kept_free and mount.side:
        return 1
    part = _part(build, mount)
    return 1 if part is not None and part.rack is not None and part.rack.width == "half" else 2


def _clash_findings(
    build: Build, cabinet: Cabinet, clashes: dict[tuple[Mount, Mount], list[int]]
) -> Iterator[Outcome]:
    for (first, second), units in clashes.items():
        shown = ", ".join(map(str, units))
        message = f"unit {shown} of '{cabinet.name}' is wanted by {_shown(build, first)} and by {_shown(build, second)}"
        related = (Label(_span(build, first), "wants it too"),)
        yield cabinet_overlap.finding(message, f"{cabinet.id}/{units[0]}", _span(build, second), related)


def _beyond(build: Build, cabinet: Cabinet, mounts: list[Mount]) -> Iterator[Outcome]:
    for mount in mounts:
        if mount.high > cabinet.units or mount.low < 1:
            measurement = Measurement("highest unit used", mount.high, "at most", cabinet.units, "U")
            message = f"unit {mount.high} is used, but '{cabinet.name}' has {cabinet.units} units"
            yield cabinet_overlap.finding(
                message, f"{cabinet.id}/{mount.high}", _span(build, mount), (), measurement
            )


def _is_half_width(build: Build, mount: Mount) -> bool:
    cabinet = build.cabinets.get(mount.cabinet)
    return cabinet is not None and cabinet.part.rail_width == "half"


@rule("cabinet-height", Level.ERROR, _RACK)
def cabinet_height(build: Build) -> Iterator[Outcome]:
    """A mounted part has the height of the units it is given, and is made for the cabinet's rails.

    Because: a part of 2U screwed into 1U covers its neighbour's holes.
    Compares: the part's height with its range in the layout; standing room above a part is allowed.
    Cannot tell: the part does not say that it mounts on rails, or how tall it is.
    Remedy: give it a range such as `4-5`, or let a shelf carry it (`{fit: shelf-1u, carries: [NAME]}`).
    """
    each = cabinet_height
    for mount in build.mounts:
        part = _part(build, mount)
        if part is None:
            continue
        given = mount.high - mount.low + 1
        if part.rack is None or part.rack.height == 0:
            message = f"{_shown(build, mount)} ({part.title}) is not made for rails"
            cure = Cure("let a shelf carry it: {fit: shelf-1u, carries: [NAME]}")
            yield each.finding(message, mount.item, _span(build, mount), cures=(cure,))
        elif part.rack.width == "full" and _is_half_width(build, mount):
            message = f"{_shown(build, mount)} is made for rails of the full width, and '{ids.path(mount.cabinet)}' has half-width rails"
            yield each.finding(message, mount.item, _span(build, mount))
        elif part.rack.height > given:
            measurement = Measurement("height of the part", part.rack.height, "at most", given, "U")
            message = f"{_shown(build, mount)} is {part.rack.height}U tall, but is given {given}U"
            yield each.finding(message, mount.item, _span(build, mount), (), measurement)
        else:
            yield Fine(mount.item)


@rule("cabinet-depth", Level.ERROR, _RACK)
def cabinet_depth(build: Build) -> Iterator[Outcome]:
    """What is mounted is no deeper than the cabinet is usable behind its rails.

    Because: the standard fixes width and height only; a part that is 20 mm too deep keeps the door or the wall from closing.
    Compares: the part's depth with the cabinet's usable depth; things at front and rear of the same units with both together.
    Cannot tell: a depth that is not known.
    Remedy: a deeper cabinet or a shallower part.
    """
    mounted = _by_cabinet(build)
    for mount in build.mounts:
        part = _part(build, mount)
        if part is not None and mount.cabinet in build.cabinets:
            yield _depth(build, mount, part, build.cabinets[mount.cabinet], mounted[mount.cabinet])
    for device in build.devices.values():
        if device.carried_by and device.cabinet in build.cabinets:
            at = build.provenance.span(device.id)
            yield _depth_of(
                build.cabinets[device.cabinet], device.part, device.id, f"'{device.name}'", at, 0.0, ""
            )


def _depth(build: Build, mount: Mount, part: Part, cabinet: Cabinet, others: list[Mount]) -> Outcome:
    behind = 0.0
    behind_name = ""
    for other in others:
        if (
            other.face != mount.face
            and mount.face == "front"
            and other.low <= mount.high
            and mount.low <= other.high
        ):
            other_part = _part(build, other)
            if (
                other_part is not None
                and other_part.rack is not None
                and isinstance(other_part.rack.depth, Fact)
            ):
                behind, behind_name = other_part.rack.depth.high, _shown(build, other)
    return _depth_of(
        cabinet, part, mount.item, _shown(build, mount), _span(build, mount), behind, behind_name
    )


def _depth_of(
    cabinet: Cabinet, part: Part, subject: str, shown: str, at: Span | None, behind: float, behind_name: str
) -> Outcome:
    each = cabinet_depth
    depth = part.rack.depth if part.rack is not None else Unknown(f"the depth of '{part.name}' is not known")
    if isinstance(depth, Unknown):
        return each.cannot_tell(subject, at, f"the depth of the part '{part.name}' is not known")
    if isinstance(cabinet.usable_depth, Unknown):
        return each.cannot_tell(subject, at, f"the usable depth of the cabinet '{cabinet.name}' is not known")
    figure, limit = depth.high + behind, cabinet.usable_depth.low
    if at_most(figure, limit):
        return Fine(subject)
    terms: tuple[Term, ...] = (Term(f"depth of '{part.name}'", depth.high * 1000, depth.basis),)
    if behind:
        terms = (*terms, Term(f"depth of {behind_name} at the other face", behind * 1000))
    measurement = Measurement("depth", figure * 1000, "at most", limit * 1000, "mm", terms)
    message = f"{shown} is {millimetres(figure)} deep, but '{cabinet.name}' has {millimetres(limit)} behind its rails"
    return each.finding(message, subject, at, rests_on(depth, cabinet.usable_depth), measurement)


RULES: tuple[Rule, ...] = (cabinet_overlap, cabinet_height, cabinet_depth)
