"""Room in a cabinet before and behind its rails: what stands out under the door, what reaches back, and how far the rails go back.

Takes a build; gives depths in metres, with their terms in millimetres. Wall and standing cabinets mostly hold their rails so that they
can be set back; what stands out before them then has more room, and what is behind them less.
"""

from typing import NamedTuple

from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.finding.model import Term
from firstfix.graphs.cabinet_view import (
    NO_PLUG,
    is_for_rails,
    mounted_in,
    part_of,
    plugs_of,
    share_units,
)
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_most

# Nothing is plugged into these.
PLUGLESS = ("shelf", "cover-panel")


class Deep(NamedTuple):
    """What is known of a thing's depth behind its rails [mm], and what is not."""

    terms: tuple[Term, ...]
    missing: tuple[str, ...]

    @property
    def metres(self) -> float:
        return sum(term.value for term in self.terms) / 1000


class StandsOut(NamedTuple):
    """How far a thing stands out before its rails, with plugs and bends where these reach further."""

    metres: float
    terms: tuple[Term, ...]


class SetBack(NamedTuple):
    """`by`: how far the rails must go back for the door to close. `left`: what is usable behind them then, None where that is not known;
    `deepest`: what the deepest thing takes of it. `lets`: whether the cabinet is known to let them go back so far."""

    by: float
    left: float | None
    deepest: float
    lets: bool

    @property
    def fits(self) -> bool:
        return self.left is not None and at_most(self.deepest, self.left)


def behind_rails(build: Build, mount: Mount, part: Part) -> Deep:
    """Of a mount, and of what is at the rear of the same units together with it."""
    deep = _deep(build, mount, part)
    for other in mounted_in(build)[mount.cabinet]:
        other_part = part_of(build, other)
        if mount.face == "front" != other.face and share_units(mount, other) and other_part is not None:
            beside = _deep(build, other, other_part)
            deep = Deep((*deep.terms, *beside.terms), (*deep.missing, *beside.missing))
    return deep


def _deep(build: Build, mount: Mount, part: Part) -> Deep:
    if part.rack is None or isinstance(part.rack.depth, Unknown):
        return Deep((), (f"the depth of the part '{part.name}'",))
    terms: tuple[Term, ...] = (
        Term(f"depth of '{part.name}'", part.rack.depth.high * 1000, part.rack.depth.basis),
    )
    if part.kind in PLUGLESS:
        return Deep(terms, ())
    space = part.rack.plug_space
    if isinstance(space, Unknown):
        return Deep(terms, (f"the space for plugs behind the part '{part.name}', its `plug-space`",))
    plugs = plugs_of(build)
    behind = plugs.at(mount.item, "rear") if plugs.longest > space.high else NO_PLUG
    if behind.reach > space.high:
        return Deep((*terms, *behind.terms), ())
    return Deep((*terms, Term(f"plugs and bends behind '{part.name}'", space.high * 1000, space.basis)), ())


def before_rails(build: Build, mount: Mount, part: Part, limit: float) -> StandsOut:
    """`limit`, in metres: cords that stand out no further than that are not looked for one by one."""
    front, plugs = part.rack.front_depth if part.rack is not None else Unknown(""), plugs_of(build)
    own = front.high if isinstance(front, Fact) else 0.0
    plug = plugs.at(mount.item, "front") if plugs.longest > limit else NO_PLUG
    if plug.reach > own:
        return StandsOut(plug.reach, plug.terms)
    basis = front.basis if isinstance(front, Fact) else ""
    return StandsOut(own, (Term(f"what stands out of '{part.name}'", own * 1000, basis),))


def under_the_door(build: Build, cabinet: Cabinet) -> list[tuple[Mount, Part]]:
    """What is mounted at the front and is not under a hinged panel, lowest first."""
    mounts = mounted_in(build)[cabinet.id]
    covers = [each for each in mounts if each.is_over]
    return [
        (mount, part)
        for mount in mounts
        if (part := part_of(build, mount)) is not None
        and is_for_rails(part)
        and mount.face == "front"
        and not mount.is_kept_free
        and not any(share_units(mount, cover) for cover in covers)
    ]


def set_back(build: Build, cabinet: Cabinet) -> SetBack | None:
    """None where the door closes as the cabinet comes, has none, or where it is not known how much room it leaves."""
    form = cabinet.part.cabinet
    if form is None or form.front == "open" or isinstance(form.before_rails, Unknown):
        return None
    limit = form.before_rails.low
    furthest = max(
        (before_rails(build, *each, limit).metres for each in under_the_door(build, cabinet)), default=0.0
    )
    if at_most(furthest, limit):
        return None
    by = furthest - limit
    mounted = ((mount, part_of(build, mount)) for mount in mounted_in(build)[cabinet.id])
    deepest = max(
        (
            behind_rails(build, mount, part).metres
            for mount, part in mounted
            if part is not None and is_for_rails(part)
        ),
        default=0.0,
    )
    left = cabinet.usable_depth.low - by if isinstance(cabinet.usable_depth, Fact) else None
    lets = isinstance(form.rails_back, Fact) and at_most(by, form.rails_back.low)
    return SetBack(by, left, deepest, lets)
