"""The rule on depth: what is mounted, with the plugs and bends behind it, and what a shelf carries.

Takes a build; yields one outcome for each thing between the rails, and for each on a shelf.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Cabinet, Device, Mount
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Level, Measurement, Term
from firstfix.graphs.cabinet_space import Deep, behind_rails
from firstfix.graphs.cabinet_view import (
    NO_PLUG,
    carried_by,
    is_for_rails,
    mounted_in,
    part_of,
    plugs_of,
    shown,
    span_of,
)
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.units import millimetres

_DEPTH = Basis("IEC 60297-3-100 and EIA/ECA-310-E", "which leave the depth to each maker")


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
            yield _judge(build, cabinet, mount, part, behind_rails(build, mount, part))
            for device in carried_by(build).get(mount.item, ()):
                yield _carried(build, cabinet, device)


def _judge(build: Build, cabinet: Cabinet, mount: Mount, part: Part, deep: Deep) -> Outcome:
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
