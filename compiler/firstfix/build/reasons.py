"""Why the build is as it is, and what could not be settled: decisions, gaps, and where each value was written."""

from typing import NamedTuple

from firstfix.source.node import Mapping, Node, Scalar
from firstfix.span import Span

WRITTEN = "written"
KEPT = "kept"
WORKED_OUT = "worked out"
# Under this id the whole plan is recorded, for what has no id of its own: its parts, its cabling.
PLAN = "plan:"
# Why a length is not known, where a fault that has a finding of its own is the reason.
NO_ROOM = "a room at one of its ends is not known"
LOST_WAY = "a way that may lead there has a fault"


class Decision(NamedTuple):
    """`attribute` of `subject` became `value`. `origin` is written, kept or worked out, by the pass `by`, for the reason `why`;
    `others` are the rejected candidates, each with its reason."""

    subject: str
    attribute: str
    value: str
    origin: str
    by: str
    why: str
    others: tuple[str, ...] = ()


class Gap(NamedTuple):
    """What could not be settled, and why. A rule of the same id reports it. `instead`: what to write at `at`, where that can be told."""

    rule: str
    subject: str
    why: str
    at: Span | None
    instead: str = ""


class Provenance:
    """Where the author wrote a thing: id to its key and value in the tree. Outside the build's equality and bytes."""

    __slots__ = ("_nodes",)

    def __init__(self) -> None:
        self._nodes: dict[str, tuple[Scalar | None, Node]] = {}

    def record(self, id_: str, key: Scalar | None, value: Node) -> None:
        self._nodes.setdefault(id_, (key, value))

    def span(self, id_: str, attribute: str = "") -> Span | None:
        """The narrowest known place: the attribute's value, else the thing's name, else where it is written at all."""
        entry = self._nodes.get(id_)
        if entry is None:
            return None
        key, value = entry
        if attribute and isinstance(value, Mapping):
            found = value.value(attribute)
            if found is not None:
                return found.span
        return value.span if key is None else key.span

    def node(self, id_: str) -> Node | None:
        """What the author wrote of a thing, or None where nobody wrote it. `PLAN` is the whole plan."""
        entry = self._nodes.get(id_)
        return None if entry is None else entry[1]

    def written(self, id_: str, *keys: str) -> Span | None:
        """The place of the value at `keys`, one below the other, and None where the author left it out."""
        node = self.node(id_)
        for key in keys:
            node = node.value(key) if isinstance(node, Mapping) else None
        return None if node is None else node.span
