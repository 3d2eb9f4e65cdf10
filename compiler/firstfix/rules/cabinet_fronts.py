"""Rules on what opens: hinged fronts over other things, and the room that doors need before the cabinet."""

from collections.abc import Iterator

from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Level, Measurement, Term
from firstfix.graphs.cabinet_view import behind_covers, part_of, plugs_of, shown, span_of
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.units import millimetres


@rule("hinged-front", Level.ERROR, COMMON_PRACTICE)
def hinged_front(build: Build) -> Iterator[Outcome]:
    """What stands `over` another thing opens, closes over it and its plugs, and has room to swing.

    Because: a front that is screwed over a power strip hides its switch, and one that closes on plugs bends them.
    Compares: that the front's part is hinged; what its thing behind stands out, with plugs and bends [mm] <= the front's `clear-under`;
        its `swing` [mm] <= the cabinet's `clear-in-front`, where the plan says that.
    Cannot tell: a cover whose form, `clear-under` or `swing` is not known; a thing behind it that says no `front-depth`.
    Remedy: a hinged panel that is made for it, cords with a smaller bend, or leave the front out.
    """
    for cabinet in build.cabinets.values():
        for cover, behind in behind_covers(build, cabinet.id):
            yield from _closes(build, cabinet, cover, behind)


def _closes(build: Build, cabinet: Cabinet, cover: Mount, behind: list[Mount]) -> Iterator[Outcome]:
    each, at, part = hinged_front, span_of(build, cover), part_of(build, cover)
    if part is None:
        return
    form = part.cover
    if form is not None and isinstance(form.form, Unknown):
        yield each.cannot_tell(cover.item, at, f"whether the part '{part.name}' opens, its `cover.form`")
    elif form is None or form.form != "hinged":
        message = f"{shown(build, cover)} stands over others and does not open"
        yield each.finding(message, cover.item, at)
    else:
        found = [_over(build, cover, each_behind, form.clear_under) for each_behind in behind]
        found.append(_swings(build, cabinet, cover, form.swing))
        bad = [outcome for outcome in found if outcome is not None]
        yield from bad or (Fine(cover.item),)


def _over(build: Build, cover: Mount, behind: Mount, under: Figure) -> Outcome | None:
    each, at, part = hinged_front, span_of(build, cover), part_of(build, behind)
    if part is None or part.rack is None:
        return None
    if isinstance(under, Unknown):
        return each.cannot_tell(
            cover.item, at, f"the space under {shown(build, cover)}, its `cover.clear-under`"
        )
    plugs, front = plugs_of(build).at(behind.item, "front"), part.rack.front_depth
    own = front.high if isinstance(front, Fact) else 0.0
    figure = max(own, plugs.reach)
    if at_most(figure, under.low):
        if isinstance(front, Unknown) and part.kind not in ("shelf", "cover-panel"):
            return each.cannot_tell(cover.item, at, f"how far the part '{part.name}' and its plugs stand out, its `front-depth`")  # fmt: skip
        return None
    own_term = Term(
        f"what stands out of '{part.name}'", own * 1000, front.basis if isinstance(front, Fact) else ""
    )
    terms = plugs.terms if plugs.reach > own else (own_term,)
    measurement = Measurement(
        "depth before the rails", figure * 1000, "at most", under.low * 1000, "mm", terms, under.basis
    )
    message = (
        f"{shown(build, behind)} stands {millimetres(figure)} out with plugs and bends, "
        f"and {shown(build, cover)} closes over {millimetres(under.low)}"
    )
    return each.finding(message, cover.item, at, rests_on(under), measurement)


def _swings(build: Build, cabinet: Cabinet, cover: Mount, swing: Figure) -> Outcome | None:
    if isinstance(cabinet.clear_in_front, Unknown):
        return None
    each, at = hinged_front, span_of(build, cover)
    if isinstance(swing, Unknown):
        return each.cannot_tell(
            cover.item, at, f"the room that {shown(build, cover)} needs to open, its `cover.swing`"
        )
    limit = cabinet.clear_in_front.low
    if at_most(swing.high, limit):
        return None
    terms = (Term(f"{shown(build, cover)} when it opens", swing.high * 1000, swing.basis),)
    clear = cabinet.clear_in_front.basis
    measurement = Measurement("room to open", swing.high * 1000, "at most", limit * 1000, "mm", terms, clear)
    message = f"{shown(build, cover)} needs {millimetres(swing.high)} to open, and '{cabinet.name}' has {millimetres(limit)} in front"  # fmt: skip
    return each.finding(message, cover.item, at, rests_on(swing), measurement)


@rule("door-opens", Level.ERROR, COMMON_PRACTICE)
def door_opens(build: Build) -> Iterator[Outcome]:
    """The door of a cabinet has room to open.

    Because: a cabinet in a corner or behind a desk is bought, hung, and cannot be opened.
    Compares: the door's `swing` [mm] <= the `clear-in-front` that the plan gives the cabinet.
    Skips: cabinets of which the plan does not say what is clear in front, and open frames.
    Cannot tell: a cabinet that does not say its front or its swing.
    Remedy: hang it elsewhere, hang its door on the other side, or take an open frame.
    """
    for cabinet in build.cabinets.values():
        if isinstance(cabinet.clear_in_front, Fact):
            yield _opens(build, cabinet, cabinet.clear_in_front)


def _opens(build: Build, cabinet: Cabinet, in_front: Fact) -> Outcome:
    form, clear = cabinet.part.cabinet, in_front.low
    at = build.provenance.span(cabinet.id, "clear-in-front")
    if form is not None and form.front == "open":
        return Fine(cabinet.id)
    if form is None or isinstance(form.front, Unknown) or isinstance(form.swing, Unknown):
        return door_opens.cannot_tell(cabinet.id, at, f"how its door opens, `front` and `swing` of the part '{cabinet.part.name}'")  # fmt: skip
    if at_most(form.swing.high, clear):
        return Fine(cabinet.id)
    terms = (Term(f"the door of '{cabinet.part.name}'", form.swing.high * 1000, form.swing.basis),)
    measurement = Measurement(
        "room to open", form.swing.high * 1000, "at most", clear * 1000, "mm", terms, in_front.basis
    )
    message = f"the door of '{cabinet.name}' needs {millimetres(form.swing.high)} to open, and has {millimetres(clear)} in front"
    return door_opens.finding(message, cabinet.id, at, rests_on(form.swing), measurement)
