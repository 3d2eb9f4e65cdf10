"""Where a formula stops being true, and what happens exactly at a limit. Leaf of this shelf."""

import math
from typing import NamedTuple

# Decimal figures leave dust in the last binary digits; a billionth of a limit is below any tolerance here.
_DUST = 1e-9


class OutOfRange(ValueError):
    """A formula was asked for a value outside the range that its source covers."""

    def __init__(self, what: str, value: float, low: float, high: float, unit: str = "") -> None:
        super().__init__(
            f"{what} {value:g} {unit}".rstrip() + f" is not within {low:g} to {high:g} {unit}".rstrip()
        )
        self.what = what
        self.value = value
        self.low = low
        self.high = high
        self.unit = unit


class Summand(NamedTuple):
    """One term of a figure, in the figure's unit, and where it comes from: what a finding's Term wants."""

    what: str
    value: float
    source: str = ""


def total(terms: tuple[Summand, ...]) -> float:
    """The sum of the terms, rounded once at the end, so that their order does not matter."""
    return math.fsum(term.value for term in terms)


def within(what: str, value: float, low: float, high: float, unit: str = "") -> float:
    """`value`, if low <= value <= high; else (and for nan) OutOfRange."""
    if not low <= value <= high:
        raise OutOfRange(what, value, low, high, unit)
    return value


def positive(what: str, value: float, unit: str = "") -> float:
    """`value`, if it is finite and above zero; else OutOfRange."""
    if not (value > 0 and math.isfinite(value)):
        raise OutOfRange(what, value, 0.0, math.inf, unit)
    return value


def not_negative(what: str, value: float, unit: str = "") -> float:
    """`value`, if it is finite and not below zero; else OutOfRange."""
    if not (value >= 0 and math.isfinite(value)):
        raise OutOfRange(what, value, 0.0, math.inf, unit)
    return value


def at_most(figure: float, limit: float) -> bool:
    """Whether `figure` keeps `limit`. Exactly at the limit is kept; binary dust beside it is no breach."""
    return figure <= limit + _DUST * max(1.0, abs(limit))


def at_least(figure: float, limit: float) -> bool:
    """Whether `figure` reaches `limit`; the mirror of `at_most`."""
    return figure >= limit - _DUST * max(1.0, abs(limit))
