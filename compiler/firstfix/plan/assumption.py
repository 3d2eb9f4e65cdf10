"""One change that somebody thinks of, as written on the command line: a path of the plan's own keys, and what would stand there.

    devices.cam-9={part: camera, room: barn, plugs-into: core}    laid over what is there, entry by entry
    ways.yard-duct.length+=20 m                                    so much more, or one more in a list; -= the other way round
    no devices.cam-yard                                            taken away
    sold-out switch-16-poe                                         nothing of that part may be bought

Takes the text; gives an Assumption whose nodes stand in a file of their own, so that every message points into the text.
"""

import re
from typing import NamedTuple

from firstfix.finding.collector import Collector
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Node, Scalar, clip
from firstfix.source.reader import parse

SET, MORE, LESS, AWAY = "=", "+=", "-=", "no"
SOLD_OUT = "sold-out"
LONGEST = 10_000
# Nothing in a plan stands as far down.
MOST_KEYS = 24
# What a list of parts that are sold out is called in the plan.
SOLD_OUT_PATH = "purchase.sold-out"

_CHANGE = re.compile(r"\s*([^=\s]+?)\s*(\+=|-=|=)(.*)", re.DOTALL)
_WORD = re.compile(r"\s*(no|sold-out)\s+(\S+)\s*")
# A dot between keys; the two dots of a series belong to its name.
_BETWEEN_KEYS = re.compile(r"(?<!\.)\.(?!\.)")
_FORMS = "an assumption is KEY.KEY=VALUE, KEY.KEY+=VALUE, 'no KEY.KEY' or 'sold-out PART'"


class AssumptionError(Exception):
    """It cannot be understood, or not be made of this plan; the text is one sentence for its user."""


class Assumption(NamedTuple):
    """`path`: keys from the plan's own down, each at its place in `text`. `value` is None where something is taken away.

    `file` is what the text is called where a place is shown.
    """

    text: str
    file: str
    how: str
    path: tuple[Scalar, ...]
    value: Node | None


def read_assumption(text: str, file: str) -> Assumption:
    """Raises AssumptionError where `text` says no change; whether the plan has what it names is seen when it is made."""
    if len(text) > LONGEST:
        raise AssumptionError(f"{file}: it has {len(text):,} characters; at most {LONGEST:,} are read")
    word, change = _WORD.fullmatch(text), _CHANGE.fullmatch(text)
    if word is not None and word[1] == SOLD_OUT:
        path = tuple(_key(key, file, text, 0) for key in SOLD_OUT_PATH.split("."))
        return Assumption(text, file, MORE, path, _key(word[2], file, text, word.start(2)))
    if word is not None:
        return Assumption(text, file, AWAY, _path(word[2], file, text, word.start(2)), None)
    if change is None:
        raise AssumptionError(f"{file}: '{clip(text)}' says no change{_near_word(text)}; {_FORMS}")
    path = _path(change[1], file, text, change.start(1))
    return Assumption(text, file, change[2], path, _value(text, change.start(3), file))


def _near_word(text: str) -> str:
    first, _, rest = text.strip().partition(" ")
    return did_you_mean(first, (AWAY, SOLD_OUT, "sold-out")) if rest else ""


def _path(text: str, file: str, whole: str, start: int) -> tuple[Scalar, ...]:
    found = list[Scalar]()
    for key in _BETWEEN_KEYS.split(text):
        if not key:
            raise AssumptionError(f"{file}: a key is missing before or after a dot of '{clip(text)}'")
        found.append(_key(key, file, whole, start))
        start += len(key) + 1
    if len(found) > MOST_KEYS:
        raise AssumptionError(f"{file}: '{clip(text)}' has {len(found):,} keys; at most {MOST_KEYS} are read")
    return tuple(found)


def _key(key: str, file: str, whole: str, start: int) -> Scalar:
    line, column = _place(whole, start)
    return Scalar(file, line, column, line, column + len(key), key, plain=True)


def _place(whole: str, start: int) -> tuple[int, int]:
    before = whole[:start]
    return before.count("\n") + 1, start - before.rfind("\n")


def _value(text: str, start: int, file: str) -> Node:
    """What stands from `start` on, by the plan's own reader; blanks stand for what is before it, so that its places are right."""
    if not text[start:].strip():
        raise AssumptionError(f"{file}: nothing stands after '{clip(text[:start].strip())}'")
    faults = Collector()
    blank = re.sub(r"[^\n]", " ", text[:start])
    value = parse((blank + text[start:]).encode("utf-8", "backslashreplace"), file, faults)
    if value is None or faults.findings:
        (fault, *_) = faults.findings
        column = f":{fault.primary.column}" if fault.primary is not None else ""
        raise AssumptionError(f"{file}{column}: what stands after the sign is no value: {fault.message}")
    return value
