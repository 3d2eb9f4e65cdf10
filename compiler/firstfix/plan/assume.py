"""A plan's tree with assumptions laid over it. Takes a tree and gives another; what both have in common they share.

Every reader above works on it as on any plan: series, defaults and includes with it. What is named must be there, but for the last key.
"""

import re
from collections.abc import Iterable

from firstfix.finding.collector import Collector
from firstfix.plan.assume_away import without_device
from firstfix.plan.assumed_value import value_after
from firstfix.plan.assumption import AWAY, Assumption, AssumptionError
from firstfix.plan.read import PLAN_KEYS
from firstfix.plan.series import SeriesReader, members
from firstfix.source.fields import Fields
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null

# Tables whose keys are names of things, and the key that each such thing has of its own; what counts up in its series.
_NAMED = {
    "sites": ("", ""), "buildings": ("", ""), "rooms": ("", ""), "ways": ("between", ""), "cabinets": ("part", ""),
    "devices": ("part", "host"), "vlans": ("", ""), "wifi": ("", ""), "circuits": ("", ""), "phases": ("", ""),
    "parts": ("", ""), "shops": ("", ""),
}  # fmt: skip


def assumed(tree: Mapping, assumptions: Iterable[Assumption]) -> Mapping:
    """`tree` with all of them, in their order. Raises AssumptionError for one that this plan has no place for."""
    for each in assumptions:
        tree = _Change(each).made_in(tree)
    return tree


class _Change:
    """One assumption, on its way down the tree."""

    def __init__(self, given: Assumption) -> None:
        self._given = given
        self._last = len(given.path) - 1

    def made_in(self, tree: Mapping) -> Mapping:
        first = self._given.path[0].text
        known = [key for key in PLAN_KEYS if key != "include"]
        if first not in known and first not in tree.entries:
            raise self._wrong(f"a plan has no key '{clip(first)}'{did_you_mean(first, known)}")
        changed = self._below(tree, 0, "")
        assert isinstance(changed, Mapping)
        path = self._given.path
        if self._given.how == AWAY and first == "devices" and self._last == 1:
            return without_device(changed, path[1].text)
        return changed

    def _below(self, node: Node, at: int, table: str) -> Node:
        """`node` with the change at the key `at` of the path; `table` is the key at which `node` stands."""
        if isinstance(node, Sequence):
            return self._in_list(node, at)
        if not isinstance(node, Mapping):
            if not is_null(node):
                raise self._wrong(f"{self._shown(at)} is {describe(node)}, and nothing stands below it")
            node = Mapping(node.file, node.line, node.column)
        node = self._with_members(node, at, table)
        step, at = self._step(node, at)
        key, value = node.entries.get(step.text, (step, None))
        if at < self._last:
            below = self._below(self._inner(node, value, at, table), at + 1, step.text)
            return node.holding({**node.entries, step.text: (key, below)})
        if self._given.how == AWAY:
            if value is None:
                raise self._unknown(node, step, at)
            return _without(node, step.text)
        new = value_after(self._given, value)
        # What is laid over an entry leaves that where it is; what takes its place stands in the assumption.
        written = key if isinstance(new, Mapping) and value is not None else step
        return node.holding({**node.entries, step.text: (written, new)})

    def _step(self, node: Mapping, at: int) -> tuple[Scalar, int]:
        """The key, and where in the path it ends: names such as `cord-cat6/0.5m` have dots of their own."""
        path = self._given.path
        for end in range(self._last, at, -1):
            text = ".".join(each.text for each in path[at : end + 1])
            if text in node.entries:
                return path[at].saying(text), end
        return path[at], at

    def _inner(self, node: Mapping, value: Node | None, at: int, table: str) -> Node:
        if value is not None:
            return value
        step = self._given.path[at]
        if self._given.how == AWAY or table in _NAMED:
            raise self._unknown(node, step, at)
        return Mapping(step.file, step.line, step.column)

    def _in_list(self, node: Sequence, at: int) -> Node:
        step = self._given.path[at]
        number = int(step.text) if re.fullmatch(r"[0-9]{1,6}", step.text) else 0
        if not 1 <= number <= len(node.items):
            count = len(node.items)
            raise self._wrong(
                f"{self._shown(at)} is a list of {count}, whose entries go by number, from 1; there is no '{clip(step.text)}'"
            )
        items = list(node.items)
        if at < self._last:
            items[number - 1] = self._below(items[number - 1], at + 1, "")
        elif self._given.how == AWAY:
            del items[number - 1]
        else:
            items[number - 1] = value_after(self._given, items[number - 1])
        return node.holding(items)

    def _with_members(self, node: Mapping, at: int, table: str) -> Mapping:
        """With all series written out, if the path names a member of one: it then has an entry of its own that can be changed."""
        name = self._given.path[at].text
        if table not in _NAMED or not any(_has_member(key, name) for key in node.entries):
            return node
        holder = Mapping(node.file, node.line, node.column)
        holder.entries = {table: (self._given.path[at], node)}
        own_key, counts_up = _NAMED[table]
        faults = Collector()
        written = SeriesReader(faults).named(Fields(holder, faults, "", (table,)), table, own_key, counts_up)
        entries = {key: (key_node, value) for key, key_node, value in written}
        if faults.findings:
            raise self._wrong(f"the series in {self._shown(at)} have faults; `firstfix check` tells them")
        return node.holding(entries)

    def _unknown(self, node: Mapping, step: Scalar, at: int) -> AssumptionError:
        where = self._shown(at)
        there = f"in {where} there is no" if where else "this plan has no"
        return self._wrong(f"{there} '{clip(step.text)}'{did_you_mean(step.text, node.entries)}")

    def _wrong(self, sentence: str) -> AssumptionError:
        return AssumptionError(f"{self._given.file}: {sentence}")

    def _shown(self, count: int) -> str:
        """The first keys of the path, as one types them."""
        return ".".join(clip(each.text) for each in self._given.path[:count])


def _has_member(key: str, name: str) -> bool:
    if ".." not in key or "/" in key or key == name:
        return False
    return name in members(key)


def _without(node: Mapping, name: str) -> Mapping:
    return node.holding({key: entry for key, entry in node.entries.items() if key != name})
