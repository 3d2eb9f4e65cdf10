"""Rules on depth: what is mounted, with the plugs and bends behind it, and what stands out before the rails under a door."""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.hardware import Cabinet, Device, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.cabinet_view import (
    NO_PLUG,
    carried_by,
    is_for_rails,
    mounted_in,
    part_of,
    plugs_of,
    share_units,
    shown,
    span_of,
)
from firstfix.rules.rule import Fine, FineMany, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.units import millimetres

_DEPTH = Basis("IEC 60297-3-100 and EIA/ECA-310-E", "which leave the depth to each maker")
# Nothing is plugged into these.
_PLUGLESS = ("shelf", "cover-panel")


class _Deep(NamedTuple):
    """What is known of a thing's depth behind its rails [mm], and what is not."""

    terms: tuple[Term, ...]
    missing: tuple[str, ...]

    @property
    def metres(self) -> float:
        return sum(term.value for term in self.terms) / 1000


@rule("cabinet-depth", Level.ERROR, _DEPTH)
def cabinet_depth(build: Build) -> Iterator[Outcome]:
    """What is mounted, with its plugs and their bends behind it, is no deeper than the cabinet is usable behind its rails.

    Because: the standard fixes width and height only; a part that is 20 mm too deep keeps the door or the wall from closing, and a
        plug that is pressed against the wall breaks its jack.
    Compares: the part's depth + its `plug-space`, or + the bend and thickness of the installed cable on its blocks where that is more
        [mm] <= the cabinet's usable depth; things at front and rear of the same units both together. For what a shelf carries:
        its depth, and its depth + plugs with what is free before the rails.
    Cannot tell: a depth or a plug space that is not known, where what is known of them fits.
    Remedy: a deeper cabinet, a shallower part, or plugs with a bend in them.
    """
    for cabinet in build.cabinets.values():
        mounts = mounted_in(build)[cabinet.id]
        for mount in mounts:
            if (part := part_of(build, mount)) is None or not is_for_rails(part):
                continue
            deep = _deep(build, mount, part)
            for other in mounts:
                other_part = part_of(build, other)
                if (
                    mount.face == "front" != other.face
                    and share_units(mount, other)
                    and other_part is not None
                ):
                    beside = _deep(build, other, other_part)
                    deep = _Deep((*deep.terms, *beside.terms), (*deep.missing, *beside.missing))
            yield _judge(build, cabinet, mount, part, deep)
            for device in carried_by(build).get(mount.item, ()):
                yield _carried(build, cabinet, device)


def _deep(build: Build, mount: Mount, part: Part) -> _Deep:
    if part.rack is None or isinstance(part.rack.depth, Unknown):
        return _Deep((), (f"the depth of the part '{part.name}'",))
    terms: tuple[Term, ...] = (
        Term(f"depth of '{part.name}'", part.rack.depth.high * 1000, part.rack.depth.basis),
    )
    if part.kind in _PLUGLESS:
        return _Deep(terms, ())
    space = part.rack.plug_space
    if isinstance(space, Unknown):
        return _Deep(terms, (f"the space for plugs behind the part '{part.name}', its `plug-space`",))
    plugs = plugs_of(build)
    behind = plugs.at(mount.item, "rear") if plugs.longest > space.high else NO_PLUG
    if behind.reach > space.high:
        return _Deep((*terms, *behind.terms), ())
    return _Deep((*terms, Term(f"plugs and bends behind '{part.name}'", space.high * 1000, space.basis)), ())


def _judge(build: Build, cabinet: Cabinet, mount: Mount, part: Part, deep: _Deep) -> Outcome:
    each, at = cabinet_depth, span_of(build, mount)
    if isinstance(cabinet.usable_depth, Unknown):
        return each.cannot_tell(
            mount.item, at, f"the usable depth of the cabinet '{cabinet.name}' is not known"
        )
    figure, limit = deep.metres, cabinet.usable_depth.low
    if at_most(figure, limit):
        missing = tuple(f"{what} is not known" for what in deep.missing)
        return each.cannot_tell(mount.item, at, *missing) if missing else Fine(mount.item)
    measurement = Measurement(
        "depth", figure * 1000, "at most", limit * 1000, "mm", deep.terms, cabinet.usable_depth.basis
    )
    with_plugs = " with plugs and bends" if len(deep.terms) > 1 else ""
    message = (
        f"{shown(build, mount)} is {millimetres(figure)} deep{with_plugs}, "
        f"but '{cabinet.name}' has {millimetres(limit)} behind its rails"
    )
    depth = part.rack.depth if part.rack is not None else cabinet.usable_depth
    return each.finding(message, mount.item, at, rests_on(depth, cabinet.usable_depth), measurement)


