"""The trees of several files as one: sections are merged name by name, lists are joined, and nothing is written twice.

A site and its buildings may be spread over files, since one file for each building is what people split a plan into. Everything else
with a name stands whole in one file.
"""

from collections.abc import Callable

from firstfix.finding.collector import Collector
from firstfix.finding.model import Label
from firstfix.source import kinds
from firstfix.source.node import Mapping, Scalar, Sequence, clip

# What to do with a name that both tables have, or None where it is a fault.
_Inner = Callable[[Mapping, Mapping], None] | None


class Merger:
    def __init__(self, faults: Collector) -> None:
        self._faults = faults

    def plan(self, root: Mapping, extra: Mapping) -> None:
        """Lays the sections of `extra` into `root`."""
        for key, (key_node, value) in extra.entries.items():
            present = root.entries.get(key)
            if present is None:
                root.entries[key] = (key_node, value)
            elif isinstance(present[1], Mapping) and isinstance(value, Mapping):
                self._names(present[1], value, self._site if key == "sites" else None)
            elif isinstance(present[1], Sequence) and isinstance(value, Sequence):
                present[1].items.extend(value.items)
            else:
                self._twice(key, key_node, present[0])

    def _names(self, table: Mapping, extra: Mapping, inner: _Inner) -> None:
        for name, (key_node, value) in extra.entries.items():
            present = table.entries.get(name)
            if present is None:
                table.entries[name] = (key_node, value)
            elif inner is not None and isinstance(present[1], Mapping) and isinstance(value, Mapping):
                inner(present[1], value)
            else:
                self._twice(name, key_node, present[0])

    def _site(self, site: Mapping, extra: Mapping) -> None:
        """A site or a building: its rooms and its buildings are joined, whatever else it says is said once."""
        for key, (key_node, value) in extra.entries.items():
            present = site.entries.get(key)
            if present is None:
                site.entries[key] = (key_node, value)
            elif (
                key in ("rooms", "buildings")
                and isinstance(present[1], Mapping)
                and isinstance(value, Mapping)
            ):
                self._names(present[1], value, self._site if key == "buildings" else None)
            else:
                self._twice(key, key_node, present[0])

    def _twice(self, key: str, second: Scalar, first: Scalar) -> None:
        message = f"'{clip(key)}' is written in two files of this plan"
        related = (Label(first.span, "first written here"),)
        self._faults.add(kinds.KEY_DUPLICATE, message, second.span, clip(key), related)
