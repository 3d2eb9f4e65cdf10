"""A piece of work: what is done, where, after what, with what in hand, and how one sees that it is right."""

from dataclasses import dataclass
from enum import IntEnum
from typing import NamedTuple


class Stage(IntEnum):
    """Work of one kind, in the order one would like to do it, the author's own as soon as they can be; what must come first is in the precedences."""

    OWN = 0
    UNPACK = 1
    PREPARE = 2
    CABINET = 3
    HEAVY = 4
    PULL = 5
    FITTINGS = 6
    TERMINATE = 7
    TEST = 8
    CLOSE = 9
    MOUNT = 10
    BOND = 11
    PATCH = 12
    PLUG_IN = 13
    FEED = 14
    SET_UP = 15
    PROVE = 16
    FINISH = 17


class Precedence(NamedTuple):
    """The task `before` must be done first, because of `why` (half a sentence)."""

    before: str
    why: str


class Check(NamedTuple):
    """What is looked at or measured, and what it must show; "cannot tell" where the build does not know."""

    what: str
    expected: str


@dataclass(frozen=True, slots=True)
class Task:
    """One step. `id` is its verb and the id of what it is done to: it stays when the plan's lines move.

    `building` and `room` are ids or ""; `height` the lowest rack unit it is about, or 0. `parts` are
    item ids that are used up or put in. `records` name what to write down at this step.
    """

    id: str
    stage: Stage
    subject: str
    title: str
    building: str
    room: str
    height: int
    phase: str
    after: tuple[Precedence, ...]
    parts: tuple[str, ...]
    tools: tuple[str, ...]
    checks: tuple[Check, ...]
    cautions: tuple[str, ...]
    records: tuple[str, ...]


def task_id(verb: str, subject: str) -> str:
    """
    >>> task_id("pull", "piece:core--desk/1")
    'pull:piece/core--desk/1'
    """
    return f"{verb}:{subject.replace(':', '/', 1)}"
