"""Rules on what holds things: fasteners for the rails, how many, and heads under hinged fronts; fixings of a cabinet to its wall."""

from collections.abc import Iterator

from firstfix.build.hardware import IN_PLACE, Cabinet, Item, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Level, Measurement, Term
from firstfix.graphs.cabinet_view import behind_covers, mounted_in, part_of, shown, span_of
from firstfix.parts.facts import Unknown
from firstfix.parts.part import Part
from firstfix.physics.cabinet import fastener_holes
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, FineMany, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.standards.cabinet import cabinet_dimensions
from firstfix.units import millimetres

_HOLES = Basis(
    "EIA/ECA-310-E (2005)", "three holes in each unit of a rail; which fastener suits is common practice"
)


@rule("fastener-suits", Level.WARNING, _HOLES)
def fastener_suits(build: Build) -> Iterator[Outcome]:
    """The fasteners that a mounted part names are for the cabinet's rails, and there are holes for as many as it needs.

    Because: an M5 screw falls through an M6 nut, and a cage nut finds no square hole in threaded rails.
    Compares: `rails` and `thread` of each fastener in the part's `needs`, and of those in its box, with the cabinet's; its `fixings`
        <= the holes along it, three in each unit of both rails. Fasteners in the box that do not suit are a note: others are bought.
    Skips: parts that name no fastener; those that are worked out always suit, or are reported as unknown.
    Cannot tell: a part that does not say how many fixings it needs; a cabinet that names neither rails nor thread, where its part
        names fasteners.
    Remedy: the fastener for these rails in `needs` of the part.
    """
    for cabinet in build.cabinets.values():
        for mount in mounted_in(build)[cabinet.id]:
            part = part_of(build, mount)
            if part is not None and part.rack is not None and part.rack.height:
                found = list(_faults(build, cabinet, mount, part))
                yield from found or (Fine(mount.item),)


def _faults(build: Build, cabinet: Cabinet, mount: Mount, part: Part) -> Iterator[Outcome]:
    each, at = fastener_suits, span_of(build, mount)
    holes = fastener_holes(part.rack.height) if part.rack is not None else 0
    if not part.fixings and "fixings" not in part.said:
        yield each.cannot_tell(
            mount.item, at, f"how many fasteners hold the part '{part.name}', its `fixings`"
        )
    elif part.fixings > holes:
        message = (
            f"{shown(build, mount)} needs {part.fixings} fasteners, and there are {holes} holes along it"
        )
        terms = (Term(f"`fixings` of '{part.name}'", part.fixings, "what its part says"),)
        per_unit = cabinet_dimensions().holes_per_unit
        has = f"{per_unit.value:g} holes for each unit in both rails; {per_unit.basis}"
        measurement = Measurement("fasteners", part.fixings, "at most", holes, "", terms, has)
        yield each.finding(message, mount.item, at, (), measurement)
    for names, level, where in (
        (part.needs, Level.WARNING, "names"),
        (part.in_box, Level.NOTE, "comes with"),
    ):
        for name, _ in names:
            fastener = build.library.get(name)
            if fastener is None or fastener.kind != "fastener" or not fastener.rails:
                continue
            if not cabinet.rails or not cabinet.thread:
                yield each.cannot_tell(
                    mount.item, at, f"the rails and thread of the cabinet '{cabinet.name}'"
                )
            elif (fastener.rails, fastener.thread) != (cabinet.rails, cabinet.thread):
                message = (
                    f"{shown(build, mount)} {where} '{name}', for {fastener.rails} and {fastener.thread}; "
                    f"the rails of '{cabinet.name}' have {cabinet.rails} and {cabinet.thread}"
                )
                yield each.finding(message, mount.item, at, level=level)


