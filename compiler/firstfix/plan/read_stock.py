"""`stock:`: what is at hand already, by part: so many of a thing, or cords and cable by their lengths."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.finding.collector import Collector
from firstfix.parts.part import Library, Part
from firstfix.plan.colours import check_colour
from firstfix.plan.model import StockLength, StockSpec, Written
from firstfix.source.fields import Fields, as_integer, as_quantity
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe
from firstfix.units import LENGTH

# Kinds whose pieces are told apart by length; whatever else there is, is counted.
_BY_LENGTH = ("cable", "cord")
_MOST = 100_000
# More coils of one cable than stand on any shelf, and more cords than a person would write down one by one.
_MOST_COILS = 200
_WITH_COLOUR = re.compile(r"(\S+\s*(?:m|mm|cm|ft|feet|in|inch|inches|yd))\s+([A-Za-z-]+)")


class _Length(NamedTuple):
    metres: float
    colour: str


def read_stock(fields: Fields, library: Library, faults: Collector) -> Iterator[StockSpec]:
    """`{cord-cat6: {1 m: 6, 2 m green: 4}, cat6-indoor: [60 m, 22 m], cage-nut-set-m6: 20}`

    An unknown part is left to whoever resolves names; `library` only says which kind of amount a part has.
    """
    for name, key, node in fields.table("stock"):
        part = library.get(name)
        written = Written(key, node)
        if part is not None and part.kind in _BY_LENGTH:
            yield StockSpec(name, 0, tuple(_lengths(fields, part, node, faults)), written)
        elif isinstance(node, Scalar):
            count = as_integer(node, faults, f"how many of '{clip(name)}' are in stock", 0, _MOST)
            yield StockSpec(name, count or 0, (), written)
        elif part is not None:
            message = f"'{clip(name)}' is counted, not measured: write how many there are, such as 20, not {describe(node)}"
            fields.wrong(node, message)
        else:
            yield StockSpec(name, 0, (), written)


def _lengths(fields: Fields, part: Part, node: Node, faults: Collector) -> Iterator[StockLength]:
    if isinstance(node, Scalar) and node.text.isascii() and node.text.isdigit():
        text = f"{{1 m: {clip(node.text)}}}" if part.kind == "cord" else f"[{clip(node.text)} m]"
        fields.wrong(
            node, f"'{part.name}' in stock is said by length, such as {text}, not '{clip(node.text)}'"
        )
        return
    most = _MOST_COILS if part.kind == "cable" else _MOST
    if isinstance(node, Mapping):
        for text, (key, value) in node.entries.items():
            length = _length(fields, part, key, faults)
            count = as_integer(value, faults, f"how many of '{clip(text)}' are in stock", 0, most)
            if length is not None and count:
                yield StockLength(*length, count)
        return
    items = node.items if isinstance(node, Sequence) else [node]
    if len(items) > _MOST_COILS:
        message = f"'{part.name}' in stock is a list of {len(items):,}; at most {_MOST_COILS} are read: write {{1 m: {len(items)}}}"
        fields.wrong(node, message)
        return
    for item in items:
        length = _length(fields, part, item, faults)
        if length is not None:
            yield StockLength(*length, 1)


def _length(fields: Fields, part: Part, node: Node, faults: Collector) -> _Length | None:
    """`60 m`, or `2 m green`."""
    coloured = _WITH_COLOUR.fullmatch(node.text) if isinstance(node, Scalar) else None
    if coloured is not None and isinstance(node, Scalar):
        if not check_colour(fields, node, coloured[2]):
            return None
        node = node.saying(coloured[1])
    what = f"a length of '{part.name}' in stock"
    metres = as_quantity(node, faults, LENGTH, what, 0.01, 20_000)
    return None if metres is None else _Length(metres, coloured[2] if coloured else "")
