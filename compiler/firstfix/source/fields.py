"""Typed values out of the tree: one small object per table of the plan, which reports each fault at its place."""

import re
import unicodedata
from collections.abc import Collection, Iterator

from firstfix.finding.collector import Collector
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Cure, Edit, Safety
from firstfix.source import kinds
from firstfix.source.doubt import leave_out
from firstfix.source.nearest import nearest_word
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null
from firstfix.source.unknown_keys import report_unknown_keys
from firstfix.units import Dimension, QuantityFault, base_unit, parse_quantity

NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_NAME = 63
LONGEST_TEXT = 2000
# [0-9], since \d takes the digits of every script.
_INTEGER = re.compile(r"[+-]?[0-9]{1,12}")
_NUMBER = re.compile(r"[+-]?[0-9]{1,12}(?:\.[0-9]{1,9})?")
# A number with a word or sign before or after it, and thousands set apart.
_WITH_WORDS = re.compile(r"[^0-9+-]{0,6}([0-9][0-9., ']{0,14}?)\s*[^0-9., ]{0,12}")
_GROUPED = re.compile(r"[0-9]{1,3}(?:[,' ][0-9]{3})+(?:\.[0-9]+)?")
_IN_WORDS = (
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
# YAML 1.1 took these for true and false.
_FLAGS = {
    "yes": "true",
    "y": "true",
    "on": "true",
    "1": "true",
    "no": "false",
    "n": "false",
    "off": "false",
    "0": "false",
}
_SPELT = str.maketrans(
    {"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "æ": "ae", "ø": "o", "œ": "oe", "đ": "d", "ł": "l"}
)


class Fields:
    """The values of one table. Each method gives the value at a key, or None where it is absent or faulty.

    A faulty value is reported once, here; the caller goes on as if the key were absent.
    """

    __slots__ = ("_faults", "_what", "entries", "node", "tried")

    def __init__(self, node: Node, faults: Collector, what: str, keys: Collection[str]) -> None:
        self.node = node
        self._faults = faults
        self._what = what
        # Keys that a fault at hand explains the absence of.
        self.tried: Collection[str] = ()
        if not isinstance(node, Mapping):
            if not is_null(node):
                self._no_table(what, keys)
            self.entries: dict[str, tuple[Scalar, Node]] = {}
            return
        self.entries = node.entries
        unknown = [key for key in node.entries if key not in keys and not key.startswith("x-")]
        if unknown:
            self.tried = report_unknown_keys(node, unknown, what, keys, faults)

    def _no_table(self, what: str, keys: Collection[str]) -> None:
        node, hint = self.node, ""
        cures: tuple[Cure, ...] = ()
        if isinstance(node, Scalar) and "part" in keys and NAME.fullmatch(node.text):
            hint = f"{{part: {node.text}}}"
            cures = (Cure(f"write '{hint}'", (Edit(node.span, hint),), Safety.NEEDS_REVIEW),)
        elif "run" in keys:
            hint = "{run: [desk, panel/3, core]}"
        written = (
            f"; write it such as '{hint}'" if hint and not cures else f"; write '{hint}'" if hint else ""
        )
        message = f"{what} is written as a table of keys and values, not as {describe(node)}{written}"
        self._faults.add(kinds.VALUE_KIND, message, node.span, cures=cures)
        self.tried = keys
        leave_out(node, self._faults)

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
        if key not in self.tried:
            self.missing(f"'{key}'")
        return False

    def missing(self, needed: str) -> None:
        self._faults.add(kinds.KEY_MISSING, f"{self._what} needs {needed}", self.node.span)

    def wrong(self, node: Node, message: str, instead: str = "") -> None:
        """The value is left out; `instead` is what to write, where that can be told."""
        _refuse(kinds.VALUE_KIND, node, message, self._faults, (instead,) if instead else ())

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
            self.wrong(
                node, f"'{key}' is a table with a name before each colon, 'NAME: …', not {describe(node)}"
            )
            return
        for name, (key_node, value) in node.entries.items():
            if name.startswith("x-"):
                continue
            if " {" in name:
                self._colon_missing(name, key_node, value)
                continue
            if len(name) > LONGEST_TEXT:
                self.wrong(key_node, f"'{clip(name)}' is no name: it has {len(name):,} characters")
                continue
            yield name, key_node, value

    def _colon_missing(self, name: str, key: Scalar, value: Node) -> None:
        thing = name.partition(" {")[0]
        better = thing + ": {" + name.partition(" {")[2]
        cure = Cure(f"write '{clip(better)}'", (Edit(key.span, better),), Safety.NEEDS_REVIEW)
        self._faults.add(
            kinds.NAME_FORM, f"a colon is missing after '{clip(thing)}'", key.span, clip(thing), cures=(cure,)
        )
        leave_out(key, self._faults)
        leave_out(value, self._faults)

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
        better = _FLAGS.get(node.text.lower(), "") if isinstance(node, Scalar) else ""
        hint = f"; write '{better}'" if better else ""
        self.wrong(node, f"'{key}' is true or false, not {describe(node)}{hint}", better)
        return None

    def choice(self, key: str, words: Collection[str]) -> str | None:
        node = self.value(key)
        if node is None:
            return None
        if isinstance(node, Scalar) and node.text in words:
            return node.text
        near = nearest_word(node.text, words) if isinstance(node, Scalar) and self._faults.may_hint() else ""
        hint = f"; did you mean '{near}'?" if near else ""
        self.wrong(node, f"'{key}' is one of {_listed(words)}, not {describe(node)}{hint}", near)
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
        better = _bare_number(node)
        hint = f"; write '{better}'" if better else ""
        reach = f"of {least:g} or more" if most >= 1e9 else f"from {least:g} to {most:g}"
        self.wrong(node, f"'{key}' is a number {reach}, not {describe(node)}{hint}", better)
        return None

    def below(self, key: str, what: str, keys: Collection[str]) -> "Fields | None":
        """The table at `key` as fields of its own."""
        node = self.value(key)
        return None if node is None else Fields(node, self._faults, what, keys)


def as_text(node: Node, faults: Collector, what: str) -> str | None:
    """A scalar's text; digits and words like `no` stay the text they are."""
    if not isinstance(node, Scalar) or is_null(node):
        faults.add(kinds.VALUE_KIND, f"{what} is a text, not {describe(node)}", node.span)
        leave_out(node, faults)
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
    better = _as_name(text)
    hint = f"; '{better}' would do" if better and better != text else ""
    message = (
        f"'{clip(text)}' is no name: small letters, digits and single dashes, at most {LONGEST_NAME}{hint}"
    )
    faults.add(kinds.NAME_FORM, message, node.span, clip(text))
    return False


def as_integer(node: Node, faults: Collector, what: str, least: int, most: int) -> int | None:
    if isinstance(node, Scalar) and _INTEGER.fullmatch(node.text) and least <= int(node.text) <= most:
        return int(node.text)
    better = _bare_number(node)
    better = better if _INTEGER.fullmatch(better) and least <= int(better) <= most else ""
    hint = f"; write '{better}'" if better else ""
    message = f"{what} is a whole number from {least:,} to {most:,}, not {describe(node)}{hint}"
    _refuse(kinds.VALUE_KIND, node, message, faults, (better,) if better else ())
    return None


def as_quantity(
    node: Node, faults: Collector, dimension: Dimension, what: str, least: float = 0.0, most: float = 1e9
) -> float | None:
    """A quantity in the base unit of its dimension, within `least` and `most` (also in the base unit)."""
    if not isinstance(node, Scalar):
        message = f"{what} is {dimension.name} such as {dimension.example}, not {describe(node)}"
        _refuse(kinds.VALUE_KIND, node, message, faults)
        return None
    value = parse_quantity(node.text, dimension)
    if isinstance(value, QuantityFault):
        written = " or ".join(f"'{each}'" for each in value.suggestions)
        written = written or f"it such as '{dimension.example}'"
        message = f"{what} is {dimension.name}: {value.problem}; write {written}"
        _refuse(kinds.QUANTITY, node, message, faults, value.suggestions)
        return None
    if least <= value <= most:
        return value
    shown, unit = f"{what} of '{clip(node.text)}'", base_unit(dimension)
    if value < 0 <= least:
        positive = node.text.strip().lstrip("-")
        message = f"{shown} is less than nothing; did you mean '{clip(positive)}'?"
        _refuse(kinds.QUANTITY, node, message, faults, (positive,))
    elif value < least:
        _refuse(kinds.QUANTITY, node, f"{shown} is less than can be: at least {least:,g} {unit}", faults)
    else:
        _refuse(kinds.QUANTITY, node, f"{shown} is more than can be: at most {most:,g} {unit}", faults)
    return None


def _refuse(kind: Kind, node: Node, message: str, faults: Collector, instead: tuple[str, ...] = ()) -> None:
    """Reports a value and leaves it out; each of `instead` could be written in its place."""
    cures = tuple(
        Cure(f"write '{clip(each)}'", (Edit(node.span, each),), Safety.NEEDS_REVIEW) for each in instead
    )
    faults.add(kind, message, node.span, cures=cures)
    leave_out(node, faults)


def _as_name(text: str) -> str:
    """The nearest text that is a name: `Säge 2` is saege-2."""
    plain = unicodedata.normalize("NFKD", text.lower()[: 2 * LONGEST_NAME].translate(_SPELT))
    kept = "".join(each for each in plain if not unicodedata.combining(each))
    return "-".join(re.findall(r"[a-z0-9]+", kept))[:LONGEST_NAME].strip("-")


def _bare_number(node: Node) -> str:
    """The number in a text such as `70 EUR`, `5,000` or `two`, as we write one; "" where it is not plain which."""
    if not isinstance(node, Scalar):
        return ""
    text = node.text.strip().lower()
    if text in _IN_WORDS:
        return str(_IN_WORDS.index(text) + 1)
    found = _WITH_WORDS.fullmatch(text)
    if found is None:
        return ""
    if _GROUPED.fullmatch(found[1]):
        return found[1].replace(",", "").replace("'", "").replace(" ", "")
    plain = found[1].replace(",", ".")
    return plain if _NUMBER.fullmatch(plain) and plain != node.text else ""


def _listed(words: Collection[str]) -> str:
    return ", ".join(f"'{word}'" for word in words)
