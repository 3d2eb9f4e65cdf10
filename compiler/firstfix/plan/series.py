"""Series: an entry `cam-1..4: {…}` stands for cam-1 to cam-4, read as if each had been written out.

Within such an entry (and within a link) a range counts with it, step by step: `panel/5..8` is panel/5 at cam-1 and
panel/8 at cam-4. It must be as long as the series. What has no range is the same for all. Zeros are kept: `01..12`.
Braces may stand around the range where YAML lets them: `cam-{1..4}`.
Takes the tree and gives the tree's own nodes, so that every reader and every message works on a member as on any other thing.
"""

import re
from collections.abc import Iterable, Iterator

from firstfix.finding.collector import Collector
from firstfix.finding.model import Label
from firstfix.plan.overlay import overlaid
from firstfix.source import kinds
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip
from firstfix.source.reader import MOST_EXPANDED

MOST_IN_SERIES = 1000
# Values with all series written out, as with aliases: a few lines must not be able to fill the machine.
MOST_WRITTEN_OUT = MOST_EXPANDED // 10
_RANGE = re.compile(r"(?<![0-9])(?:\{([0-9]{1,9})\.\.([0-9]{1,9})\}|([0-9]{1,9})\.\.([0-9]{1,9}))(?![0-9])")
# Words for people are left as they are written.
_NOT_COUNTED = frozenset({"note", "keep-free"})
_HOST_NUMBER = re.compile(r"[0-9]{1,6}")

Entry = tuple[str, Scalar, Node]


def members(text: str) -> tuple[str, ...] | str:
    """The texts that a range in `text` stands for, in order, or in words what is wrong with it.

    >>> members("cam-1..3"), members("cam-{08..10}")
    (('cam-1', 'cam-2', 'cam-3'), ('cam-08', 'cam-09', 'cam-10'))
    >>> members("cam-4..1")
    'its range runs backwards'
    """
    found = list(_RANGE.finditer(text))
    if len(found) != 1 or text.count("..") != 1:
        return "a series has one range such as '1..4'"
    first, last = (each for each in found[0].groups() if each is not None)
    count = int(last) - int(first) + 1
    if count < 1:
        return "its range runs backwards"
    if count > MOST_IN_SERIES:
        return f"it has {count:,} members; at most {MOST_IN_SERIES:,} are read"
    before, after = text[: found[0].start()], text[found[0].end() :]
    width = len(first) if first.startswith("0") else 0
    return tuple(f"{before}{number:0{width}}{after}" for number in range(int(first), int(last) + 1))


