"""Typed values out of the tree: one small object per table of the plan, which reports each fault at its place."""

import re
from collections.abc import Collection, Iterator

from firstfix.finding.collector import Collector
from firstfix.finding.model import Cure, Edit, Safety
from firstfix.source import kinds
from firstfix.source.nearest import did_you_mean, nearest
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null
from firstfix.units import Dimension, QuantityFault, parse_quantity

NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_NAME = 63
LONGEST_TEXT = 2000
# [0-9], since \d takes the digits of every script.
_INTEGER = re.compile(r"[+-]?[0-9]{1,12}")
_NUMBER = re.compile(r"[+-]?[0-9]{1,12}(?:\.[0-9]{1,9})?")


class Fields:
    """The values of one table. Each method gives the value at a key, or None where it is absent or faulty.

    A faulty value is reported once, here; the caller goes on as if the key were absent.
    """

    __slots__ = ("_faults", "_what", "entries", "node")

    def __init__(self, node: Node, faults: Collector, what: str, keys: Collection[str]) -> None:
        self.node = node
        self._faults = faults
        self._what = what
        if not isinstance(node, Mapping):
            if not is_null(node):
                message = f"{what} is written as a table of keys and values, not as {describe(node)}"
                faults.add(kinds.VALUE_KIND, message, node.span)
            self.entries: dict[str, tuple[Scalar, Node]] = {}
            return
        self.entries = node.entries
        for key, (key_node, _) in node.entries.items():
            if key not in keys and not key.startswith("x-"):
                self._unknown_key(key, key_node, keys)

    def _unknown_key(self, key: str, key_node: Scalar, keys: Collection[str]) -> None:
        near = nearest(key, keys) if self._faults.may_hint() else None
        cures: tuple[Cure, ...] = ()
        if near is not None:
            cures = (Cure(f"write '{near}'", (Edit(key_node.span, near),), Safety.NEEDS_REVIEW),)
            hint = f"; did you mean '{near}'?"
        else:
            hint = f"; it has {_listed(keys)}" if len(keys) <= 16 else ""
        self._faults.add(
            kinds.KEY_UNKNOWN,
            f"{self._what} has no key '{clip(key)}'{hint}",
            key_node.span,
            clip(key),
            cures=cures,
        )

    def __contains__(self, key: str) -> bool:
        return key in self.entries

    def value(self, key: str) -> Node | None:
        """The node at `key`; an empty value counts as absent."""
        entry = self.entries.get(key)
        if entry is None or is_null(entry[1]):
            return None
        return entry[1]

    def require(self, key: str) -> bool:
        """Whether `key` has a value; reports its absence."""
        if self.value(key) is not None:
            return True
        self._faults.add(kinds.KEY_MISSING, f"{self._what} needs '{key}'", self.node.span)
        return False

    def wrong(self, node: Node, message: str) -> None:
        self._faults.add(kinds.VALUE_KIND, message, node.span)

    def text(self, key: str) -> str | None:
        # Most keys are absent in most of ten thousand tables; those cost one look.
        if key not in self.entries:
            return None
        node = self.value(key)
        return None if node is None else as_text(node, self._faults, f"'{key}'")

    def name(self, key: str) -> str | None:
        node = self.value(key)
        return None if node is None else as_name(node, self._faults, f"'{key}'")

    def names(self, key: str) -> tuple[tuple[str, Node], ...]:
        """A list of names, or a single one, each with its node."""
        return tuple(
            (name, item)
            for item in self.items(key)
            if (name := as_name(item, self._faults, f"'{key}'")) is not None
        )

    def texts(self, key: str) -> tuple[tuple[str, Node], ...]:
        return tuple(
            (text, item)
            for item in self.items(key)
            if (text := as_text(item, self._faults, f"'{key}'")) is not None
        )

    def items(self, key: str) -> tuple[Node, ...]:
        """The items of a list; a single value counts as a list of one."""
        node = self.value(key)
        if node is None:
            return ()
        return tuple(node.items) if isinstance(node, Sequence) else (node,)

    def table(self, key: str) -> Iterator[tuple[str, Scalar, Node]]:
        """The entries of a table of named things: name, its key node, its value. Skips `x-` keys."""
        node = self.value(key)
        if node is None:
            return
        if not isinstance(node, Mapping):
            self.wrong(node, f"'{key}' is a table with a name before each colon, not {describe(node)}")
            return
        for name, (key_node, value) in node.entries.items():
            if name.startswith("x-"):
                continue
            if len(name) > LONGEST_TEXT:
                self.wrong(key_node, f"'{clip(name)}' is no name: it has {len(name):,} characters")
                continue
            yield name, key_node, value

    def integer(self, key: str, least: int, most: int) -> int | None:
        node = self.value(key)
        return None if node is None else as_integer(node, self._faults, f"'{key}'", least, most)

    def flag(self, key: str) -> bool | None:
        """YAML 1.2 knows `true` and `false` only."""
        node = self.value(key)
        if node is None:
            return None
        if isinstance(node, Scalar) and node.text in ("true", "True", "TRUE", "false", "False", "FALSE"):
            return node.text.lower() == "true"
        self.wrong(node, f"'{key}' is true or false, not {describe(node)}")
        return None

    def choice(self, key: str, words: Collection[str]) -> str | None:
        node = self.value(key)
        if node is None:
            return None
        if isinstance(node, Scalar) and node.text in words:
            return node.text
        hint = did_you_mean(node.text, words) if isinstance(node, Scalar) and self._faults.may_hint() else ""
        self.wrong(node, f"'{key}' is one of {_listed(words)}, not {describe(node)}{hint}")
        return None

    def quantity(self, key: str, dimension: Dimension, least: float = 0.0, most: float = 1e9) -> float | None:
        node = self.value(key)
        return None if node is None else as_quantity(node, self._faults, dimension, f"'{key}'", least, most)

    def number(self, key: str, least: float = 0.0, most: float = 1e9) -> float | None:
        """A figure without a unit, such as a ratio or money in the plan's currency."""
        node = self.value(key)
        if node is None:
            return None
        if isinstance(node, Scalar) and _NUMBER.fullmatch(node.text) and least <= float(node.text) <= most:
            return float(node.text)
        self.wrong(node, f"'{key}' is a number from {least:g} to {most:g}, not {describe(node)}")
        return None

    def below(self, key: str, what: str, keys: Collection[str]) -> "Fields | None":
        """The table at `key` as fields of its own."""
        node = self.value(key)
        return None if node is None else Fields(node, self._faults, what, keys)


