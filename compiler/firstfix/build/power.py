"""What feeds what: PoE runs with their classes, the budgets they draw on, and mains feeds."""

from typing import NamedTuple

from firstfix.finding.model import Term
from firstfix.parts.facts import Figure, Unknown, exactly

NOT_WORKED_OUT = Unknown("it was not worked out")


class PowerRun(NamedTuple):
    """PoE from the jack that gives it to the jack that takes it; with an injector in line, it begins at the injector.

    asked: class the device asks for, 0 to 8. port_class: highest class of the giving jack.
    assigned: the class it is granted. granted: watts at the device. reserved: watts counted at the source.
    drawn: watts the device draws at its jack at the most. `channel` is the channel of which the run is a part.
    `pairs`: how many carry the power. `volts`: the lowest at the source. `loop`: ohms over those pairs out and back, from what it
    is at least to what it may be, with the terms of the least. `counted`: class, draw, or asked (in steps of 0.1 W).
    `doubts`: facts that are missing, which set low and high of `reserved` apart; `loop_doubts` those of `loop`.
    `priority`: of its port.
    `feeds`: the device at a splitter's low-voltage lead, or "".
    """

    id: str
    source: str
    sink: str
    channel: str
    pieces: tuple[str, ...]
    connections: int
    asked: Figure
    port_class: Figure
    assigned: Figure
    granted: Figure
    reserved: Figure
    drawn: Figure
    pairs: int = 2
    volts: float = 0.0
    loop: Figure = NOT_WORKED_OUT
    loop_terms: tuple[Term, ...] = ()
    counted: str = "class"
    doubts: tuple[str, ...] = ()
    loop_doubts: tuple[str, ...] = ()
    priority: str = "low"
    feeds: str = ""


class PowerSource(NamedTuple):
    """A device that gives PoE: what it has to give, with terms, and the runs it feeds. `counts` is class or draw.

    `fed_by` is the id of the power run that feeds it, or "" when the mains do. `taken`: watts counted for all its runs.
    `doubts`: facts that are missing, which set low and high of `budget` apart.
    """

    device: str
    budget: Figure
    terms: tuple[Term, ...]
    counts: str
    counts_basis: str
    fed_by: str
    runs: tuple[str, ...]
    taken: Figure = NOT_WORKED_OUT
    doubts: tuple[str, ...] = ()

    @property
    def left(self) -> Figure:
        """Watts of the budget that nothing takes, in the worst case; below 0 where more is taken than there is."""
        if isinstance(self.budget, Unknown):
            return self.budget
        if isinstance(self.taken, Unknown):
            return self.taken
        left = self.budget.low - self.taken.high
        return exactly(left, "budget less what is taken")

    @property
    def left_share(self) -> Figure:
        """`left` as a share of the budget."""
        left = self.left
        if isinstance(left, Unknown) or isinstance(self.budget, Unknown):
            return left
        if self.budget.low <= 0:
            return Unknown("it has nothing to give")
        return exactly(left.low / self.budget.low, "share of the budget")


class MainsFeed(NamedTuple):
    """`device` is fed at its mains inlet by an outlet of `source`: a strip's or UPS's device id, or a room's id.

    `inlet` tells the leads of a device with several apart, from 1.
    """

    device: str
    source: str
    outlet: int
    inlet: int = 1


NO_PLUG = Unknown("the plan does not say which plug its outlets take (`mains: {plug: …}`)")


class HouseMains(NamedTuple):
    """What every outlet of the plan is like: `plug`, a letter of IEC/TR 60083; `volts` between its conductors."""

    plug: str | Unknown = NO_PLUG
    volts: Figure = Unknown("the plan does not say the volts of its mains")


NO_MAINS_SAID = HouseMains()


class Circuit(NamedTuple):
    """One circuit of a building's mains: `rating` in amperes of what protects it, `volts` between its conductors.

    `rooms`: ids of those whose outlets hang on it, sorted.
    """

    id: str
    name: str
    rating: Figure
    volts: Figure
    rooms: tuple[str, ...]