@rule("screw-head", Level.WARNING, COMMON_PRACTICE)
def screw_head(build: Build) -> Iterator[Outcome]:
    """The heads of fasteners under a hinged front are no taller than it tolerates.

    Because: a front that rests on screw heads stands askew and does not stay closed.
    Compares: the `head-height` of what holds the front and the things behind it [mm] <= the front's `screw-head`.
    Skips: what is in place already.
    Cannot tell: a front that does not say it, a fastener without a head height.
    Remedy: flatter fasteners (countersunk ones, where the holes are made for them), or a front that tolerates more.
    """
    covers = [found for cabinet in build.cabinets for found in behind_covers(build, cabinet)]
    if not covers:
        return
    fasteners = _fasteners(build)
    for cover, behind in covers:
        items = [item for mount in (cover, *behind) for item in fasteners.get(mount.item, ())]
        yield _heads(build, cover, items)


def _fasteners(build: Build) -> dict[str, list[Item]]:
    found: dict[str, list[Item]] = {}
    for item in build.items:
        part = build.library.get(item.part)
        if part is not None and part.kind == "fastener" and part.rails and item.standing != IN_PLACE:
            found.setdefault(item.for_id, []).append(item)
    return found


def _heads(build: Build, cover: Mount, items: list[Item]) -> Outcome:
    each, at, part = screw_head, span_of(build, cover), part_of(build, cover)
    if part is None or not items:
        return Fine(cover.item)
    limit = part.cover.screw_head if part.cover is not None else Unknown("it is no cover")
    if isinstance(limit, Unknown):
        return each.cannot_tell(
            cover.item, at, f"which heads {shown(build, cover)} closes over, its `cover.screw-head`"
        )
    for name in sorted({item.part for item in items}):
        form = build.library[name].fastener
        if form is None or isinstance(form.head_height, Unknown):
            return each.cannot_tell(
                cover.item, at, f"the height of the head of '{name}', its `fastener.head-height`"
            )
        if not at_most(form.head_height.high, limit.low):
            head, most = form.head_height.high, limit.low
            terms = (Term(f"head of '{name}'", head * 1000, form.head_height.basis),)
            measurement = Measurement(
                "height of a head", head * 1000, "at most", most * 1000, "mm", terms, limit.basis
            )
            message = f"the heads of '{name}' are {millimetres(head)} high, and {shown(build, cover)} closes over {millimetres(most)}"
            return each.finding(message, cover.item, at, rests_on(form.head_height, limit), measurement)
    return Fine(cover.item)


@rule("wall-fixings", Level.WARNING, COMMON_PRACTICE)
def wall_fixings(build: Build) -> Iterator[Outcome]:
    """A cabinet for a wall comes with, or needs, fixings for the wall.

    Because: it is forgotten on every first list. Which fixings bear the load is for the wall and their own papers.
    Compares: `needs` and `in-box` of the cabinet's part with the parts that go into a wall.
    Skips: cabinets that stand, and those that hang already.
    Cannot tell: a cabinet that does not say how it is mounted.
    Remedy: `needs: {wall-fixing: 4}` at the cabinet's part, or what its wall asks for.
    """
    for cabinet in build.cabinets.values():
        form, at = cabinet.part.cabinet, build.provenance.span(cabinet.id, "part")
        if cabinet.is_owned or (form is not None and form.mounting in ("floor", "desk")):
            yield FineMany(1)
        elif form is None or isinstance(form.mounting, Unknown):
            yield wall_fixings.cannot_tell(cabinet.id, at, f"how the part '{cabinet.part.name}' is mounted, its `cabinet.mounting`")  # fmt: skip
        elif any(_is_wall_fixing(build, name) for name, _ in (*cabinet.part.needs, *cabinet.part.in_box)):
            yield Fine(cabinet.id)
        else:
            cure = Cure("`needs: {wall-fixing: 4}` at its part, or what the wall asks for")
            message = f"'{cabinet.name}' hangs on a wall, and no fixings for the wall come with it"
            yield wall_fixings.finding(message, cabinet.id, at, cures=(cure,))


def _is_wall_fixing(build: Build, name: str) -> bool:
    part = build.library.get(name)
    return part is not None and part.fastener is not None and part.fastener.form == "wall plug"
