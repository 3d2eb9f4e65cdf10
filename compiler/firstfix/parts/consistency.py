"""What a part says of itself must agree: a jack that gives power is one of its jacks, none has a name twice.

Takes a part as read; gives the key that is at fault, and one sentence.
Whether the part suits its place is for the rules.
"""

from collections.abc import Iterable, Iterator

from firstfix.parts.part import Part

Inconsistency = tuple[str, str]


def inconsistencies(part: Part) -> Iterator[Inconsistency]:
    names = [each.name for each in part.jacks]
    yield from _named_twice(part, names)
    for key, used in _uses(part):
        missing = sorted(set(used) - set(names))
        # A part without any jack is told so: it lacks a fact.
        if names and missing:
            yield key, f"the part '{part.name}' has no jack '{missing[0]}' that '{key}' names"
    if part.takes_poe is not None and part.gives_poe is not None:
        both = sorted(set(part.takes_poe.jacks) & set(part.gives_poe.jacks))
        if both:
            yield "gives-poe", f"jack '{both[0]}' of the part '{part.name}' takes PoE and gives it"


def _named_twice(part: Part, names: Iterable[str]) -> Iterator[Inconsistency]:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            key = "openings" if any(each.needs_module for each in part.jacks) else "jacks"
            yield key, f"jack '{name}' of the part '{part.name}' is given twice"
            return
        seen.add(name)


def _uses(part: Part) -> Iterator[tuple[str, tuple[str, ...]]]:
    yield "passes", tuple(name for each in part.passes for name in (each.near, each.far))
    if part.takes_poe is not None:
        yield "takes-poe", part.takes_poe.jacks
    if part.gives_poe is not None:
        yield "gives-poe", part.gives_poe.jacks
    if part.surge is not None:
        yield "surge", tuple(filter(None, (part.surge.line, part.surge.guarded)))
