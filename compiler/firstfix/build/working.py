"""When and by how many hands the work is done, as the plan says it or as is usual."""

from typing import NamedTuple


class Working(NamedTuple):
    """`days`: of the week, Monday is 0. `minutes` of work on each. `closed`: days without work, as text.

    `takes`: minutes by kind of step, in place of what is usual. `lead`: days until what no shop gives a time for has come,
    None where nobody says. What is left out is a working week of common practice, no source.
    """

    days: tuple[int, ...] = (0, 1, 2, 3, 4)
    minutes: int = 480
    crew: int = 1
    closed: tuple[str, ...] = ()
    takes: tuple[tuple[str, int], ...] = ()
    lead: int | None = None


USUAL_WORK = Working()
