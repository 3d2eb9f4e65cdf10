"""Rules on what stands in cabinets: who carries it, how heavy, wide, deep and tall it may be."""

from collections.abc import Iterator

from firstfix.build.hardware import Cabinet, Device, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Level, Measurement, Term
from firstfix.graphs.cabinet_view import carried_by, mounted_in, part_of, shown, span_of
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.cabinet import opening_height_mm
from firstfix.physics.range import at_most
from firstfix.rules.cabinet_weight import Load, not_weighed, weighed
from firstfix.rules.rule import Fine, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.rules.wording import listed
from firstfix.units import kilograms, millimetres


def _carriers(build: Build) -> Iterator[tuple[Cabinet, Mount, Part, list[Device]]]:
    for cabinet in build.cabinets.values():
        for mount in mounted_in(build)[cabinet.id]:
            part, carried = part_of(build, mount), carried_by(build).get(mount.item, [])
            if part is not None and carried:
                yield cabinet, mount, part, carried


@rule("shelf-carries", Level.ERROR, COMMON_PRACTICE)
def shelf_carries(build: Build) -> Iterator[Outcome]:
    """What stands in a cabinet stands on a shelf.

    Because: a cover panel has no plate to stand on, and a device is not made to bear another.
    Compares: the kind of what `carries` things with a shelf; on another device it is a warning. What stands in units that are
        kept free has nothing below it.
    Remedy: `{fit: shelf-1u, carries: [NAME]}`.
    """
    each = shelf_carries
    for _, mount, part, carried in _carriers(build):
        if part.kind == "shelf":
            yield Fine(mount.item)
            continue
        level = Level.ERROR if part.kind == "cover-panel" else Level.WARNING
        message = f"{shown(build, mount)} is a {part.kind}, no shelf, and is said to carry {listed(device.name for device in carried)}"
        yield each.finding(message, mount.item, span_of(build, mount), level=level)
    if not build.cabinets:
        return
    mounted = {mount.item for mount in build.mounts}
    for device in build.devices.values():
        if device.cabinet in build.cabinets and not device.carried_by and device.id not in mounted:
            yield each.finding(f"nothing carries '{device.name}' in its cabinet", device.id, build.provenance.span(device.id))  # fmt: skip


@rule("shelf-load", Level.ERROR, COMMON_PRACTICE)
def shelf_load(build: Build) -> Iterator[Outcome]:
    """What a shelf carries is no heavier than it is made for.

    Because: a shelf that is held at its front only bends under weight, and pulls its screws out of the rails.
    Compares: the weights of what it carries [kg] <= its `load`.
    Cannot tell: a shelf without a load; a thing whose weight is not known, unless the others are too heavy already.
    Remedy: a stronger shelf, or heavy things onto the floor of the cabinet.
    """
    for _, mount, part, carried in _carriers(build):
        if part.kind == "shelf":
            yield _load(build, mount, part, carried)


def _load(build: Build, mount: Mount, part: Part, carried: list[Device]) -> Outcome:
    each, at = shelf_load, span_of(build, mount)
    if part.shelf is None or isinstance(part.shelf.load, Unknown):
        return each.cannot_tell(mount.item, at, f"what the shelf '{part.name}' bears, its `shelf.load`")
    terms, unknown = weighed([Load(device.name, device.part, mount) for device in carried])
    total, limit = sum(term.value for term in terms), part.shelf.load
    if at_most(total, limit.low):
        missing = f"the weight of {listed(unknown)}" if unknown else ""
        return each.cannot_tell(mount.item, at, missing) if missing else Fine(mount.item)
    measurement = Measurement("weight carried", total, "at most", limit.low, "kg", terms, limit.basis)
    message = f"{shown(build, mount)} carries {kilograms(total)}, and bears {kilograms(limit.low)}"
    return each.finding(message, mount.item, at, (*not_weighed(unknown), *rests_on(limit)), measurement)


@rule("shelf-space", Level.ERROR, COMMON_PRACTICE)
def shelf_space(build: Build) -> Iterator[Outcome]:
    """What a shelf carries stands on it side by side, is no deeper than it, and no taller than what is free above it.

    Because: the box that is 10 mm too tall for its two units is found out with everything else screwed in.
    Compares: the sum of widths [mm] <= the shelf's `clear-width`; each depth [mm] <= the shelf's depth (what hangs over is a warning);
        each height [mm] <= the height from the lower edge of the shelf's units up to the next thing that is in the way, 44.45 mm a unit.
    Skips: cover panels above a shelf, which leave the space behind them free, and units kept free without `heat`.
    Cannot tell: a size that is not known, where what is known of them fits.
    Remedy: give the shelf a range of units with standing room (`3-6`), a second shelf, or a wider one.
    """
    for cabinet, mount, part, carried in _carriers(build):
        if part.kind != "shelf":
            continue
        found = [
            *_widths(build, mount, part, carried),
            *_depths(build, mount, part, carried),
            *_heights(build, cabinet, mount, carried),
        ]
        yield from found or (Fine(mount.item),)


