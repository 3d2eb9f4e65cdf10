"""What needs a thing, in few words: "core, panel and 5 more (holds it on the rails)"."""

from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Item
from firstfix.build.ids import natural
from firstfix.build.model import Build

_SHOWN_NAMES = 2
# Spreadsheets cut a cell off after some 32,000 characters (from memory); 200 names with reasons stay well below.
_MOST_NAMES = 200


class Reason(NamedTuple):
    """One thing that needs some of a line: its name, as people read it, and why ("" where the name says it)."""

    name: str
    why: str


def reasons(build: Build, items: Iterable[Item]) -> tuple[Reason, ...]:
    """In the natural order of names, each once."""
    found = {Reason(shown(build, item.for_id), _why(build, item)) for item in items}
    return tuple(sorted(found, key=lambda each: (natural(each.name), each.why)))


def shown(build: Build, id_: str) -> str:
    """An id as the author would say it; a piece by its two ends, "panel/3–core/5"; a fitting by its place."""
    if id_ in build.pieces:
        return "–".join(ids.path(end).removesuffix("@rear") for end in build.pieces[id_].ends)
    if id_ in build.fittings:
        cabinet, _, unit = ids.path(id_).partition("/")
        return f"{cabinet} unit {unit}"
    return ids.path(id_).removesuffix("@rear") if ":" in id_ else id_


def in_short(given: tuple[Reason, ...]) -> str:
    """The first names and how many more; the why only where it is the same for all.

    >>> in_short((Reason("core", "holds it"), Reason("panel", "holds it"), Reason("ups", "holds it")))
    'core, panel and 1 more (holds it)'
    """
    names = _names(given)
    more = len(names) - _SHOWN_NAMES
    text = ", ".join(names[:_SHOWN_NAMES]) + (f" and {more} more" if more > 0 else "")
    whys = {each.why for each in given}
    return _worded(text, whys.pop() if len(whys) == 1 else "")


def in_full(given: tuple[Reason, ...]) -> str:
    """Every name, with every why: "panel (fills opening 1, fills opening 2), out-hall (fills opening 1)"."""
    whys: dict[str, list[str]] = {}
    for each in given:
        whys.setdefault(each.name, []).append(each.why)
    texts = [_worded(name, ", ".join(filter(None, some))) for name, some in whys.items()]
    more = len(texts) - _MOST_NAMES
    return ", ".join(texts[:_MOST_NAMES]) + (f" and {more} more" if more > 0 else "")


def _names(given: tuple[Reason, ...]) -> list[str]:
    return list(dict.fromkeys(each.name for each in given if each.name))


def _worded(name: str, why: str) -> str:
    return f"{name} ({why})" if name and why else name or why


def _why(build: Build, item: Item) -> str:
    """Nothing for the thing itself: "core" says it."""
    thing = (
        build.devices.get(item.for_id) or build.cabinets.get(item.for_id) or build.fittings.get(item.for_id)
    )
    own = build.pieces[item.for_id].part if item.for_id in build.pieces else thing.part.name if thing else ""
    return "" if item.part == own else item.why
