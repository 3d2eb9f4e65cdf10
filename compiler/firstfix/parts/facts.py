"""A figure that is known, with its spread and its basis, or unknown, with the reason.

Never None, never a silent default.
"""

from typing import NamedTuple

DATA_SHEET = "data sheet"
MEASURED = "measured"
TYPICAL = "typical of its kind"
AUTHOR = "the plan's author"
BASES = (DATA_SHEET, MEASURED, TYPICAL, AUTHOR)


class Fact(NamedTuple):
    """A figure in the base unit of its dimension. With one figure known, low, typical and high are equal."""

    low: float
    typical: float
    high: float
    basis: str

    @property
    def is_typical_only(self) -> bool:
        """Whether a verdict on this figure must say that it rests on a typical one."""
        return self.basis == TYPICAL


class Unknown(NamedTuple):
    """Not known, and why: "the part does not say", "its way has no length"."""

    why: str


Figure = Fact | Unknown

NOT_SAID = Unknown("the part does not say")


def exactly(value: float, basis: str) -> Fact:
    return Fact(value, value, value, basis)


def high(figure: Figure) -> float | None:
    """The worst case for an upper limit, for callers that have dealt with Unknown."""
    return figure.high if isinstance(figure, Fact) else None
