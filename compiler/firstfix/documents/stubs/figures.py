"""Figures in a sheet: as printed, or that they cannot be told, and why."""

from collections.abc import Callable

from firstfix.parts.facts import Figure, Unknown
from firstfix.units import number

NOTHING = "–"


def shown(figure: Figure, write: Callable[[float], str]) -> str:
    return f"cannot tell ({figure.why})" if isinstance(figure, Unknown) else write(figure.typical)


def at_most(figure: Figure, write: Callable[[float], str]) -> str:
    """A figure of which the worst case counts."""
    return f"cannot tell ({figure.why})" if isinstance(figure, Unknown) else write(figure.high)


def power_class(figure: Figure) -> str:
    return f"class {shown(figure, number)}"
