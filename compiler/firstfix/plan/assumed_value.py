"""What stands at a key once an assumption is made: a table laid over another, a sum of two amounts, a list with more or less in it.

Takes an assumption and the value that stands there, None for nothing; gives the value that takes its place.
"""

import re
from decimal import Decimal

from firstfix.plan.assumed_less import without_entries
from firstfix.plan.assumption import LESS, MORE, Assumption, AssumptionError
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null
from firstfix.units import DIMENSIONS, parse_quantity

_AMOUNT = re.compile(r"(-?[0-9]{1,12}(?:\.[0-9]{1,9})?)\s*(\S.*)?")


def value_after(given: Assumption, old: Node | None) -> Node:
    """Raises AssumptionError where the two have no sum."""
    assert given.value is not None
    if given.how not in (MORE, LESS):
        return given.value if old is None else _laid_over(given.value, old)
    is_more = given.how == MORE
    if old is None or is_null(old):
        if is_more and not _is_amount(given.value):
            return _listed(given.value)
        raise _wrong(
            given,
            f"is not written in this plan, so nothing can be {'added to' if is_more else 'taken from'} it",
        )
    if isinstance(old, Scalar) and isinstance(given.value, Scalar) and _is_amount(old):
        return given.value.saying(_sum(given, old.text, given.value.text))
    if isinstance(old, Mapping) or (isinstance(given.value, Mapping) and not isinstance(old, Sequence)):
        raise _wrong(
            given, f"is {describe(old)}; a table is laid over another with '=', not with '{given.how}'"
        )
    had, own = _listed(old), _listed(given.value)
    return own.holding([*had.items, *own.items]) if is_more else without_entries(given, had, own)


def _sum(given: Assumption, old: str, own: str) -> str:
    """Two amounts in words of the plan, exactly: `38 m` and `20 m` are `58 m`; of different units, in that of `old`."""
    (had, wanted), (by, unit) = _amount(old), _amount(own)
    if had is None or by is None:
        raise _wrong(given, f"is '{clip(old)}', to which '{clip(own)}' cannot be added")
    if unit != wanted:
        by = _in_unit(by, unit, wanted)
        if by is None:
            raise _wrong(given, f"is '{clip(old)}', and '{clip(own)}' has another unit, so they have no sum")
    total = had + by if given.how == MORE else had - by
    return f"{total.normalize():f} {wanted}".strip()


def _laid_over(own: Node, below: Node) -> Node:
    """Tables entry by entry, all the way down; anything else takes the place of what was there."""
    if not (isinstance(own, Mapping) and isinstance(below, Mapping)):
        return own
    entries = dict(below.entries)
    for name, (key, value) in own.entries.items():
        entries[name] = (key, _laid_over(value, entries[name][1]) if name in entries else value)
    return own.holding(entries)


def _listed(node: Node) -> Sequence:
    """A single value is a list of one, as everywhere in a plan."""
    if isinstance(node, Sequence):
        return node
    made = Sequence(node.file, node.line, node.column)
    made.end_line, made.end_column = node.end_line, node.end_column
    made.items = [node]
    return made


def _is_amount(node: Node) -> bool:
    return isinstance(node, Scalar) and _amount(node.text)[0] is not None


def _amount(text: str) -> tuple[Decimal | None, str]:
    found = _AMOUNT.fullmatch(text.strip())
    if found is None:
        return None, ""
    unit = found[2] or ""
    is_known = not unit or any(unit in dimension.units for dimension in DIMENSIONS)
    return (Decimal(found[1]), unit) if is_known else (None, unit)


def _in_unit(figure: Decimal, unit: str, wanted: str) -> Decimal | None:
    """A difference in another unit of the same quantity; None where there is no such thing."""
    for dimension in DIMENSIONS:
        if unit in dimension.units and wanted in dimension.units:
            base = parse_quantity(f"{figure:f} {unit}", dimension)
            # Degrees of two scales are no differences of each other.
            if not isinstance(base, float) or any(dimension.units[each].offset for each in (unit, wanted)):
                return None
            return Decimal(f"{base / dimension.units[wanted].factor:.6f}")
    return None


def _wrong(given: Assumption, sentence: str) -> AssumptionError:
    path = ".".join(clip(each.text) for each in given.path)
    return AssumptionError(f"{given.file}: {path} {sentence}")