def as_text(node: Node, faults: Collector, what: str) -> str | None:
    """A scalar's text; digits and words like `no` stay the text they are."""
    if not isinstance(node, Scalar) or is_null(node):
        faults.add(kinds.VALUE_KIND, f"{what} is a text, not {describe(node)}", node.span)
        return None
    if len(node.text) > LONGEST_TEXT:
        message = f"{what} has {len(node.text):,} characters; at most {LONGEST_TEXT:,} are read"
        faults.add(kinds.VALUE_KIND, message, node.span)
        return None
    return node.text


def as_name(node: Node, faults: Collector, what: str) -> str | None:
    """A name. One that is badly formed is reported and still given back, so that one slip is one finding."""
    text = as_text(node, faults, what)
    if text is not None:
        check_name(text, node, faults)
    return text


def check_name(text: str, node: Node, faults: Collector) -> bool:
    if NAME.fullmatch(text) and len(text) <= LONGEST_NAME:
        return True
    better = "-".join(re.findall(r"[a-z0-9]+", text.lower()))[:LONGEST_NAME].strip("-")
    hint = f"; '{better}' would do" if better and better != text else ""
    message = (
        f"'{clip(text)}' is no name: small letters, digits and single dashes, at most {LONGEST_NAME}{hint}"
    )
    faults.add(kinds.NAME_FORM, message, node.span, clip(text))
    return False


def as_integer(node: Node, faults: Collector, what: str, least: int, most: int) -> int | None:
    if isinstance(node, Scalar) and _INTEGER.fullmatch(node.text) and least <= int(node.text) <= most:
        return int(node.text)
    faults.add(
        kinds.VALUE_KIND,
        f"{what} is a whole number from {least:,} to {most:,}, not {describe(node)}",
        node.span,
    )
    return None


def as_quantity(
    node: Node, faults: Collector, dimension: Dimension, what: str, least: float = 0.0, most: float = 1e9
) -> float | None:
    """A quantity in the base unit of its dimension, within `least` and `most` (also in the base unit)."""
    if not isinstance(node, Scalar):
        message = f"{what} is {dimension.name} such as {dimension.example}, not {describe(node)}"
        faults.add(kinds.VALUE_KIND, message, node.span)
        return None
    value = parse_quantity(node.text, dimension)
    if isinstance(value, QuantityFault):
        written = " or ".join(f"'{each}'" for each in value.suggestions)
        edits = tuple(
            Cure(f"write '{each}'", (Edit(node.span, each),), Safety.NEEDS_REVIEW)
            for each in value.suggestions
        )
        message = f"{what} is {dimension.name}: {value.problem}; write {written}"
        faults.add(kinds.QUANTITY, message, node.span, cures=edits)
        return None
    if not least <= value <= most:
        edge = "less than nothing" if value < 0 <= least else "beyond what is possible here"
        faults.add(kinds.QUANTITY, f"{what} of '{clip(node.text)}' is {edge}", node.span)
        return None
    return value


def _listed(words: Collection[str]) -> str:
    return ", ".join(f"'{word}'" for word in words)
