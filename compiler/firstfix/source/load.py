"""A plan file and what it includes, read from a folder into one tree. The only module above the commands that opens files."""

import os
from collections import deque
from dataclasses import dataclass, field
from pathlib import Path

from firstfix.finding.collector import Collector
from firstfix.source import kinds
from firstfix.source.merge import Merger
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null
from firstfix.source.reader import MOST_BYTES, parse
from firstfix.span import whole_file

MOST_INCLUDES = 64


class UnreadableFile(Exception):
    """A file named on the command line cannot be read; the text is one sentence for its user."""


@dataclass(slots=True)
class Source:
    """One tree from all files of a plan, and the text of each file, for showing places in it. `size` in bytes, of all."""

    tree: Mapping | None
    texts: dict[str, str] = field(default_factory=dict)
    size: int = 0


def load(path: Path, shown_as: str, faults: Collector) -> Source:
    """Read `path` and its includes. Raises UnreadableFile only for `path` itself; all else becomes a finding."""
    source = Source(None)
    root = _read_tree(path, shown_as, source, faults)
    if root is None:
        return source
    if not isinstance(root, Mapping):
        faults.add(
            kinds.EMPTY, f"a plan is a table of keys and values; this file holds {describe(root)}", root.span
        )
        return source
    source.tree = root
    _Includes(path, shown_as, source, faults).merge_into(root)
    return source


def load_beside(path: Path, ending: str, shown_as: str, source: Source, faults: Collector) -> Mapping | None:
    """The tree of the file that stands beside the plan `path` and is called like it, but for `ending`; None without one.

    Nothing but comments in it is as good as no file. `shown_as` is the plan's path as shown to people.
    """
    data = read_beside(path, ending, shown_as, source, faults)
    if data is None or holds_nothing(data):
        return None
    name = beside_name(shown_as, ending)
    root = parse(data, name, faults)
    if root is not None and not isinstance(root, Mapping):
        faults.add(kinds.EMPTY, f"{name} is a table of keys and values, not {describe(root)}", root.span)
    return root if isinstance(root, Mapping) else None


def read_beside(path: Path, ending: str, shown_as: str, source: Source, faults: Collector) -> bytes | None:
    """The bytes of that file; None without one, or with a finding that says why it isn't read. A link may not leave the folder."""
    beside, name = path.with_name(path.stem + ending), beside_name(shown_as, ending)
    if not os.path.lexists(beside):
        return None
    try:
        if beside.resolve().parent != path.parent.resolve():
            raise UnreadableFile(f"{name} leads out of the plan's own folder")
        data = _read_bytes(beside, name)
    except (UnreadableFile, OSError, RuntimeError) as fault:
        told = str(fault) if isinstance(fault, UnreadableFile) else f"{name} leads nowhere"
        faults.add(kinds.INCLUDE, told, whole_file(name))
        return None
    source.size += len(data)
    source.texts[name] = data.decode("utf-8-sig", "replace")
    return data


def holds_nothing(data: bytes) -> bool:
    """Whether a file is empty but for comments."""
    lines = map(bytes.strip, data.removeprefix(b"\xef\xbb\xbf").splitlines())
    return all(line == b"" or line.startswith(b"#") for line in lines)


def beside_name(shown_as: str, ending: str) -> str:
    """
    >>> beside_name("plans/honey-farm.yaml", ".progress.yaml")
    'plans/honey-farm.progress.yaml'
    """
    folder, slash, name = shown_as.rpartition("/")
    stem, dot, _ = name.rpartition(".")
    return f"{folder}{slash}{stem if dot and stem else name}{ending}"


def _read_tree(path: Path, shown_as: str, source: Source, faults: Collector) -> Node | None:
    data = _read_bytes(path, shown_as)
    source.size += len(data)
    source.texts[shown_as] = data.decode("utf-8-sig", "replace")
    return parse(data, shown_as, faults)


def _read_bytes(path: Path, shown_as: str) -> bytes:
    shown_as = clip(shown_as, 200)
    try:
        if path.is_dir():
            raise UnreadableFile(f"{shown_as} is a folder; name the plan file in it")
        if path.exists() and not path.is_file():
            raise UnreadableFile(f"{shown_as} is not an ordinary file")
        with path.open("rb") as stream:
            # One byte over the limit is enough for the reader to refuse the file and say why.
            return stream.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise UnreadableFile(f"there is no file {shown_as}") from None
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "its name cannot be used"
        raise UnreadableFile(f"{shown_as} cannot be read: {reason}") from None


class _Includes:
    """Merges the files that `include:` names into the first one's tree, table by table."""

    def __init__(self, path: Path, shown_as: str, source: Source, faults: Collector) -> None:
        self._folder = path.resolve().parent
        self._shown_folder = shown_as.rpartition("/")[0]
        self._source = source
        self._faults = faults
        self._seen = {path.resolve()}

    def merge_into(self, root: Mapping) -> None:
        waiting = deque(self._named_by(root))
        tried = 0
        while waiting:
            node = waiting.popleft()
            tried += 1
            if tried > MOST_INCLUDES:
                self._faults.add(kinds.INCLUDE, f"more than {MOST_INCLUDES} files are included", node.span)
                return
            if self._source.size > MOST_BYTES:
                message = f"the files read so far have more than {MOST_BYTES:,} bytes; no more are included"
                self._faults.add(kinds.FILE_SIZE, message, node.span)
                return
            tree = self._read(node)
            if tree is not None:
                waiting.extend(self._named_by(tree))
                Merger(self._faults).plan(root, tree)

    def _named_by(self, tree: Mapping) -> list[Scalar]:
        entry = tree.entries.pop("include", None)
        if entry is None:
            return []
        value = entry[1]
        items = value.items if isinstance(value, Sequence) else [value]
        named: list[Scalar] = []
        for item in items:
            if isinstance(item, Scalar) and not is_null(item):
                named.append(item)
            else:
                self._faults.add(
                    kinds.INCLUDE, f"'include' lists file names, not {describe(item)}", item.span
                )
        return named

    def _read(self, node: Scalar) -> Mapping | None:
        problem = self._refused(node.text)
        if problem is not None:
            self._faults.add(kinds.INCLUDE, problem, node.span)
            return None
        path = (self._folder / node.text).resolve()
        self._seen.add(path)
        relative = path.relative_to(self._folder).as_posix()
        shown_as = f"{self._shown_folder}/{relative}" if self._shown_folder else relative
        try:
            tree = _read_tree(path, shown_as, self._source, self._faults)
        except UnreadableFile as fault:
            self._faults.add(kinds.INCLUDE, str(fault), node.span)
            return None
        if tree is None:
            return None
        if not isinstance(tree, Mapping):
            message = f"an included file is a table of keys and values; {shown_as} holds {describe(tree)}"
            self._faults.add(kinds.INCLUDE, message, node.span)
            return None
        return tree

    def _refused(self, text: str) -> str | None:
        try:
            path = (self._folder / text).resolve()
        except (OSError, ValueError, RuntimeError):
            return f"'{clip(text)}' cannot be a file name"
        if not path.is_relative_to(self._folder):
            return f"'{clip(text)}' leaves the plan's own folder; copy the file into that"
        if path in self._seen:
            return f"'{clip(text)}' is included already"
        return None
