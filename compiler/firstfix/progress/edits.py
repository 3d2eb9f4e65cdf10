"""Which characters of a progress file to replace, so that a record is in it: found by the places that the reader gives."""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.progress.scalars import key_text, value_text
from firstfix.source.node import Mapping as Table
from firstfix.source.node import Node, Scalar, is_null

# A line ends where libyaml says that it ends, or its line numbers could not be followed (YAML 1.1, 4.1.4).
_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_OPENS_FLOW = ("{", "[")


class CannotChangeError(Exception):
    """The file cannot be edited as asked, and nothing is changed; the text is half a sentence with the reason."""


class Change(NamedTuple):
    """Write `values` into the record `name` of the table `section`; with None, take the whole record out."""

    section: str
    name: str
    values: Mapping[str, str] | None


class Edit(NamedTuple):
    """Replace the characters from `start` up to `end`."""

    start: int
    end: int
    text: str


def entries_of(node: Node) -> dict[str, tuple[Scalar, Node]]:
    return node.entries if isinstance(node, Table) else {}


def says_only_done(node: Node) -> bool:
    return is_null(node) or (isinstance(node, Scalar) and node.plain and node.text.lower() == "true")


class Editor:
    """Finds the characters to replace. Works on one text and its tree, neither of which it changes."""

    def __init__(self, text: str, root: Table | None) -> None:
        self._text = text
        self._root = root
        self._starts = [0, *(found.end() for found in _BREAK.finditer(text))]
        first = _BREAK.search(text)
        self._eol = first.group() if first else "\n"

    def edits(self, changes: Iterable[Change]) -> Iterator[Edit]:
        by_section: dict[str, list[Change]] = {}
        for change in changes:
            by_section.setdefault(change.section, []).append(change)
        for section, wanted in by_section.items():
            yield from self._in_section(section, wanted)

    def _in_section(self, section: str, changes: list[Change]) -> Iterator[Edit]:
        entry = self._root.entries.get(section) if self._root is not None else None
        known = entries_of(entry[1]) if entry is not None else {}
        for change in changes:
            if change.name in known:
                yield from self._on_record(change, *known[change.name])
        new = [each for each in changes if each.name not in known and each.values is not None]
        if not new:
            return
        if entry is None:
            yield self._new_section(section, new)
        elif is_null(entry[1]):
            yield self._after_line(entry[0].end_line, new, self._margin() + 2)
        elif isinstance(entry[1], Table):
            yield self._into_table(entry[1], new)
        else:
            raise CannotChangeError(f"'{section}' is no table in it")

    def _new_section(self, section: str, new: list[Change]) -> Edit:
        if self._root is not None and self._is_flow(self._root):
            raise CannotChangeError("it is all one table in braces")
        end = len(self._text)
        opening = "" if self._starts[-1] == end else self._eol
        margin = self._margin()
        lines = [" " * margin + f"{section}:", *self._lines(new, margin + 2)]
        return Edit(end, end, opening + "".join(line + self._eol for line in lines))

    def _margin(self) -> int:
        """By how much the file's own tables are indented: nearly always nothing."""
        if self._root is None or not self._root.entries:
            return 0
        return next(iter(self._root.entries.values()))[0].column - 1

    def _into_table(self, table: Table, new: list[Change]) -> Edit:
        last_key, last = list(table.entries.values())[-1] if table.entries else (None, None)
        if self._is_flow(table):
            inside = ", ".join(f"{key_text(each.name)}: {_braced(each.values or {})}" for each in new)
            if last_key is None or last is None:
                at = self._offset(table.line, table.column) + 1
                return Edit(at, at, inside)
            at = self._end(last_key, last)
            return Edit(at, at, f", {inside}")
        if last_key is None or last is None:
            raise CannotChangeError("a table in it has no entry to go by")
        return self._after_line(self._last_line(last_key, last), new, last_key.column - 1)

    def _after_line(self, line: int, new: list[Change], indent: int) -> Edit:
        """New lines below `line`, and below what its comment says."""
        end = self._end_of_line(line)
        return Edit(end, end, "".join(self._eol + each for each in self._lines(new, indent)))

    def _lines(self, new: list[Change], indent: int) -> list[str]:
        return [" " * indent + f"{key_text(each.name)}: {_braced(each.values or {})}" for each in new]

    # One record that is there

    def _on_record(self, change: Change, key: Scalar, value: Node) -> Iterator[Edit]:
        if change.values is None:
            yield self._without(key, value)
        elif isinstance(value, Table):
            yield from self._into_record(change.values, value)
        elif isinstance(value, Scalar):
            if not change.values and not is_null(value):
                return
            date = {} if says_only_done(value) else {"on": value.text}
            start, end = self._span(value)
            gap = " " if is_null(value) and self._text[start - 1 : start] == ":" else ""
            yield Edit(start, end, gap + _braced({**date, **change.values}))
        else:
            raise CannotChangeError(f"'{change.name}' is a list in it")

    def _into_record(self, values: Mapping[str, str], record: Table) -> Iterator[Edit]:
        new = {}
        for key, text in values.items():
            if key not in record.entries:
                new[key] = text
                continue
            old = record.entries[key][1]
            if not isinstance(old, Scalar):
                raise CannotChangeError(f"'{key}' is no single value in it")
            start, end = self._span(old)
            gap = " " if start == end else ""
            if old.text != text:
                yield Edit(start, end, gap + value_text(key, text))
        if new:
            yield self._more_values(new, record)

    def _more_values(self, new: Mapping[str, str], record: Table) -> Edit:
        if self._is_flow(record):
            inside = _braced(new)[1:-1]
            if not record.entries:
                at = self._offset(record.line, record.column) + 1
                return Edit(at, at, inside)
            at = self._end(*list(record.entries.values())[-1])
            return Edit(at, at, f", {inside}")
        last_key, last = list(record.entries.values())[-1]
        end = self._end_of_line(self._last_line(last_key, last))
        indent = " " * (last_key.column - 1)
        lines = (f"{self._eol}{indent}{key}: {value_text(key, text)}" for key, text in new.items())
        return Edit(end, end, "".join(lines))

    def _without(self, key: Scalar, value: Node) -> Edit:
        """The record's lines, when it has them to itself."""
        start = self._starts[key.line - 1]
        last = self._last_line(key, value)
        end = self._starts[last] if last < len(self._starts) else len(self._text)
        if self._text[start : self._offset(key.line, key.column)].strip():
            raise CannotChangeError(f"'{key.text}' has no line of its own in it")
        return Edit(start, end, "")

    # Places

    def _offset(self, line: int, column: int) -> int:
        return self._starts[line - 1] + column - 1

    def _span(self, node: Scalar) -> tuple[int, int]:
        return self._offset(node.line, node.column), self._offset(node.end_line, node.end_column)

    def _end(self, key: Scalar, value: Node) -> int:
        if isinstance(value, Table) and not self._is_flow(value):
            raise CannotChangeError("its layout leaves no safe place for it")
        end = self._offset(value.end_line, value.end_column)
        return max(end, self._offset(key.end_line, key.end_column))

    def _end_of_line(self, line: int) -> int:
        if line >= len(self._starts):
            return len(self._text)
        end = self._starts[line]
        return end - (2 if self._text[max(end - 2, 0) : end] == "\r\n" else 1)

    def _last_line(self, key: Scalar, value: Node) -> int:
        """The last line of an entry. A block's own end lies behind comments and empty lines that follow it."""
        if isinstance(value, Scalar):
            ends_before = value.end_column == 1 and value.end_line > value.line
            return max(key.end_line, value.end_line - ends_before)
        if self._is_flow(value):
            return value.end_line
        return max((self._last_line(*each) for each in entries_of(value).values()), default=value.line)

    def _is_flow(self, node: Node) -> bool:
        at = self._offset(node.line, node.column)
        return self._text[at : at + 1] in _OPENS_FLOW


def _braced(values: Mapping[str, str]) -> str:
    """`{on: 2027-03-14, as: "…"}`, or `true` where there is nothing to say but that it is so."""
    inside = ", ".join(f"{key}: {value_text(key, text)}" for key, text in values.items())
    return "{" + inside + "}" if inside else "true"
