"""A key that its table doesn't have: what was meant, where it belongs, and, where that is beyond doubt, reading on as if it stood there.

One slip is one finding: what a misspelt `devices:` holds is judged as written, and what is left out puts nothing else in the wrong.
"""

import re
from collections.abc import Collection, Iterable
from difflib import SequenceMatcher

from firstfix.finding.collector import Collector
from firstfix.finding.model import Cure, Edit, Label, Safety
from firstfix.source import kinds
from firstfix.source.doubt import leave_out
from firstfix.source.homes import elsewhere, meant_key, said_otherwise
from firstfix.source.nearest import nearest
from firstfix.source.node import Mapping, Node, Scalar, clip, is_null
from firstfix.span import Span

# Longer lists of keys are no help in one line; README has them.
_MOST_LISTED = 16
# One or two letters off in a word of usual length; common practice, no source.
_BEYOND_DOUBT = 0.8
# What these hold has another form than what people write under another word.
_OF_OTHER_FORM = frozenset({"run", "between", "tagged", "reaches", "layout", "indoor", "cable"})
_NO_SPACE = re.compile(r"([a-z-]+):\s*(\S.*)")


def report_unknown_keys(
    table: Mapping, unknown: Iterable[str], what: str, keys: Collection[str], faults: Collector
) -> frozenset[str]:
    """Reports each of the `unknown` keys of `table`. Gives the keys of its own that somebody tried to write, so that they aren't missed."""
    tried: set[str] = set()
    for key in tuple(unknown):
        if key not in table.entries:
            # It was the rest of a text with several commas, and is told with its first part.
            continue
        key_node, value = table.entries[key]
        tried |= _Unknown(key, key_node, value, table, what, keys, faults).report(tried)
    return frozenset(tried)


