"""Rules on units and widths: units wanted twice, units that do not exist, heights, and what is half as wide as the rails."""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Mount, Occupancy
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.graphs.cabinet_view import is_half_width, mounted_in, part_of, shown, span_of
from firstfix.parts.facts import Unknown
from firstfix.parts.part import Part
from firstfix.rules.rule import Fine, FineMany, Outcome, rule
from firstfix.standards.cabinet import cabinet_dimensions
from firstfix.units import number

RACK = Basis("IEC 60297-3-100 and EIA/ECA-310-E", "unit of height 44.45 mm")
_WIDTHS = Basis(
    "IEC 60297-3-100 and EIA/ECA-310-E", "panel width 482.6 mm; half the width is common practice, no source"
)
_SHELF = Cure("let a shelf carry it: {fit: shelf-1u, carries: [NAME]}")


@rule("cabinet-overlap", Level.ERROR, RACK)
def cabinet_overlap(build: Build) -> Iterator[Outcome]:
    """No unit of a cabinet is wanted twice at the same face, and every unit that is used exists.

    Because: two things cannot be screwed to the same holes.
    Compares: for each unit, the widths of what is mounted there with the width of the rails (two half-width things share a unit of
        rails of the full width).
    Skips: a hinged thing said to stand `over` another.
    Remedy: move one of the two, or give a range of units that is as tall as the part.
    """
    units: defaultdict[str, list[Occupancy]] = defaultdict(list)
    for occupancy in build.occupancy:
        units[occupancy.cabinet].append(occupancy)
    for cabinet in build.cabinets.values():
        clashes = _clashes(build, cabinet, units[cabinet.id])
        yield from _clash_findings(build, cabinet, clashes)
        beyond = list(_beyond(build, cabinet, mounted_in(build)[cabinet.id]))
        yield from beyond
        if not clashes and not beyond:
            yield Fine(cabinet.id)


def _clashes(build: Build, cabinet: Cabinet, units: list[Occupancy]) -> dict[tuple[Mount, Mount], list[int]]:
    found: dict[tuple[Mount, Mount], list[int]] = {}
    rails = 1 if cabinet.part.rail_width == "half" else 2
    for occupancy in units:
        faces: dict[str, list[Mount]] = {}
        for mount in occupancy.mounts:
            if not mount.is_over:
                faces.setdefault(mount.face, []).append(mount)
        for mounts in faces.values():
            if len(mounts) > 1 and sum(_width(build, mount) for mount in mounts) > rails:
                found.setdefault((mounts[0], mounts[1]), []).append(occupancy.unit)
    return found


def _width(build: Build, mount: Mount) -> int:
    """In halves of the full width."""
    if mount.is_kept_free and mount.side:
        return 1
    return 1 if is_half_width(part_of(build, mount)) else 2


def _clash_findings(
    build: Build, cabinet: Cabinet, clashes: dict[tuple[Mount, Mount], list[int]]
) -> Iterator[Outcome]:
    for (first, second), units in clashes.items():
        listed = ", ".join(map(str, units))
        message = f"unit {listed} of '{cabinet.name}' is wanted by {shown(build, first)} and by {shown(build, second)}"
        related = (Label(span_of(build, first), "wants it too"),)
        yield cabinet_overlap.finding(message, f"{cabinet.id}/{units[0]}", span_of(build, second), related)


def _beyond(build: Build, cabinet: Cabinet, mounts: list[Mount]) -> Iterator[Outcome]:
    for mount in mounts:
        if mount.high > cabinet.units or mount.low < 1:
            is_above = mount.high > cabinet.units
            unit, relation, limit = (
                (mount.high, "at most", cabinet.units) if is_above else (mount.low, "at least", 1)
            )
            end = "top" if is_above else "bottom"
            terms = (Term(f"{end} of {shown(build, mount)}", unit, "the cabinet's layout"),)
            has = (
                f"height of '{cabinet.part.name}'" if is_above else "units are counted from 1, at the bottom"
            )
            measurement = Measurement(
                f"{'highest' if is_above else 'lowest'} unit used", unit, relation, limit, "U", terms, has
            )
            message = f"unit {unit} is used, but '{cabinet.name}' has units 1 to {cabinet.units}"
            subject = f"{cabinet.id}/{unit}"
            yield cabinet_overlap.finding(message, subject, span_of(build, mount), (), measurement)


def _has_half_rails(build: Build, mount: Mount) -> bool:
    cabinet = build.cabinets.get(mount.cabinet)
    return cabinet is not None and cabinet.part.rail_width == "half"