class SeriesReader:
    """Writes out the series of one plan. Holds what they come to, so that their sum has a limit."""

    def __init__(self, faults: Collector) -> None:
        self._faults = faults
        self._written_out = 0

    def named(self, fields: Fields, table: str, own_key: str = "", counts_up: str = "") -> Iterator[Entry]:
        """The entries of a table by name, series written out, names checked.

        An entry of its own for one member lies over what the series says; it leaves out `own_key`, the key that every entry
        of the table needs, or else it is another thing with a name that is taken. A number at `counts_up` counts up with the series.
        """
        entries = list(fields.table(table))
        if not any(_is_series(name) for name, _, _ in entries):
            for name, key, _ in entries:
                check_name(name, key, self._faults)
            yield from entries
            return
        alone = {name: (key, node) for name, key, node in entries if not _is_series(name)}
        taken: dict[str, Scalar] = {}
        for name, key, node in entries:
            if _is_series(name):
                yield from self._series(name, key, node, alone, taken, own_key, counts_up)
        for name, (key, node) in alone.items():
            if name not in taken:
                check_name(name, key, self._faults)
                yield name, key, node

    def _series(
        self,
        text: str,
        key: Scalar,
        node: Node,
        alone: dict[str, tuple[Scalar, Node]],
        taken: dict[str, Scalar],
        own_key: str,
        counts_up: str,
    ) -> Iterator[Entry]:
        names = members(text)
        if isinstance(names, str):
            self._faults.add(kinds.NAME_FORM, f"'{clip(text)}': {names}", key.span, clip(text))
            return
        if not check_name(names[-1], key, self._faults) or not self._has_room(node, len(names), key):
            return
        for at, name in enumerate(names):
            if name in taken:
                self._taken(name, key, taken[name])
                continue
            taken[name] = key
            member = self._step(node, at, len(names), counts_up)
            own = alone.get(name)
            if own is None:
                yield name, key, member
            elif own_key and isinstance(own[1], Mapping) and own_key in own[1].entries:
                self._taken(name, own[0], key)
                yield name, key, member
            else:
                yield name, own[0], overlaid(own[1], member)

    def _taken(self, name: str, second: Scalar, first: Scalar) -> None:
        message = f"'{clip(name)}' is a member of the series '{clip(first.text)}' already"
        related = (Label(first.span, "the series"),)
        self._faults.add(kinds.KEY_DUPLICATE, message, second.span, clip(name), related)

    def steps(self, item: Node, key: str) -> Iterator[Node]:
        """One entry for each member of the first range in the list or text at `key`; other ranges count with it."""
        value = item.value(key) if isinstance(item, Mapping) else None
        texts = value.items if isinstance(value, Sequence) else (value,)
        first = next(each for each in texts if isinstance(each, Scalar) and ".." in each.text)
        names = members(first.text)
        if isinstance(names, str):
            self._faults.add(kinds.NAME_FORM, f"'{clip(first.text)}': {names}", first.span)
        elif self._has_room(item, len(names), item):
            yield from (self._step(item, at, len(names), "") for at in range(len(names)))

    def spread(self, texts: Iterable[tuple[str, Node]]) -> Iterator[tuple[str, Node]]:
        """In a list of names, a series stands for all its members."""
        for text, node in texts:
            if ".." not in text:
                # Whoever settles it says what is wrong with a name that nothing has.
                yield text, node
                continue
            names = members(text)
            if isinstance(names, str):
                self._faults.add(kinds.NAME_FORM, f"'{clip(text)}': {names}", node.span)
            elif check_name(names[-1], node, self._faults):
                yield from ((name, node) for name in names)

    def _has_room(self, node: Node, count: int, at: Node) -> bool:
        self._written_out += count * _size(node)
        if self._written_out <= MOST_WRITTEN_OUT:
            return True
        message = f"with its series written out, the plan has more than {MOST_WRITTEN_OUT:,} values"
        self._faults.add(kinds.FILE_SIZE, message, at.span)
        return False

    def _step(self, node: Node, at: int, count: int, counts_up: str) -> Node:
        """The node as member `at` of `count` has it; a node without ranges is shared, not copied."""
        if isinstance(node, Scalar):
            return self._scalar(node, at, count) if ".." in node.text and _RANGE.search(node.text) else node
        if isinstance(node, Sequence):
            items = [self._step(each, at, count, "") for each in node.items]
            if all(new is old for new, old in zip(items, node.items, strict=True)):
                return node
            copy = Sequence(node.file, node.line, node.column)
            copy.end_line, copy.end_column = node.end_line, node.end_column
            copy.items = items
            return copy
        assert isinstance(node, Mapping)
        changed = {
            key: (key_node, new)
            for key, (key_node, value) in node.entries.items()
            if key not in _NOT_COUNTED
            and not key.startswith("x-")
            and (new := self._value(key, value, at, count, counts_up)) is not value
        }
        return overlaid(node, node, changed) if changed else node

    def _value(self, key: str, value: Node, at: int, count: int, counts_up: str) -> Node:
        if key == counts_up and isinstance(value, Scalar) and _HOST_NUMBER.fullmatch(value.text):
            return value.saying(str(int(value.text) + at))
        return self._step(value, at, count, "")

    def _scalar(self, node: Scalar, at: int, count: int) -> Scalar:
        names = members(node.text)
        if isinstance(names, tuple) and len(names) == count:
            return node.saying(names[at])
        wrong = f"it stands for {len(names)}" if isinstance(names, tuple) else names
        message = f"'{clip(node.text)}' is to count with a series of {count}, but {wrong}"
        self._faults.add(kinds.VALUE_KIND, message, node.span, clip(node.text))
        return node.saying(node.text.replace("..", "-"))


def _is_series(name: str) -> bool:
    """Whether a name is meant as one. With a slash it is meant as a path."""
    return ".." in name and "/" not in name


def _size(node: Node) -> int:
    if isinstance(node, Mapping):
        return 1 + sum(1 + _size(value) for _, value in node.entries.values())
    return 1 + sum(map(_size, node.items)) if isinstance(node, Sequence) else 1
