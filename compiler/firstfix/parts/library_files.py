"""The library that comes with firstfix: neutral generic parts.

Their figures are typical of their kind, their prices invented. Every command loads it and a plan uses few of its
parts, so the files are cut at their names only, and a part is read when it is first asked for.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from firstfix.finding.collector import Collector
from firstfix.parts.facts import TYPICAL
from firstfix.parts.layers import PartsOnDemand
from firstfix.parts.part import Library, Part
from firstfix.parts.read import read_parts
from firstfix.source.node import Mapping, Node
from firstfix.source.reader import parse

_FOLDER = Path(__file__).parent / "library"
# In our own files a part's name begins a line, and nothing else does but comments.
_NAME = re.compile(rb"^([a-z0-9-]+):", re.MULTILINE)

_KIND = re.compile(rb"\b(kind|like): ([a-z0-9-]+)")


class LibraryError(Exception):
    """A fault of ours: a part file that we ship does not read cleanly."""


class _Entry(NamedTuple):
    """The text of one part, and after how many lines of its file it begins."""

    file: str
    lines_before: int
    text: bytes


class ShippedParts(PartsOnDemand):
    """Parts by name in the order of their files; each is read once, together with what it is like."""

    def __init__(self, entries: dict[str, _Entry]) -> None:
        super().__init__(entries, self._read, self._kind_of)
        self._entries = entries
        self._kinds: dict[str, str] = {}
        self._being_read: list[str] = []

    def written(self, name: str) -> Node | None:
        """The table of a part as our file has it, without what it is like."""
        entry = self._entries.get(name)
        tree = None if entry is None else parse(entry.text, entry.file, Collector())
        return tree.value(name) if isinstance(tree, Mapping) else None

    def _kind_of(self, name: str) -> str:
        """By the text alone: its own `kind:`, else that of the part it is like."""
        if name not in self._kinds:
            match = _KIND.search(self._entries[name].text)
            key, value = match.groups() if match else (b"kind", b"")
            self._kinds[name] = value.decode() if key == b"kind" else self._kind_of(value.decode())
        return self._kinds[name]

    def _read(self, name: str) -> Part:
        entry = self._entries[name]
        if name in self._being_read:
            raise LibraryError(f"{entry.file}: the part '{name}' is like itself")
        self._being_read.append(name)
        try:
            return _clean(entry, self)[name]
        finally:
            self._being_read.pop()


def _clean(entry: _Entry, known: Library) -> dict[str, Part]:
    """What `entry` holds, with its faults at their places in the file."""
    faults = Collector()
    tree = parse(b"\n" * entry.lines_before + entry.text, entry.file, faults)
    parts = {} if tree is None else read_parts(tree, known, faults, TYPICAL)
    if faults.findings:
        first = faults.findings[0]
        raise LibraryError(f"{first.primary}: {first.message}")
    return parts


@lru_cache(maxsize=1)
def library() -> ShippedParts:
    """All parts we ship, by name, in the order of the files' names."""
    found: dict[str, _Entry] = {}
    for path in sorted(_FOLDER.glob("*.yaml")):
        for name, entry in _entries(path.name, path.read_bytes()):
            if name in found:
                raise LibraryError(f"{path.name}: there is a part '{name}' already")
            found[name] = entry
    return ShippedParts(found)


def _entries(file: str, text: bytes) -> Iterator[tuple[str, _Entry]]:
    starts = [(match.group(1).decode(), match.start()) for match in _NAME.finditer(text)]
    if not starts:
        _clean(_Entry(file, 0, text), {})
    lines, last = 0, 0
    for (name, start), (_, end) in zip(starts, [*starts[1:], ("", len(text))], strict=True):
        lines += text.count(b"\n", last, start)
        last = start
        yield name, _Entry(file, lines, text[start:end])