@rule("cabinet-height", Level.ERROR, RACK)
def cabinet_height(build: Build) -> Iterator[Outcome]:
    """A mounted part has the height of the units it is given, and is made for the cabinet's rails.

    Because: a part of 2U screwed into 1U covers its neighbour's holes.
    Compares: the part's height with its range in the layout; standing room above a part is allowed. Whether it has ears for the
        rails, by its part's `ears`; that they are bought apart is a warning, if its `needs` do not name them.
    Cannot tell: a device that is given a height and does not say whether its ears come with it.
    Remedy: give it a range such as `4-5`, or let a shelf carry it (`{fit: shelf-1u, carries: [NAME]}`).
    """
    each = cabinet_height
    for mount in build.mounts:
        part = part_of(build, mount)
        if part is None:
            continue
        given = mount.high - mount.low + 1
        name, at = shown(build, mount), span_of(build, mount)
        if part.rack is None or part.rack.height == 0:
            message = f"{name} ({part.title}) is not made for rails"
            yield each.finding(message, mount.item, at, cures=(_SHELF,))
        elif part.rack.width == "full" and _has_half_rails(build, mount):
            message = f"{name} is made for rails of the full width, and '{ids.path(mount.cabinet)}' has half-width rails"
            yield each.finding(message, mount.item, at)
        elif part.rack.height > given:
            terms = (Term(f"height of '{part.name}'", part.rack.height, "what its part says"),)
            has = "the units that the layout gives it"
            measurement = Measurement(
                "height of the part", part.rack.height, "at most", given, "U", terms, has
            )
            message = f"{name} is {part.rack.height}U tall, but is given {given}U"
            yield each.finding(message, mount.item, at, (), measurement)
        else:
            yield _ears(build, mount, part)


def _ears(build: Build, mount: Mount, part: Part) -> Outcome:
    """Fittings and panels are ears themselves."""
    each, at = cabinet_height, span_of(build, mount)
    ears = (
        "included" if part.kind in ("panel", "shelf", "cover-panel") or part.rack is None else part.rack.ears
    )
    if isinstance(ears, Unknown):
        return each.cannot_tell(
            mount.item, at, f"whether ears for the rails come with the part '{part.name}', its `ears`"
        )
    if ears == "none":
        message = f"{shown(build, mount)} has no ears to screw to the rails"
        return each.finding(message, mount.item, at, cures=(_SHELF,))
    if ears == "bought apart" and not part.needs:
        message = (
            f"the ears of {shown(build, mount)} are bought apart, and its part's `needs` do not name them"
        )
        return each.finding(message, mount.item, at, level=Level.WARNING)
    return Fine(mount.item)


@rule("half-width", Level.WARNING, _WIDTHS)
def half_width(build: Build) -> Iterator[Outcome]:
    """A half-width thing in rails of the full width has a second one beside it, to which it is joined.

    Because: alone it reaches one rail only, and hangs from that by one ear.
    Compares: in each unit that it takes, the half-width things at its face; two of them join into the full width.
        Where the place beside it is kept free, it is a note.
    Skips: half-width cabinets, and what a shelf carries.
    Cannot tell: never
    Remedy: a half-width cabinet, a second half-width thing or cover panel in the same units (`[LEFT, RIGHT]`), or a shelf.
    """
    panel = cabinet_dimensions()
    for cabinet in build.cabinets.values():
        if cabinet.part.rail_width == "half":
            yield FineMany(len(mounted_in(build)[cabinet.id]))
            continue
        halves = [each for each in mounted_in(build)[cabinet.id] if is_half_width(part_of(build, each))]
        for mount in halves:
            alone = [unit for unit in range(mount.low, mount.high + 1) if _beside(halves, mount, unit) != 1]
            if not alone:
                yield Fine(mount.item)
                continue
            width, rails = panel.half_panel_width, panel.panel_width
            terms = (Term("width of a half panel", width.value, str(width.basis)),)
            measurement = Measurement(
                "width of the panel", width.value, "at least", rails.value, "mm", terms, str(rails.basis)
            )
            level = Level.NOTE if all(_kept_beside(build, mount, unit) for unit in alone) else Level.WARNING
            message = (
                f"{shown(build, mount)} is {number(panel.half_panel_width.value)} mm wide and alone in unit "
                f"{', '.join(map(str, alone))} of '{cabinet.name}', whose rails want {number(panel.panel_width.value)} mm"
            )
            yield half_width.finding(
                message, mount.item, span_of(build, mount), (), measurement, (_SHELF,), level
            )


def _beside(halves: list[Mount], mount: Mount, unit: int) -> int:
    return sum(
        other is not mount and other.face == mount.face and other.low <= unit <= other.high
        for other in halves
    )


def _kept_beside(build: Build, mount: Mount, unit: int) -> bool:
    return any(
        other.is_kept_free and other.side and other.face == mount.face and other.low <= unit <= other.high
        for other in mounted_in(build)[mount.cabinet]
    )
