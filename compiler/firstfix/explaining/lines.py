"""How single lines come about: what was written, what was decided, what a figure rests on, how things are called."""

from collections.abc import Callable, Iterable, Iterator

from firstfix.build import ids
from firstfix.build.hardware import Mount
from firstfix.build.model import Build
from firstfix.build.reasons import PLAN, WORKED_OUT, WRITTEN, Decision
from firstfix.explaining.model import Line, Section
from firstfix.explaining.views import views
from firstfix.parts.facts import AUTHOR, Fact, Figure, Unknown
from firstfix.parts.part import Part
from firstfix.span import Span


def sections(*given: tuple[str, Iterable[Line]]) -> tuple[Section, ...]:
    """Those that have something to say."""
    made = (Section(title, tuple(lines)) for title, lines in given)
    return tuple(section for section in made if section.lines)


def said(build: Build, id_: str, what: str, value: str, *keys: str, otherwise: str = "") -> Line:
    """A value that is written at `keys` (the thing's `what` where none are given), or else is so because of `otherwise`."""
    at = build.provenance.written(id_, *(keys or (what,)))
    return Line(what, value, WRITTEN, "", at) if at is not None else Line(what, value, WORKED_OUT, otherwise)


def decided(build: Build, subject: str, attribute: str) -> Decision | None:
    found = views(build).decisions.get(subject, ())
    return next((each for each in found if each.attribute == attribute), None)


def from_decision(what: str, decision: Decision, at: Span | None, value: str = "") -> Line:
    """`value` where people read another word than the decision's own."""
    written = decision.origin == WRITTEN
    why = "" if written else decision.why
    return Line(what, value or decision.value, decision.origin, why, at if written else None, decision.others)


def figure(what: str, given: Figure, shown: Callable[[float], str], at: Span | None = None) -> Line:
    """A figure with its basis; one that nobody gave says why it is not known."""
    if isinstance(given, Unknown):
        return Line(what, "not known", "", given.why)
    return Line(what, spread(given, shown), WRITTEN if given.basis == AUTHOR else given.basis, "", at)


def spread(given: Fact, shown: Callable[[float], str]) -> str:
    if given.low == given.high:
        return shown(given.typical)
    return f"{shown(given.low)} to {shown(given.high)}, typically {shown(given.typical)}"


def part_fact(build: Build, part: Part, what: str, given: Figure, shown: Callable[[float], str], *keys: str) -> Line:  # fmt: skip
    """A figure of a part, and where: in the plan's own part, or in the one that it is like."""
    line = figure(what, given, shown)
    if isinstance(given, Unknown):
        return line._replace(why=f"the part '{part.name}' does not say")
    holder, at = part_written(build, part, *keys)
    return line._replace(why=f"part '{holder}'", at=at)


def part_written(build: Build, part: Part, *keys: str) -> tuple[str, Span | None]:
    """The part that says a thing, following `like`, and the place if the plan itself says it."""
    here: Part | None = part
    name = part.name
    while here is not None and build.provenance.written(PLAN, "parts", here.name) is not None:
        at = build.provenance.written(PLAN, "parts", here.name, *keys)
        if at is not None:
            return here.name, at
        name = here.like or here.name
        here = build.library.get(here.like)
    return name, None


def vlan_names(build: Build, vlan_ids: Iterable[str]) -> str:
    """`house (10), guests (30)`"""
    named = [
        f"{build.vlans[each].name} ({build.vlans[each].vid})" for each in vlan_ids if each in build.vlans
    ]
    return ", ".join(named)


def place_of(mount: Mount) -> str:
    """`main, units 4 to 6`"""
    units = f"unit {mount.high}" if mount.low == mount.high else f"units {mount.low} to {mount.high}"
    face = ", at the rear" if mount.face == "rear" else ""
    return f"{ids.path(mount.cabinet)}, {units}{face}"


def mount_span(build: Build, mount: Mount) -> Span | None:
    return build.provenance.span(f"mount:{ids.path(mount.cabinet)}/{mount.low}-{mount.high}")


def shown_jack(jack: str) -> str:
    """`panel/3`, whichever its face."""
    return ids.path(jack).removesuffix("@rear")


def room_name(build: Build, room: str) -> str:
    """A room as a plan refers to it: alone where there is one site."""
    if room not in build.rooms:
        return ids.path(room)
    return build.rooms[room].name if len(build.sites) == 1 else ids.path(room)


def counted(number: int, one: str) -> str:
    """
    >>> counted(1, "piece"), counted(3, "piece")
    ('1 piece', '3 pieces')
    """
    return f"1 {one}" if number == 1 else f"{number:,} {one}s"


def ranges(names: Iterable[str]) -> Iterator[str]:
    """Neighbours by number together: 3, 4, 5, sfp1 are "3 to 5", "sfp1"."""
    run: list[str] = []
    for name in names:
        if run and not _follows(run[-1], name):
            yield _range(run)
            run = []
        run.append(name)
    if run:
        yield _range(run)


def _range(run: list[str]) -> str:
    return run[0] if len(run) == 1 else f"{run[0]} to {run[-1]}"


def _follows(one: str, other: str) -> bool:
    stem, last = one.rstrip("0123456789"), other.rstrip("0123456789")
    digits, following = one[len(stem) :], other[len(last) :]
    return stem == last and bool(digits) and bool(following) and int(following) == int(digits) + 1