def _carried(build: Build, cabinet: Cabinet, device: Device) -> Outcome:
    each, part, at = cabinet_depth, device.part, build.provenance.span(device.id)
    if part.rack is None or isinstance(part.rack.depth, Unknown):
        return each.cannot_tell(device.id, at, f"the depth of the part '{part.name}' is not known")
    if isinstance(cabinet.usable_depth, Unknown):
        return each.cannot_tell(
            device.id, at, f"the usable depth of the cabinet '{cabinet.name}' is not known"
        )
    terms: tuple[Term, ...] = (
        Term(f"depth of '{part.name}'", part.rack.depth.high * 1000, part.rack.depth.basis),
    )
    figure, limit = part.rack.depth.high, cabinet.usable_depth.low
    where = "behind its rails"
    form = cabinet.part.cabinet
    if at_most(figure, limit) and form is not None and form.front != "open":
        plugs = plugs_of(build)
        plug = plugs.at(device.id, "front") if figure + plugs.longest > limit else NO_PLUG
        if figure + plug.reach > limit and isinstance(form.before_rails, Unknown):
            return each.cannot_tell(device.id, at, f"the space before the rails of '{cabinet.name}', its `before-rails`")  # fmt: skip
        before = form.before_rails.low if isinstance(form.before_rails, Fact) else 0.0
        figure, limit, where = figure + plug.reach, limit + before, "from its back to its door"
        terms = (*terms, *plug.terms)
    if at_most(figure, limit):
        return Fine(device.id)
    measurement = Measurement(
        "depth", figure * 1000, "at most", limit * 1000, "mm", terms, cabinet.usable_depth.basis
    )
    message = f"'{device.name}' is {millimetres(figure)} deep, but '{cabinet.name}' has {millimetres(limit)} {where}"
    return each.finding(message, device.id, at, rests_on(cabinet.usable_depth), measurement)


@rule("cabinet-front", Level.WARNING, COMMON_PRACTICE)
def cabinet_front(build: Build) -> Iterator[Outcome]:
    """What stands out before the rails, with its plugs and their bends, has room under the cabinet's closed door.

    Because: a door that presses on plugs bends cords below their least radius, or stays open.
    Compares: the part's `front-depth`, or the plug, bend and thickness of the cords at its front where that is more [mm] <= the space
        from the rails to the closed front.
    Skips: open frames; what a hinged panel covers, which has a rule of its own; things at the rear.
    Cannot tell: a cabinet that does not say its front or the space before its rails, a part that says no `front-depth`.
    Remedy: set the rails back where the cabinet lets you, and say its `before-rails` and `usable-depth` then; cords with a smaller
        bend; an open frame.
    """
    for cabinet in build.cabinets.values():
        mounts = mounted_in(build)[cabinet.id]
        form = cabinet.part.cabinet
        if form is not None and form.front == "open":
            yield FineMany(len(mounts))
        elif form is None or isinstance(form.front, Unknown) or isinstance(form.before_rails, Unknown):
            missing = "front" if form is None or isinstance(form.front, Unknown) else "before-rails"
            why = f"the part '{cabinet.part.name}' does not say its `{missing}`"
            yield cabinet_front.cannot_tell(cabinet.id, build.provenance.span(cabinet.id), why)
        else:
            covers = [each for each in mounts if each.is_over]
            for mount in mounts:
                covered = any(share_units(mount, cover) for cover in covers)
                part = part_of(build, mount)
                stands = part is not None and is_for_rails(part)
                if stands and mount.face == "front" and not mount.is_kept_free and not covered:
                    yield _under_the_door(build, cabinet, mount, form.before_rails)


def _under_the_door(build: Build, cabinet: Cabinet, mount: Mount, before: Fact) -> Outcome:
    part, limit = part_of(build, mount), before.low
    if part is None or part.rack is None:
        return Fine(mount.item)
    front, plugs = part.rack.front_depth, plugs_of(build)
    own = front.high if isinstance(front, Fact) else 0.0
    plug = plugs.at(mount.item, "front") if plugs.longest > limit else NO_PLUG
    figure = max(own, plug.reach)
    at = span_of(build, mount)
    if not at_most(figure, limit):
        own_term = Term(f"what stands out of '{part.name}'", own * 1000, front.basis if isinstance(front, Fact) else "")  # fmt: skip
        terms = plug.terms if plug.reach > own else (own_term,)
        measurement = Measurement(
            "depth before the rails", figure * 1000, "at most", limit * 1000, "mm", terms, before.basis
        )
        message = (
            f"{shown(build, mount)} stands {millimetres(figure)} before the rails with plugs and bends, "
            f"and the door of '{cabinet.name}' leaves {millimetres(limit)}"
        )
        back = f"set the rails of '{cabinet.name}' back by {millimetres(figure - limit)}, if it lets you"
        cures = (Cure(f"{back}, and say so in a part of your own: `before-rails`, `usable-depth`"),)
        return cabinet_front.finding(message, mount.item, at, rests_on(before), measurement, cures)
    if isinstance(front, Unknown) and part.kind not in _PLUGLESS:
        return cabinet_front.cannot_tell(mount.item, at, f"how far the part '{part.name}' and its plugs stand out, its `front-depth`")  # fmt: skip
    return Fine(mount.item)
