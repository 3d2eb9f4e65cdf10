"""Bytes to a tree: libyaml's events into our own nodes, with limits.

PyYAML's C events are taken raw, since every loader above them is several times slower, loses duplicate keys or loses positions.
The loop keeps its own stack, so deep input cannot exhaust Python's.
"""

import gc
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import yaml
from yaml.cyaml import CParser  # type: ignore[attr-defined]  # the stubs hide it

from firstfix.finding.collector import Collector
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Label
from firstfix.source import kinds
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip
from firstfix.span import Span, whole_file

MOST_BYTES = 24 * 1024 * 1024
# A value takes about 300 bytes of memory; a plan of ten thousand devices has half a million.
MOST_NODES = 1_500_000
MOST_DEPTH = 64
# Values with every alias written out. Honest plans repeat a few dozen values.
MOST_EXPANDED = 2_000_000


# A series with its range in braces (`cam-{1..4}`), where brackets are open already.
_BRACED_RANGE = re.compile(r"\{[0-9]+\.\.[0-9]+\}")
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
            f"the byte 0x{byte:02x} is not UTF-8 text",
            Span(file, line, column, line, column + 1),
        )
        return None


def _report_syntax(fault: yaml.YAMLError, file: str, text: str, faults: Collector) -> None:
    mark: Any = getattr(fault, "problem_mark", None) or getattr(fault, "context_mark", None)
    if mark is None:
        # The reader below the scanner reports an offset in characters only, for a character YAML forbids.
        position = getattr(fault, "position", 0)
        before = text[:position]
        line, column = before.count("\n") + 1, position - (before.rfind("\n") + 1) + 1
        message = "a control character stands here, which YAML does not allow"
    else:
        line, column = mark.line + 1, mark.column + 1
        message = _plain_words(str(getattr(fault, "problem", None) or "this is not YAML"))
    lines = text.split("\n", line)[:line]
    if len(lines) == line and "\t" in lines[-1][: max(column, 1)] + lines[-1][column - 1 : column]:
        message = "a tab stands here; YAML is indented with spaces only"
    if len(lines) == line and _BRACED_RANGE.match(lines[-1], column - 1):
        message = "within brackets, YAML takes these braces for a table of their own; write the series without them: cam-1..4"
    # libyaml looks ahead for the end of a bracketed key and has a depth limit of its own, reached before ours.
    kind = kinds.NESTING if "nesting depth" in message else kinds.SYNTAX
    faults.add(kind, message, Span(file, line, column, line, column + 1))


def _plain_words(problem: str) -> str:
    """libyaml's own words for the commonest slips, said so that they help."""
    known = {
        "mapping values are not allowed in this context": "a colon stands where no key can begin; quote the text, or mend the indent",
        "could not find expected ':'": "a colon is missing after a key, here or on the line above",
        "did not find expected key": "a key was expected here; the indent or a quote above may be off",
        "did not find expected '-' indicator": "a list item that begins with '-' was expected here",
        "found unexpected end of stream": "the text ends before a quote that was opened is closed",
        "exceeded maximum nesting depth": f"values nest far deeper than {MOST_DEPTH} levels here",
        "found undefined alias": "this alias (*name) has no anchor (&name) above it",
        "found character that cannot start any token": "no value can begin with this character; put the text in quotes",
    }
    return known.get(problem, problem)


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
                    self._stop(kinds.TAG, f"the tag {clip(event.tag)} stands here; a plan has no tags", event)
                if event.anchor is not None:
                    self._anchors[event.anchor] = (node, 1)
            elif kind is mapping_start or kind is sequence_start:
                if event.tag is not None:
                    self._stop(kinds.TAG, f"the tag {clip(event.tag)} stands here; a plan has no tags", event)
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
                    self._stop(kinds.DOCUMENT_COUNT, "a second document begins here", event)
                continue
            elif kind is yaml.StreamEndEvent:
                return root
            else:
                continue
            # A finished node goes to whatever is open above it.
            if type(top) is Mapping:
                if key is not None:
                    if key.text in top.entries:
                        self._report_twice(top.entries[key.text][0], key)
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
            reason = "stands inside its own anchor" if opened else "has no anchor above it"
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

    def _report_twice(self, first: Scalar, key: Scalar) -> None:
        message = f"the key '{clip(key.text)}' stands twice in this table"
        related = (Label(first.span, "first written here"),)
        self._faults.add(kinds.KEY_DUPLICATE, message, key.span, subject=clip(key.text), related=related)