def _widths(build: Build, mount: Mount, part: Part, carried: list[Device]) -> Iterator[Outcome]:
    each, at = shelf_space, span_of(build, mount)
    known = [(device, width) for device in carried if isinstance(width := _width(device.part), Fact)]
    unknown = [device.name for device in carried if not isinstance(_width(device.part), Fact)]
    if part.shelf is None or isinstance(part.shelf.clear_width, Unknown):
        yield each.cannot_tell(
            mount.item, at, f"how wide the shelf '{part.name}' is, its `shelf.clear-width`"
        )
        return
    terms = tuple(Term(device.name, width.high * 1000, width.basis) for device, width in known)
    total, limit = sum(term.value for term in terms), part.shelf.clear_width.low * 1000
    if not at_most(total, limit):
        measurement = Measurement(
            "widths side by side", total, "at most", limit, "mm", terms, part.shelf.clear_width.basis
        )
        message = f"what {shown(build, mount)} carries is {millimetres(total / 1000)} wide side by side, and it has {millimetres(limit / 1000)}"  # fmt: skip
        yield each.finding(message, mount.item, at, rests_on(part.shelf.clear_width), measurement)
    elif unknown:
        yield each.cannot_tell(mount.item, at, f"the width of {listed(unknown)}")


def _width(part: Part) -> Fact | None:
    return part.size.width if part.size is not None and isinstance(part.size.width, Fact) else None


def _height(part: Part) -> Fact | None:
    """Of what stands by itself; a thing made for rails is as tall as its units."""
    if part.size is not None and isinstance(part.size.height, Fact):
        return part.size.height
    return None


def _depths(build: Build, mount: Mount, part: Part, carried: list[Device]) -> Iterator[Outcome]:
    each = shelf_space
    for device in carried:
        at, depth = (
            build.provenance.span(device.id),
            None if device.part.rack is None else device.part.rack.depth,
        )
        if not isinstance(depth, Fact):
            yield each.cannot_tell(device.id, at, f"the depth of '{device.name}'")
        elif part.rack is None or isinstance(part.rack.depth, Unknown):
            yield each.cannot_tell(device.id, at, f"the depth of the shelf '{part.name}'")
        elif not at_most(depth.high, part.rack.depth.low):
            figure, limit = depth.high * 1000, part.rack.depth.low * 1000
            terms = (Term(f"depth of '{device.part.name}'", figure, depth.basis),)
            measurement = Measurement("depth", figure, "at most", limit, "mm", terms, part.rack.depth.basis)
            plate = f"{shown(build, mount)} of {millimetres(part.rack.depth.low)}"
            message = f"'{device.name}' is {millimetres(depth.high)} deep, and hangs over {plate}"
            related = rests_on(depth, part.rack.depth)
            yield each.finding(message, device.id, at, related, measurement, level=Level.WARNING)


def _heights(build: Build, cabinet: Cabinet, mount: Mount, carried: list[Device]) -> Iterator[Outcome]:
    each = shelf_space
    units, above = _free_units(build, cabinet, mount)
    limit = opening_height_mm(units)
    for device in carried:
        at, height = build.provenance.span(device.id), _height(device.part)
        if height is None:
            yield each.cannot_tell(device.id, at, f"how tall '{device.name}' stands")
        elif not at_most(height.high * 1000, limit):
            terms = (Term(f"height of '{device.part.name}'", height.high * 1000, height.basis),)
            free = f"{units}U free up to {above}"
            measurement = Measurement("height", height.high * 1000, "at most", limit, "mm", terms, free)
            message = f"'{device.name}' stands {millimetres(height.high)} tall, and has {units}U, {millimetres(limit / 1000)}, up to {above}"  # fmt: skip
            yield each.finding(message, device.id, at, rests_on(height), measurement)


def _free_units(build: Build, cabinet: Cabinet, mount: Mount) -> tuple[int, str]:
    """How many units there are from the lowest of this one's up to what is in the way above it, and what that is."""
    blocking = [
        (other.low, shown(build, other))
        for other in mounted_in(build)[cabinet.id]
        if other.low > mount.high and _is_in_the_way(build, other)
    ]
    low, name = min(blocking, default=(cabinet.units + 1, "the top of the cabinet"))
    return max(low - mount.low, 1), name


def _is_in_the_way(build: Build, mount: Mount) -> bool:
    """Behind a cover panel is room. Units kept free for something that gives off heat will be taken; the others are air."""
    if mount.is_kept_free:
        return isinstance(mount.heat, Fact)
    part = part_of(build, mount)
    return part is not None and part.kind != "cover-panel"


@rule("shelf-ties", Level.NOTE, COMMON_PRACTICE)
def shelf_ties(build: Build) -> Iterator[Outcome]:
    """A shelf that carries things has slots to tie them to it.

    Because: a small box with stiff cords is pulled off its shelf by them.
    Compares: the shelf's `tie-slots`.
    Cannot tell: a shelf that does not say whether it has slots.
    Remedy: a shelf with slots, or hook-and-loop strips that are glued on.
    """
    each = shelf_ties
    for _, mount, part, _ in _carriers(build):
        slots = part.shelf.tie_slots if part.shelf is not None else Unknown("it is no shelf")
        if part.kind != "shelf":
            continue
        if isinstance(slots, Unknown):
            yield each.cannot_tell(
                mount.item, span_of(build, mount), f"whether '{part.name}' has slots for ties"
            )
        elif slots:
            yield Fine(mount.item)
        else:
            message = f"{shown(build, mount)} has no slots to tie what it carries to it"
            yield each.finding(message, mount.item, span_of(build, mount))
