"""The rule on what stands out before the rails under a closed door: the rails go back, or else another cabinet.

Takes a build; yields one outcome for each thing that is mounted at the front.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Level, Measurement
from firstfix.graphs.cabinet_space import PLUGLESS, SetBack, before_rails, set_back, under_the_door
from firstfix.graphs.cabinet_view import mounted_in, shown, span_of
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, FineMany, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.units import millimetres

# So many cabinets of the library are named as cures, the cheapest.
_MOST_NAMED = 2


@rule("cabinet-front", Level.WARNING, COMMON_PRACTICE)
def cabinet_front(build: Build) -> Iterator[Outcome]:
    """What stands out before the rails, with its plugs and their bends, has room under the cabinet's closed door.

    Because: a door that presses on plugs bends cords below their least radius, or stays open.
    Compares: the part's `front-depth`, or the plug, bend and thickness of the cords at its front where that is more [mm] <= the space
        from the rails to the closed front; where the cabinet lets its rails be set back (`rails-back`), that space and as much as
        they go back, if all that is mounted keeps its depth behind them. The checklist then says how far they go back.
    Skips: open frames; what a hinged panel covers, which has a rule of its own; things at the rear.
    Cannot tell: a cabinet that does not say its front or the space before its rails, a part that says no `front-depth`.
    Remedy: set the rails back where the cabinet lets you, and say its `rails-back`, or its `before-rails` and `usable-depth` then;
        another cabinet; cords with a smaller bend; an open frame.
    """
    for cabinet in build.cabinets.values():
        form = cabinet.part.cabinet
        if form is not None and form.front == "open":
            yield FineMany(len(mounted_in(build)[cabinet.id]))
        elif form is None or isinstance(form.front, Unknown) or isinstance(form.before_rails, Unknown):
            missing = "front" if form is None or isinstance(form.front, Unknown) else "before-rails"
            why = f"the part '{cabinet.part.name}' does not say its `{missing}`"
            yield cabinet_front.cannot_tell(cabinet.id, build.provenance.span(cabinet.id), why)
        else:
            back = set_back(build, cabinet)
            for mount, part in under_the_door(build, cabinet):
                yield _judge(build, cabinet, mount, part, form.before_rails, back)


def _judge(
    build: Build, cabinet: Cabinet, mount: Mount, part: Part, before: Fact, back: SetBack | None
) -> Outcome:
    if part.rack is None:
        return Fine(mount.item)
    at = span_of(build, mount)
    out = before_rails(build, mount, part, before.low)
    if back is not None and not at_most(out.metres, before.low) and not (back.lets and back.fits):
        measurement = Measurement("depth before the rails", out.metres * 1000, "at most", before.low * 1000, "mm", out.terms, before.basis)  # fmt: skip
        message = (
            f"{shown(build, mount)} stands {millimetres(out.metres)} before the rails with plugs and bends, "
            f"and the door of '{cabinet.name}' leaves {millimetres(before.low)}"
        )
        cures = tuple(_cures(build, cabinet, before.low, back))
        return cabinet_front.finding(message, mount.item, at, rests_on(before), measurement, cures)
    if isinstance(part.rack.front_depth, Unknown) and part.kind not in PLUGLESS:
        return cabinet_front.cannot_tell(mount.item, at, f"how far the part '{part.name}' and its plugs stand out, its `front-depth`")  # fmt: skip
    return Fine(mount.item)


def _cures(build: Build, cabinet: Cabinet, before: float, back: SetBack) -> Iterator[Cure]:
    form = cabinet.part.cabinet
    if back.left is not None and back.fits and not (form is not None and isinstance(form.rails_back, Fact)):
        said = f"`usable-depth: {millimetres(back.left)}, cabinet: {{before-rails: {millimetres(before + back.by)}}}`"
        yield Cure(
            f"set the rails of '{cabinet.name}' back by {millimetres(back.by)}, if it lets you, and say so in a part of your own, {said}: "
            f"the deepest thing there takes {millimetres(back.deepest)} of what is left"
        )
    if others := _others(build, cabinet, before, back):
        yield Cure(f"take {' or '.join(others)}, which has room before and behind its rails")
    yield Cure(
        "take cords with shorter or angled plugs, or that bear a smaller bend, and say so in a part of your own"
    )


def _others(build: Build, cabinet: Cabinet, before: float, back: SetBack) -> tuple[str, ...]:
    """The cheapest cabinets of the library that are as high at least, hang or stand as it does, and have room before and behind."""
    own = cabinet.part
    found: list[tuple[float, str]] = []
    for part in parts_of_kind(build.library, "cabinet"):
        form = part.cabinet
        if form is None or part.units < own.units or part.rail_width != own.rail_width:
            continue
        if own.cabinet is not None and form.mounting != own.cabinet.mounting:
            continue
        if _has_room(part, before + back.by, back.deepest) and isinstance(part.price, Fact):
            found.append((part.price.typical, part.name))
    return tuple([f"'{name}'" for _, name in sorted(found)[:_MOST_NAMED]])


def _has_room(part: Part, before: float, behind: float) -> bool:
    form = part.cabinet
    if form is None or isinstance(part.usable_depth, Unknown):
        return False
    if form.front == "open":
        return at_most(behind, part.usable_depth.low)
    if isinstance(form.before_rails, Unknown):
        return False
    by = max(0.0, before - form.before_rails.low)
    most = form.rails_back.low if isinstance(form.rails_back, Fact) else 0.0
    return at_most(by, most) and at_most(behind, part.usable_depth.low - by)
