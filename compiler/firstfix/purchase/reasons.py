"""What needs a thing, in few words: "core, panel and 5 more (fixing to the rails)"."""

import re
from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Item
from firstfix.build.model import Build

_SHOWN_NAMES = 2
_SHOWN_REASONS = 3


class Reason(NamedTuple):
    """`quantity` things are needed because of `why`, by `names` (for people, in natural order, each once)."""

    why: str
    names: tuple[str, ...]
    quantity: int


def reasons(build: Build, items: Iterable[Item]) -> tuple[Reason, ...]:
    """One reason for each different `why`, the one with most things first."""
    names: dict[str, set[str]] = {}
    counts: dict[str, int] = {}
    for item in items:
        names.setdefault(item.why, set()).add(shown(build, item.for_id))
        counts[item.why] = counts.get(item.why, 0) + item.count
    found = (Reason(why, tuple(sorted(names[why] - {""}, key=natural)), counts[why]) for why in names)
    return tuple(sorted(found, key=lambda each: (-each.quantity, each.why)))


def shown(build: Build, id_: str) -> str:
    """An id as the author would say it; a piece by its two ends, "panel/3–core/5"."""
    if id_ in build.pieces:
        return "–".join(ids.path(end).removesuffix("@rear") for end in build.pieces[id_].ends)
    return ids.path(id_).removesuffix("@rear") if ":" in id_ else id_


def natural(name: str) -> tuple[tuple[bool, int, str], ...]:
    """A sort key by which cam-2 comes before cam-10."""
    return tuple(
        (not each.isdigit(), int(each) if each.isdigit() else 0, each) for each in re.split(r"([0-9]+)", name)
    )


def in_short(given: tuple[Reason, ...]) -> str:
    """
    >>> in_short((Reason("mounting", ("core", "panel", "ups"), 12),))
    'core, panel and 1 more (mounting)'
    """
    texts = [_in_short(each) for each in given[:_SHOWN_REASONS]]
    rest = sum(each.quantity for each in given[_SHOWN_REASONS:])
    return "; ".join([*texts, f"and {rest} for other reasons"] if rest else texts)


def in_full(given: tuple[Reason, ...]) -> str:
    return "; ".join(_worded(", ".join(each.names), each.why) for each in given)


def _in_short(reason: Reason) -> str:
    more = len(reason.names) - _SHOWN_NAMES
    names = ", ".join(reason.names[:_SHOWN_NAMES]) + (f" and {more} more" if more > 0 else "")
    return _worded(names, reason.why)


def _worded(names: str, why: str) -> str:
    return f"{names} ({why})" if names and why else names or why