class _Unknown:
    def __init__(
        self, key: str, key_node: Scalar, value: Node, table: Mapping, what: str, keys: Collection[str], faults: Collector
    ) -> None:  # fmt: skip
        self._key = key
        self._at = key_node
        self._value = value
        self._table = table
        self._what = what
        self._keys = keys
        self._faults = faults

    def report(self, tried: Collection[str]) -> set[str]:
        """The one key of the table that was meant, if any."""
        glued = _NO_SPACE.fullmatch(self._key)
        if glued is not None and glued[1] in self._keys and is_null(self._value):
            return self._without_space(glued[1], glued[2])
        if self._ends_a_figure() or self._ends_a_text():
            return set()
        if self._key.startswith("x_"):
            own = "x-" + self._key[2:].replace("_", "-")
            self._say(f"; a key of your own begins with 'x-': '{clip(own)}'", own)
            return set()
        # Comparing with the right ones takes time; a file of a thousand wrong keys gets the hint a few times.
        otherwise = said_otherwise(self._key)
        near = self._near() if not otherwise and self._faults.may_hint() else ""
        if near:
            self._say(f"; did you mean '{near}'?", near, self._read_as(near))
            return {near}
        meant = meant_key(self._key, self._keys)
        if meant and meant in tried and meant in _OF_OTHER_FORM:
            leave_out(self._value, self._faults)
        elif meant:
            is_alike = meant not in _OF_OTHER_FORM
            self._say(f"; write '{meant}'", meant if is_alike else "", is_alike and self._read_as(meant))
            return {meant}
        else:
            there = otherwise or self._named_thing() or elsewhere(self._key)
            listed = ", ".join(f"'{each}'" for each in self._keys)
            self._say(there or (f"; it has {listed}" if len(self._keys) <= _MOST_LISTED else ""))
        return set()

    def _ends_a_figure(self) -> bool:
        """`slack: 1,5 m`, where the comma ends the value and `5 m` looks like a key."""
        if not is_null(self._value) or not self._key[0:1].isdigit():
            return False
        entries = list(self._table.entries.items())
        at = next(number for number, (key, _) in enumerate(entries) if key == self._key)
        key, (key_node, before) = entries[at - 1] if at else ("", (self._at, self._value))
        if not isinstance(before, Scalar) or re.fullmatch(r"[0-9]+", before.text) is None:
            return False
        text = f"{before.text}.{self._key}"
        span = Span(before.file, before.line, before.column, self._at.end_line, self._at.end_column)
        message = (
            f"a comma ends the value of '{clip(key)}' here; decimals are written with a point: '{clip(text)}'"
        )
        cure = Cure(f"write '{clip(text)}'", (Edit(span, text),), Safety.NEEDS_REVIEW)
        self._faults.add(kinds.KEY_UNKNOWN, message, span, clip(key), cures=(cure,))
        self._table.entries[key] = (key_node, before.saying(text))
        return True

    def _ends_a_text(self) -> bool:
        """`{reason: the box is theirs, nothing comes in}`, where the comma ends the value and what follows looks like a key."""
        if not (_has_no_colon(self._at, self._value) and " " in self._key):
            return False
        entries = list(self._table.entries.items())
        at = next(place for place, (key, _) in enumerate(entries) if key == self._key)
        if not at or not isinstance(entries[at - 1][1][1], Scalar) or is_null(entries[at - 1][1][1]):
            return False
        key, (key_node, before) = entries[at - 1]
        assert isinstance(before, Scalar)
        parts, last = [before.text, self._key], self._at
        for rest, (rest_node, value) in entries[at + 1 :]:
            if rest in self._keys or not _has_no_colon(rest_node, value):
                break
            parts, last = [*parts, rest], rest_node
            del self._table.entries[rest]
        self._say_quotes(key, before, ", ".join(parts), last)
        del self._table.entries[self._key]
        self._table.entries[key] = (key_node, before.saying(", ".join(parts)))
        return True

    def _say_quotes(self, key: str, before: Scalar, text: str, last: Scalar) -> None:
        quoted = '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
        span = Span(before.file, before.line, before.column, last.end_line, last.end_column)
        message = (
            f"a comma ends the value of '{clip(key)}' here; within braces {{ }} a text with a comma stands in quotes: "
            f"{clip(quoted, 120)}"
        )
        is_whole = before.plain and text.isprintable()
        cures = (
            (Cure("put the text in quotes", (Edit(span, quoted),), Safety.NEEDS_REVIEW),) if is_whole else ()
        )
        self._faults.add(kinds.KEY_UNKNOWN, message, span, clip(key), cures=cures)

    def _named_thing(self) -> str:
        """A thing with a name, one level too high."""
        if not isinstance(self._value, Mapping):
            return ""
        holder = next((each for each in ("rooms", "buildings") if each in self._keys), "")
        return f"; if it is a name of yours, it belongs under '{holder}'" if holder else ""

    def _near(self) -> str:
        plain = self._key.lower().replace("_", "-").replace(" ", "-")
        return plain if plain in self._keys else nearest(plain, self._keys) or ""

    def _read_as(self, key: str) -> bool:
        """Whether what stands here is read as if it stood at `key`."""
        plain = self._key.lower().replace("_", "-")
        is_near = SequenceMatcher(None, plain, key).ratio() >= _BEYOND_DOUBT
        if key in self._table.entries or not (is_near or meant_key(self._key, self._keys) == key):
            return False
        self._table.entries[key] = (self._at, self._value)
        return True

    def _without_space(self, key: str, rest: str) -> set[str]:
        text = f"{key}: {rest}"
        message = f"a space is missing after the colon: write '{clip(text)}'"
        cure = Cure(f"write '{clip(text)}'", (Edit(self._at.span, text),), Safety.NEEDS_REVIEW)
        self._faults.add(kinds.KEY_UNKNOWN, message, self._at.span, clip(self._key), cures=(cure,))
        self._table.entries.setdefault(key, (self._at, self._at.saying(rest)))
        return {key}

    def _say(self, hint: str, better: str = "", is_read: bool = False) -> None:
        cures: tuple[Cure, ...] = ()
        if better:
            cures = (Cure(f"write '{clip(better)}'", (Edit(self._at.span, better),), Safety.NEEDS_REVIEW),)
        related = (Label(None, f"the rest is judged as if '{better}' stood here"),) if is_read else ()
        message = f"{self._what} has no key '{clip(self._key)}'{hint}"
        self._faults.add(kinds.KEY_UNKNOWN, message, self._at.span, clip(self._key), related, cures)
        if not is_read:
            leave_out(self._at, self._faults)
            leave_out(self._value, self._faults)


def _has_no_colon(key: Scalar, value: Node) -> bool:
    """Whether a key stands alone in braces: its empty value begins where it ends."""
    is_empty = isinstance(value, Scalar) and value.plain and not value.text
    return is_empty and (value.line, value.column) == (key.end_line, key.end_column)
