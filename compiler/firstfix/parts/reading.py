"""One table of a part while it is read: its fields, where faults go, the basis of figures that name none."""

from collections.abc import Collection

from firstfix.finding.collector import Collector
from firstfix.parts.facts import BASES, NOT_SAID, Fact, Figure, exactly
from firstfix.parts.forms import Word, YesNo
from firstfix.source.fields import Fields, as_quantity
from firstfix.source.node import Mapping, Node, Scalar
from firstfix.units import Dimension

FIGURE_KEYS = ("least", "typical", "most", "basis")
UNKNOWN = "unknown"


class Reading:
    """What the readers of single keys share. Each gives None for a value absent, or faulty and reported."""

    __slots__ = ("basis", "faults", "fields")

    def __init__(self, fields: Fields, faults: Collector, basis: str) -> None:
        self.fields = fields
        self.faults = faults
        self.basis = basis

    def below(self, key: str, keys: tuple[str, ...]) -> "Reading | None":
        """The table at `key`, which has `keys`."""
        fields = self.fields.below(key, f"'{key}'", keys)
        if fields is None or not isinstance(fields.node, Mapping):
            return None
        return Reading(fields, self.faults, self.basis)

    def says_unknown(self, key: str) -> bool:
        node = self.fields.value(key)
        return isinstance(node, Scalar) and node.text == UNKNOWN

    def word(self, key: str, words: Collection[str]) -> Word | None:
        """One of `words`, or `unknown`."""
        return NOT_SAID if self.says_unknown(key) else self.fields.choice(key, words)

    def count(self, key: str, least: int, most: int) -> Figure | None:
        """A whole number, or `unknown`."""
        if self.says_unknown(key):
            return NOT_SAID
        value = self.fields.integer(key, least, most)
        return None if value is None else exactly(value, self.basis)

    def level(self, key: str, dimension: Dimension, least: float) -> Figure | None:
        """A quantity that may be below nothing, such as `-20 °C`, or `unknown`."""
        if self.says_unknown(key):
            return NOT_SAID
        value = self.fields.quantity(key, dimension, least, 1000.0)
        return None if value is None else exactly(value, self.basis)

    def figure(self, key: str, dimension: Dimension) -> Figure | None:
        """`8 W`, `{least: 3 W, typical: 5 W, most: 8 W}` or `unknown`."""
        node = self.fields.value(key)
        if node is None:
            return None
        if not isinstance(node, Scalar):
            return self._spread(Fields(node, self.faults, f"'{key}'", FIGURE_KEYS), key, dimension)
        if self.says_unknown(key):
            return NOT_SAID
        value = as_quantity(node, self.faults, dimension, f"'{key}'")
        return None if value is None else exactly(value, self.basis)

    def figure_or_unknown(self, key: str, dimension: Dimension) -> Figure:
        return self.figure(key, dimension) or NOT_SAID

    def _spread(self, spread: Fields, key: str, dimension: Dimension) -> Figure | None:
        """The least alone says nothing about how much it may become."""
        written = [each for each in ("least", "typical", "most") if spread.value(each) is not None]
        figures = {each: spread.quantity(each, dimension) for each in written}
        basis = spread.choice("basis", BASES) or self.basis
        if not isinstance(spread.node, Mapping) or None in figures.values():
            return None
        given = [each for each in figures.values() if each is not None]
        if written in ([], ["least"]) or given != sorted(given):
            message = f"'{key}' needs 'typical' or 'most', and its figures rise from 'least' to 'most'"
            spread.wrong(spread.node, message)
            return None
        typical = figures.get("typical")
        return Fact(given[0], given[-1] if typical is None else typical, given[-1], basis)

    def price(self, key: str) -> Figure | None:
        return self._number(key, 0.0, 1e9)

    def ratio(self, key: str) -> Figure | None:
        return self._number(key, 0.1, 1.0)

    def _number(self, key: str, least: float, most: float) -> Figure | None:
        if self.says_unknown(key):
            return NOT_SAID
        value = self.fields.number(key, least, most)
        return None if value is None else exactly(value, self.basis)

    def yes_no(self, key: str) -> YesNo | None:
        return NOT_SAID if self.says_unknown(key) else self.fields.flag(key)

    def wrong(self, node: Node, message: str) -> None:
        self.fields.wrong(node, message)
