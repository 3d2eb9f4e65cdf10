"""Things that hand power on: what a giver has to give by how it is fed itself, and what a thing draws for what hangs on it.

Takes the part's facts and what was granted to it; gives a Budget, or a Need at its jack.
"""

import math
from typing import NamedTuple

from firstfix.finding.model import Term
from firstfix.parts.facts import Fact, Figure, Unknown, exactly
from firstfix.parts.part import GivesPoe, Part
from firstfix.physics.poe import cascade_budget, converted_draw, poe_class
from firstfix.standards.poe import PoeClass

# The worst conversion inside a device that hands power on, where its data sheet gives neither pass-through figures nor an
# efficiency. Common practice, no source.
WORST_EFFICIENCY = 0.9
_WORST_CASE = "common practice, no source: worst case"


class Budget(NamedTuple):
    """What a giver has to give [W], with terms that make up the least of it; `doubts` set its low and high apart."""

    watts: Figure
    terms: tuple[Term, ...] = ()
    doubts: tuple[str, ...] = ()


class Need(NamedTuple):
    """What is drawn at a jack at the most [W], from what that surely is to what it may be; `doubts` set the two apart.

    `drawn` is the figure to show; `high` is None where nothing bounds it.
    """

    low: float
    high: float | None
    drawn: Figure
    doubts: tuple[str, ...] = ()


def budget_of(part: Part, gives: GivesPoe, fed_by: tuple[PoeClass | None, Figure] | None) -> Budget:
    """`fed_by`: the class that was granted to it (None: none, or not known) and its watts; None where no PoE feeds it."""
    if fed_by is None and part.mains.inlet:
        if isinstance(gives.budget, Unknown):
            return Budget(Unknown(f"the part '{part.name}' does not say how much it can give"))
        return Budget(gives.budget, (Term("its own supply gives", gives.budget.low, gives.budget.basis),))
    if fed_by is None:
        return _nothing("nothing feeds it")
    row, granted = fed_by
    if isinstance(granted, Fact) and granted.high == 0:
        return _nothing("what should feed it grants nothing")
    if row is None:
        return Budget(Unknown("what feeds it is not known"))
    if gives.when_fed:
        return _as_stated(part, gives, row)
    if isinstance(part.draw, Unknown):
        return Budget(Unknown(f"the part '{part.name}' does not say what it uses itself"))
    return _reckoned(part, gives, row, part.draw)


def _nothing(why: str) -> Budget:
    return Budget(exactly(0.0, why), (Term(why, 0.0),))


def _as_stated(part: Part, gives: GivesPoe, row: PoeClass) -> Budget:
    """By the part's own figures: that of the most powerful class that is no more than what was granted."""
    fitting = [
        (poe_class(number).pd_power_w, number, watts)
        for number, watts in gives.when_fed
        if poe_class(number).pd_power_w <= row.pd_power_w
    ]
    if not fitting:
        said = ", ".join(str(number) for number, _ in gives.when_fed)
        return Budget(
            Unknown(
                f"the part '{part.name}' says what it can give when fed by class {said}, not by class {row.number}"
            )
        )
    watts = max(fitting)[2]
    return Budget(
        exactly(watts, part.basis), (Term(f"fed by class {row.number}, it can give", watts, part.basis),)
    )


def _reckoned(part: Part, gives: GivesPoe, row: PoeClass, own: Fact) -> Budget:
    """What is granted, minus own use, minus the conversion's loss: as stated, or from our worst case to none."""
    worst, best, doubts = _efficiency(gives.efficiency, part)
    basis = part.basis if not doubts else _WORST_CASE
    granted = row.pd_power_w
    left = max(0.0, cascade_budget(row.number, own.high, worst))
    used = min(own.high, granted)
    terms = (
        Term(f"granted to it by class {row.number}", granted, "IEEE 802.3"),
        Term("its own use", -used, own.basis),
        Term(f"lost in conversion at {worst:.0%}", left + used - granted, basis),
    )
    most = round(max(0.0, cascade_budget(row.number, own.high, best)), 6)
    return Budget(Fact(round(left, 6), round(left, 6), most, basis), terms, doubts if most > left else ())


def _efficiency(figure: Figure, part: Part) -> tuple[float, float, tuple[str, ...]]:
    """Of the conversion inside: at the worst, at the best, and what is not known of it."""
    if isinstance(figure, Fact):
        return figure.low, figure.high, ()
    doubt = f"the part '{part.name}' does not say the efficiency of what it hands on; {WORST_EFFICIENCY:.0%} is the worst reckoned with"
    return WORST_EFFICIENCY, 1.0, (doubt,)


def need_at_jack(part: Part, granted: Figure, given: Figure | None, at_lead: Part | None) -> Need:
    """What a thing draws at the jack that feeds it.

    granted: watts at the device, which bound a draw that is not known. given: what is taken of it, where it gives PoE itself.
    at_lead: the part at its low-voltage lead, where it is a splitter that feeds something.
    """
    most = granted.high if isinstance(granted, Fact) else None
    if given is not None:
        return _of_giver(part, most, given)
    if at_lead is not None:
        return _of_splitter(part, most, at_lead)
    return _plain(part.draw, most, f"the part '{part.name}' does not say what it draws")


def _plain(draw: Figure, most: float | None, doubt: str) -> Need:
    if isinstance(draw, Unknown):
        return Need(0.0, most, Unknown(doubt), (doubt,))
    return Need(draw.high, draw.high, draw)


def _of_giver(part: Part, most: float | None, given: Figure) -> Need:
    """Its own use and what is taken of it, with the loss in conversion; never more than it was granted."""
    gives = part.gives_poe
    assert gives is not None
    if isinstance(part.draw, Unknown) or isinstance(given, Unknown):
        doubt = (
            given.why
            if isinstance(given, Unknown)
            else f"the part '{part.name}' does not say what it uses itself"
        )
        shown = Unknown(doubt) if most is None else exactly(most, "all that it is granted")
        return Need(0.0, most, shown, (doubt,))
    worst, best, doubts = _efficiency(gives.efficiency, part) if given.high > 0 else (1.0, 1.0, ())
    bound = math.inf if most is None else most
    low = min(converted_draw(part.draw.high, given.low, best), bound)
    high = min(converted_draw(part.draw.high, given.high, worst), bound)
    drawn = Fact(min(part.draw.low, high), high, high, "its own use and what it hands on")
    return Need(low, high, drawn, doubts if low < high else ())


def _of_splitter(part: Part, most: float | None, fed: Part) -> Need:
    """What hangs on its lead, by its efficiency; where that is not said, its own figure of all that it draws."""
    lead = part.gives_low_voltage
    if lead is None or isinstance(lead.efficiency, Unknown):
        return _plain(
            part.draw, most, f"the part '{part.name}' says neither its efficiency nor what it draws"
        )
    if isinstance(fed.draw, Unknown):
        return _plain(fed.draw, most, f"the part '{fed.name}' does not say what it draws")
    draw = converted_draw(0.0, fed.draw.high, lead.efficiency.low)
    return Need(draw, draw, Fact(draw, draw, draw, f"{fed.draw.basis}; what it feeds, by its efficiency"))
