"""Bytes to a tree: libyaml's events into our own nodes, with limits.

PyYAML's C events are taken raw, since every loader above them is several times slower, loses duplicate keys or loses positions.
The loop keeps its own stack, so deep input cannot exhaust Python's.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import yaml
from yaml.cyaml import CParser  # type: ignore[attr-defined]  # the stubs hide it

from firstfix.finding.collector import Collector
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Label
from firstfix.source import kinds
from firstfix.source.doubt import leave_out
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip
from firstfix.source.syntax import slip_of
from firstfix.span import Span, whole_file

MOST_BYTES = 24 * 1024 * 1024
# A value takes about 300 bytes of memory; a plan of ten thousand devices has half a million.
MOST_NODES = 1_500_000
MOST_DEPTH = 64
# Values with every alias written out. Honest plans repeat a few dozen values.
MOST_EXPANDED = 2_000_000


# Texts that no key has unless it is quoted.
_ODD_KEYS = ("", "<<")


@contextmanager
def garbage_collection_paused() -> Iterator[None]:
    """A tree has no cycles to find; scanning for them while it grows takes more time than reading does."""
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_enabled:
            gc.enable()


def parse(data: bytes, file: str, faults: Collector) -> Node | None:
    """The tree of one file, or None with at least one finding that says why there is none."""
    if len(data) > MOST_BYTES:
        message = f"the file has {len(data):,} bytes; at most {MOST_BYTES:,} are read"
        faults.add(kinds.FILE_SIZE, message, whole_file(file))
        return None
    text = _decoded(data, file, faults)
    if text is None:
        return None
    with garbage_collection_paused():
        try:
            return _Reader(file, faults).tree(text)
        except _Unreadable:
            return None
        except yaml.YAMLError as fault:
            _report_syntax(fault, file, text, faults)
            return None


def _decoded(data: bytes, file: str, faults: Collector) -> str | None:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        before = data[: fault.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        byte = data[fault.start]
        faults.add(
            kinds.ENCODING,
            f"the byte 0x{byte:02x} is not UTF-8 text; save the file as UTF-8",
            Span(file, line, column, line, column + 1),
        )
        return None


def _report_syntax(fault: yaml.YAMLError, file: str, text: str, faults: Collector) -> None:
    slip = slip_of(fault, text)
    # libyaml looks ahead for the end of a bracketed key and has a depth limit of its own, reached before ours.
    kind = kinds.NESTING if "nest far deeper" in slip.message else kinds.SYNTAX
    faults.add(kind, slip.message, slip.span(file), cures=slip.cures(file))


def _tagged(event: Any) -> str:
    return (
        f"the tag {clip(event.tag)} stands here; a plan has none: put a text that begins with '!' in quotes"
    )


class _Unreadable(Exception):
    """Raised once the finding that says why is recorded."""


class _Reader:
    """One pass over the events of one file."""

    def __init__(self, file: str, faults: Collector) -> None:
        self._file = file
        self._faults = faults
        self._repeated = 0
        self._anchors: dict[str, tuple[Node, int]] = {}

    def tree(self, text: str) -> Node:
        parser = CParser(text)
        try:
            root = self._document(parser)
        finally:
            parser.dispose()
        if root is None:
            self._faults.add(kinds.EMPTY, "the file is empty", whole_file(self._file))
            raise _Unreadable
        return root

    def _stop(self, kind: Kind, message: str, event: Any) -> None:
        start = event.start_mark
        span = Span(self._file, start.line + 1, start.column + 1, start.line + 1, start.column + 2)
        self._faults.add(kind, message, span)
        raise _Unreadable

    def _document(self, parser: Any) -> Node | None:
        file = self._file
        next_event = parser.get_event
        scalar_event, alias_event = yaml.ScalarEvent, yaml.AliasEvent
        mapping_start, sequence_start = yaml.MappingStartEvent, yaml.SequenceStartEvent
        mapping_end, sequence_end = yaml.MappingEndEvent, yaml.SequenceEndEvent
        root: Node | None = None
        documents = count = 0
        # The open containers, each with the key that waits for its value, its anchor, and the count when it opened.
        stack: list[tuple[Node, str | None, int]] = []
        key: Scalar | None = None
        keys: list[Scalar | None] = []
        top: Node | None = None
        while True:
            event = next_event()
            kind = type(event)
            if kind is scalar_event:
                start, end = event.start_mark, event.end_mark
                node: Node = Scalar(
                    file, start.line + 1, start.column + 1, end.line + 1, end.column + 1, event.value, not event.style
                )  # fmt: skip
                count += 1
                if event.tag is not None:
                    self._stop(kinds.TAG, _tagged(event), event)
                if event.anchor is not None:
                    self._anchors[event.anchor] = (node, 1)
            elif kind is mapping_start or kind is sequence_start:
                if event.tag is not None:
                    self._stop(kinds.TAG, _tagged(event), event)
                if type(top) is Mapping and key is None:
                    self._stop(kinds.KEY_FORM, "a list or table stands where a key belongs", event)
                if len(stack) >= MOST_DEPTH:
                    self._stop(kinds.NESTING, f"values nest deeper than {MOST_DEPTH} levels here", event)
                start = event.start_mark
                maker = Mapping if kind is mapping_start else Sequence
                container = maker(file, start.line + 1, start.column + 1)
                count += 1
                stack.append((container, event.anchor, count + self._repeated))
                keys.append(key)
                key = None
                top = container
                continue
            elif kind is mapping_end or kind is sequence_end:
                node, anchor, before = stack.pop()
                key = keys.pop()
                end = event.end_mark
                node.end_line, node.end_column = end.line + 1, end.column + 1
                if anchor is not None:
                    self._anchors[anchor] = (node, count + self._repeated - before + 1)
                top = stack[-1][0] if stack else None
            elif kind is alias_event:
                node = self._alias(event, stack, count)
            elif kind is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    self._stop(kinds.DOCUMENT_COUNT, "a second document begins here; remove this line", event)
                continue
            elif kind is yaml.StreamEndEvent:
                return root
            else:
                continue
            # A finished node goes to whatever is open above it.
            if type(top) is Mapping:
                if key is not None:
                    if key.text in top.entries:
                        self._report_twice(top.entries[key.text][0], key, node)
                    else:
                        top.entries[key.text] = (key, node)
                    key = None
                elif type(node) is Scalar and node.text not in _ODD_KEYS:
                    key = node
                else:
                    key = self._key(node, event)
            elif type(top) is Sequence:
                top.items.append(node)
            else:
                root = node
            if count > MOST_NODES:
                self._stop(kinds.FILE_SIZE, f"the file has more than {MOST_NODES:,} values", event)

    def _alias(self, event: Any, stack: list[tuple[Node, str | None, int]], count: int) -> Node:
        known = self._anchors.get(event.anchor)
        if known is None:
            opened = any(anchor == event.anchor for _, anchor, _ in stack)
            no_anchor = "has no anchor above it; put a text that begins with '*' in quotes"
            reason = "stands inside its own anchor" if opened else no_anchor
            self._stop(kinds.SYNTAX, f"the alias *{clip(event.anchor)} {reason}", event)
        assert known is not None
        node, size = known
        self._repeated += size
        if count + self._repeated > MOST_EXPANDED:
            message = f"with its aliases written out, the file has more than {MOST_EXPANDED:,} values"
            self._stop(kinds.ALIASES, message, event)
        return node

    def _key(self, node: Node, event: Any) -> Scalar:
        if not isinstance(node, Scalar):
            self._stop(kinds.KEY_FORM, "a list or table stands where a key belongs", event)
        assert isinstance(node, Scalar)
        if node.plain and node.text == "":
            self._stop(kinds.KEY_FORM, "a key is missing before this colon", event)
        if node.plain and node.text == "<<":
            message = "the merge key '<<' belongs to YAML 1.1; use `defaults:` or write the keys out"
            self._stop(kinds.KEY_FORM, message, event)
        return node

    def _report_twice(self, first: Scalar, key: Scalar, dropped: Node) -> None:
        leave_out(dropped, self._faults)
        message = f"the key '{clip(key.text)}' stands twice in this table"
        related = (Label(first.span, "first written here"),)
        self._faults.add(kinds.KEY_DUPLICATE, message, key.span, subject=clip(key.text), related=related)
