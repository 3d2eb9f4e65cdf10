"""Which facts a part of a kind can have, and what each takes, asked of the reader itself.

A fact is named by its key, one in a table by both: 'mains.inlet'. No list is kept here: the reader is given a value that nothing takes,
and what it finds wrong with it says what it would have taken.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from firstfix.finding.collector import Collector
from firstfix.parts.facts import DATA_SHEET
from firstfix.parts.library_files import ShippedParts, library
from firstfix.parts.part import Part
from firstfix.parts.read import read_parts
from firstfix.parts.reading import UNKNOWN
from firstfix.parts.yaml_text import flow
from firstfix.source.node import Mapping, Node
from firstfix.source.reader import parse

_NOTHING_TAKES = '"?"'
_TAKES = re.compile(r"(?:'[a-z-]+' is )?(.+?)(?:: '\?' .*|, not (?:as )?'\?'.*)")
_REFUSED = "'?' is no "
_TABLE = "written as a table of keys and values"
# What a part is, not what it has.
_NO_FACTS = ("kind", "like", "basis", "title", "note")


class FactForm(NamedTuple):
    """`takes`: in words, "a power" or "one of 'passive', 'fan'"; "" for any text. `example`: as a part of the library has it."""

    fact: str
    takes: str
    may_be_unknown: bool
    example: str


def facts_of(kind: str) -> tuple[str, ...]:
    """Every fact that some part of the library of this kind has, in the order in which they are written there."""
    found: dict[str, None] = {}
    for name in parts_of(kind):
        node = library().written(name)
        found.update(dict.fromkeys(_keys(node, library()[name])))
    return tuple(found)


@lru_cache(maxsize=64)
def parts_of(kind: str) -> tuple[str, ...]:
    return tuple(name for name, part in library().items() if part.kind == kind)


def _keys(node: Node | None, part: Part) -> Iterator[str]:
    for key, (_, value) in node.entries.items() if isinstance(node, Mapping) else ():
        if key in _NO_FACTS:
            continue
        if isinstance(value, Mapping) and _TABLE in _complaint(key, part.name):
            yield from (f"{key}.{each}" for each in value.entries)
        else:
            yield key


def pattern_of(kind: str, fact: str) -> str:
    """The first part of the library of this kind that has the fact, or ""."""
    known = library()
    return next((name for name in parts_of(kind) if fact in known[name].said), "")


def fact_form(kind: str, fact: str) -> FactForm:
    """What the fact takes in a part of this kind. A fact that no part of the library has takes whatever the reader lets pass."""
    name = pattern_of(kind, fact)
    like = name or next(iter(parts_of(kind)), "")
    complaint = _complaint(fact, like)
    takes = _takes(complaint)
    may_be_unknown = bool(complaint) and not _trial(fact, like, UNKNOWN)
    node = written_fact(name, fact)
    return FactForm(fact, takes, may_be_unknown, "" if node is None else flow(node))


def _takes(complaint: str) -> str:
    """
    >>> _takes("'draw' is a power: '?' is not a power; write '15.4 W'")
    'a power'
    >>> _takes("'?' is no jack and no range of jacks such as '1-8'")
    "jack or range of jacks such as '1-8'"
    """
    if complaint.startswith(_REFUSED):
        return complaint.removeprefix(_REFUSED).replace(" and no ", " or ").replace(", no ", ", ").replace(" and not ", " or ")  # fmt: skip
    match = _TAKES.fullmatch(complaint)
    return match[1].removesuffix(" from 0 to 1e+09") if match else complaint


def written_fact(name: str, fact: str) -> Node | None:
    """The value that the library's part has, or the part that it is like."""
    known: ShippedParts = library()
    key, _, below = fact.partition(".")
    while name in known:
        node = known.written(name)
        value = node.value(key) if isinstance(node, Mapping) else None
        if below:
            value = value.value(below) if isinstance(value, Mapping) else None
        if value is not None:
            return value
        name = known[name].like
    return None


def _complaint(fact: str, like: str) -> str:
    return next(iter(_trial(fact, like, _NOTHING_TAKES)), "")


@lru_cache(maxsize=512)
def _trial(fact: str, like: str, value: str) -> tuple[str, ...]:
    """What the reader says of a part that is like another and has this one value."""
    key, _, below = fact.partition(".")
    written = f"{key}: {{{below}: {value}}}" if below else f"{key}: {value}"
    faults = Collector()
    tree = parse(f"trial: {{like: {like}, {written}}}".encode(), "trial", faults)
    if tree is not None:
        read_parts(tree, library(), faults, DATA_SHEET)
    return tuple(finding.message for finding in faults.findings)
