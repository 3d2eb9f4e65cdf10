"""Whether each phase's shopping costs no more than its budget."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.build.phases import Phase
from firstfix.build.reasons import PLAN
from firstfix.finding.model import Cure, Label, Measurement, Term
from firstfix.offers.currency import decimals, minor
from firstfix.parts.facts import Fact
from firstfix.purchase.by_phase import PhaseCost, costs_by_phase
from firstfix.purchase.money import money
from firstfix.purchase.needs import needs
from firstfix.rules.rule import Fine, Outcome, Rule
from firstfix.rules.spending_kinds import PHASE_BUDGET

_MOST_NAMED = 4


def _check(build: Build) -> Iterator[Outcome]:
    """The shopping list is worked out only where a phase has a budget."""
    budgets = {phase.name: phase for phase in build.phases if isinstance(phase.budget, Fact)}
    if not budgets:
        return
    for cost in costs_by_phase(build, needs(build)):
        if cost.name in budgets:
            yield _judged(build, budgets[cost.name], cost)


def _judged(build: Build, phase: Phase, cost: PhaseCost) -> Outcome:
    assert isinstance(phase.budget, Fact)
    subject, at = f"phase:{phase.name}", build.provenance.written(PLAN, "phases", phase.name, "budget")
    allowed = minor(phase.budget.typical, build.currency)
    if cost.paid <= allowed and not (cost.unpriced or cost.unsettled):
        return Fine(subject)
    if cost.paid <= allowed and not cost.unpriced:
        return RULE.waits(subject, at, f"how much to buy of {_listed(cost.unsettled)}")
    if cost.paid <= allowed:
        said = f"lines with a price come to {money(cost.paid, build.currency)} of {money(allowed, build.currency)}"
        return RULE.cannot_tell(subject, at, f"{said}; no price is known of {_listed(cost.unpriced)}")
    over = money(cost.paid - allowed, build.currency)
    message = (
        f"what is bought for the phase '{phase.name}' comes to {money(cost.paid, build.currency)}, {over} more than its "
        f"budget of {money(allowed, build.currency)}{_besides(cost)}"
    )
    cures = (Cure(f"move what can wait into a later phase, take cheaper parts, or allow {over} more"),)
    return RULE.finding(message, subject, at, _typical(cost), _measured(build, cost, allowed), cures)


def _besides(cost: PhaseCost) -> str:
    without = (*cost.unpriced, *cost.unsettled)
    return (
        f"; {_listed(without)}, without a sum, {'comes' if len(without) == 1 else 'come'} on top"
        if without
        else ""
    )


def _typical(cost: PhaseCost) -> tuple[Label, ...]:
    text = "some of the prices are stand-ins from the part library; replace them by offers"
    return (Label(None, text),) if cost.typical else ()


def _measured(build: Build, cost: PhaseCost, allowed: int) -> Measurement:
    unit, scale = build.currency, 10 ** decimals(build.currency)
    terms = tuple(Term(section, paid / scale, "the shopping list") for section, paid in cost.sections)
    return Measurement("the phase costs", cost.paid / scale, "at most", allowed / scale, unit, terms)


def _listed(titles: tuple[str, ...]) -> str:
    more = len(titles) - _MOST_NAMED
    return ", ".join(titles[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


RULE = Rule(PHASE_BUDGET, _check)
