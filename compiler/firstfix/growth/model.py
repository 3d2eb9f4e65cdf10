"""How far a plan can grow, as data: of what one could have more, how many, what ends it, what else is near, what would lift it."""

from typing import NamedTuple

# What one may want more of, by the kind of its part; the last is anything that takes units of a cabinet.
CAMERAS, ACCESS_POINTS, PLACES, STORAGE, HEIGHT = (
    "cameras",
    "access points",
    "wired places",
    "storage",
    "cabinet height",
)
KINDS = (CAMERAS, ACCESS_POINTS, PLACES, STORAGE, HEIGHT)
# Nobody adds more than this at once; past it the answer is "at least".
MOST = 64


class Spot(NamedTuple):
    """One more like `like`, a device's name, or, of cabinets without one, a part's (`is_part`).

    `room` is where it stands, as `site/room`; `switch` what it is wired to, or "". `link`: place of its run in the plan, or -1
    where it is wired to `like` itself. `cabinet`: the one that is to take more, for HEIGHT only.
    """

    kind: str
    like: str
    room: str
    switch: str
    link: int
    cabinet: str = ""
    is_part: bool = False

    @property
    def name(self) -> str:
        """Under which it can be asked for."""
        return self.cabinet or self.like


class Trouble(NamedTuple):
    """What is wrong with the plan when there is one more, and was not before. `level`: a finding's, or "cannot tell"."""

    rule: str
    subject: str
    level: str
    message: str


class Behind(NamedTuple):
    """A limit and how many more until it is reached, if nothing else were: `left` in `unit`, of which each takes `each`.

    `what` and `id` as in graphs.headroom; `of` tells rows of one thing apart. None, where that is not known; `why` says why.
    """

    what: str
    id: str
    of: str
    unit: str
    left: float | None
    each: float
    more: int | None
    why: str = ""


class Lift(NamedTuple):
    """What would lift the first limit: `words` say it, `price` in minor units (None: no price is known), `unpriced` what has none.

    With it, `more` fit in all (`is_least`: or more than that), until `then`.
    """

    words: str
    price: int | None
    unpriced: tuple[str, ...]
    more: int
    is_least: bool
    then: tuple[Trouble, ...]


class Growth(NamedTuple):
    """`more` fit, and with another one there is `first`; nothing in `first` where MOST fit (`is_least`).

    `is_exact`: found by compiling the plan with them in it; else reckoned from what is left, and only limits that are reckoned count.
    `behind`: all limits that are reckoned, the nearest first. `doubts`: what could not be told with one more, as it can't be now.
    `lifts`: the cheapest first; `tried`: how many ways of lifting were compiled.
    """

    spot: Spot
    more: int
    is_least: bool
    first: tuple[Trouble, ...]
    behind: tuple[Behind, ...]
    doubts: tuple[Trouble, ...]
    lifts: tuple[Lift, ...]
    is_exact: bool
    tried: int = 0
