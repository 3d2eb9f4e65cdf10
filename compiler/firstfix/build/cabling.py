"""What is wired: pieces of cable with the terms of their length, joints, channels between active jacks, links as meant."""

from typing import NamedTuple

from firstfix.finding.model import Term
from firstfix.parts.facts import MEASURED, Fact, Figure, Unknown

CORD = "cord"
RUN = "installed run"


class Length(NamedTuple):
    """Metres, as the sum of its terms; unknown as soon as one term is. `sold` is the cord length bought for it, or 0.

    `reckoned`: for a run that was measured on site, what the plan reckons; then `terms` are what was measured.
    `needed`: for a cord within one cabinet whose length the plan states, what it would be reckoned to need.
    """

    terms: tuple[Term, ...]
    missing: tuple[str, ...]
    sold: float
    reckoned: "Length | None" = None
    needed: tuple[Term, ...] = ()

    @property
    def as_planned(self) -> "Length":
        """Without what was measured: by this a run is bought and cut."""
        return self.reckoned or self

    @property
    def figure(self) -> Figure:
        """The length that is bought and wired: for a cord as sold, for an installed run as reckoned."""
        if self.sold:
            return Fact(self.sold, self.sold, self.sold, "a length that is sold")
        if self.missing:
            return Unknown("; ".join(self.missing))
        total = round(sum([term.value for term in self.terms]), 6)
        return Fact(total, total, total, MEASURED if self.reckoned else "sum of its terms")


class Piece(NamedTuple):
    """One cable or cord. `ends` are jack ids in the link's order; `route` the ways it takes, in that order.

    `colour` is a word of the plan language's list, or "" where any will do. `is_owned`: it is there already.
    """

    id: str
    link: str
    kind: str
    part: str
    ends: tuple[str, str]
    route: tuple[str, ...]
    length: Length
    colour: str = ""
    is_owned: bool = False


class Joint(NamedTuple):
    """One end of a piece at a jack: a plug in it, or wires on its block.

    `counts`: whether it makes a connection of the channel. Mated connecting hardware (a panel, an outlet, an in-line part)
    counts once; the plugs in the equipment at the two ends don't (ISO/IEC 11801-1, channel definition).
    """

    id: str
    piece: str
    jack: str
    how: str
    counts: bool


class Channel(NamedTuple):
    """Everything passive between two active jacks. `through` are the passive devices on the way, in order."""

    id: str
    link: str
    ends: tuple[str, str]
    pieces: tuple[str, ...]
    through: tuple[str, ...]
    connections: int
    medium: str


class Link(NamedTuple):
    """What the author meant by one `run:` (or by `plugs-into`): `hops` are device ids, in order as written.

    `lanes` channels make one aggregate. `spare_for` names what a loop on purpose backs up, or "". `rate`: what the author asks of
    all lanes together [Mb/s].
    """

    id: str
    shown: str
    hops: tuple[str, ...]
    lanes: int
    spare_for: str
    phase: str
    rate: float | None = None


class OpenEnd(NamedTuple):
    """A passive jack at which a channel ends although it should go on: wired on one side only."""

    jack: str
    wired_face: str
    pieces: tuple[str, ...]
