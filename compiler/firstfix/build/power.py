"""What feeds what: PoE runs with their classes, the budgets they draw on, and mains feeds."""

from typing import NamedTuple

from firstfix.finding.model import Term
from firstfix.parts.facts import Figure


class PowerRun(NamedTuple):
    """PoE from the jack that gives it to the jack that takes it; with an injector in line, it begins at the injector.

    asked: class the device asks for, 0 to 8. port_class: highest class of the giving jack.
    assigned: the class it is granted. granted: watts at the device. reserved: watts counted at the source.
    drawn: watts the device draws at its jack at the most. `channel` is the channel of which the run is a part.
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


class PowerSource(NamedTuple):
    """A device that gives PoE: what it has to give, with terms, and the runs it feeds. `counts` is class or draw.

    `fed_by` is the id of the power run that feeds it, or "" when the mains do.
    """

    device: str
    budget: Figure
    terms: tuple[Term, ...]
    counts: str
    counts_basis: str
    fed_by: str
    runs: tuple[str, ...]


class MainsFeed(NamedTuple):
    """`device` is fed at its mains inlet by an outlet of `source`: a strip's or UPS's device id, or a room's id."""

    device: str
    source: str
    outlet: int
