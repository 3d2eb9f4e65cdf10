"""When and by how many hands the work is done, as the plan says it or as is usual."""

from typing import NamedTuple


class OwnStep(NamedTuple):
    """A step that the author adds to the work. `room`: id or ""; done by `crew` of the crew, by others where that is 0."""

    id: str
    name: str
    does: str
    room: str
    phase: str
    minutes: int
    crew: int


class Wanted(NamedTuple):
    """The author wants the step `before` done before `step`, for the reason `why` or "". Steps as written: `fit:core`."""

    step: str
    before: str
    why: str


class Working(NamedTuple):
    """`days`: of the week, Monday is 0. `minutes` of work on each. `closed`: days without work, as text.

    `takes`: minutes by kind of step, in place of what is usual. `lead`: days until what no shop gives a time for has come,
    None where nobody says. `own`: steps of the author's own, by id. `after`: what the author wants before what, each once, in the order of its words.
    What is left out is a working week of common practice, no source.
    """

    days: tuple[int, ...] = (0, 1, 2, 3, 4)
    minutes: int = 480
    crew: int = 1
    closed: tuple[str, ...] = ()
    takes: tuple[tuple[str, int], ...] = ()
    lead: int | None = None
    own: tuple[OwnStep, ...] = ()
    after: tuple[Wanted, ...] = ()


USUAL_WORK = Working()
