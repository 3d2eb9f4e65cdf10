"""Whether each phase's shopping costs no more than its budget: by the order from the plan's shops, else by the prices of the parts."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.phases import Phase
from firstfix.build.reasons import PLAN
from firstfix.finding.model import Cure, Label, Measurement, Term
from firstfix.offers.currency import decimals, minor
from firstfix.parts.facts import Fact
from firstfix.purchase.by_phase import PhaseCost, costs_by_phase, postage_by_phase
from firstfix.purchase.money import money
from firstfix.purchase.needs import needs
from firstfix.purchase.order import order
from firstfix.purchase.ordered import as_ordered
from firstfix.purchase.whole_numbers import MOST_WORK
from firstfix.rules.rule import Fine, Outcome, Rule
from firstfix.rules.spending_kinds import PHASE_BUDGET

_MOST_NAMED = 4
# A check is to be quick: a third of the work that `build` may put into an order, some two seconds. What is proven with it is build's order.
_MOST_WORK = MOST_WORK // 3


class _Reckoned(NamedTuple):
    """`costs` of each phase; `postage` of its parcels, by phase. `why_not`: why that is not what the phases cost, or ""."""

    costs: tuple[PhaseCost, ...]
    postage: Mapping[str, int]
    why_not: str = ""


def _check(build: Build) -> Iterator[Outcome]:
    """The shopping list is worked out only where a phase has a budget; from shops, their order with it."""
    budgets = {phase.name: phase for phase in build.phases if isinstance(phase.budget, Fact)}
    if not budgets:
        return
    reckoned = _reckoned(build)
    for cost in reckoned.costs:
        if cost.name in budgets:
            yield _judged(build, budgets[cost.name], cost, reckoned)


def _reckoned(build: Build) -> _Reckoned:
    to_buy = needs(build)
    if not build.shops:
        return _Reckoned(costs_by_phase(build, to_buy), {})
    found = order(build, to_buy, {}, _MOST_WORK)
    assert found is not None
    if not found.is_proven or found.missed:
        why_not = f"the best order from its {len(build.shops)} shops is a larger question than is asked here; 'build' goes further"
        return _Reckoned(costs_by_phase(build, to_buy), {}, why_not)
    return _Reckoned(
        costs_by_phase(build, as_ordered(to_buy, found, {})), postage_by_phase(build, to_buy, found)
    )


def _judged(build: Build, phase: Phase, cost: PhaseCost, reckoned: _Reckoned) -> Outcome:
    assert isinstance(phase.budget, Fact)
    subject, at = f"phase:{phase.name}", build.provenance.written(PLAN, "phases", phase.name, "budget")
    allowed, postage = minor(phase.budget.typical, build.currency), reckoned.postage.get(phase.name, 0)
    paid = cost.paid + postage
    if reckoned.why_not:
        return RULE.cannot_tell(subject, at, reckoned.why_not)
    if paid <= allowed and not (cost.unpriced or cost.unsettled):
        return Fine(subject)
    if paid <= allowed and not cost.unpriced:
        return RULE.waits(subject, at, f"how much to buy of {_listed(cost.unsettled)}")
    if paid <= allowed:
        said = f"lines with a price come to {money(paid, build.currency)} of {money(allowed, build.currency)}"
        return RULE.cannot_tell(subject, at, f"{said}; no price is known of {_listed(cost.unpriced)}")
    over = money(paid - allowed, build.currency)
    message = (
        f"what is bought for the phase '{phase.name}' comes to {money(paid, build.currency)}, {over} more than its "
        f"budget of {money(allowed, build.currency)}{_besides(cost)}"
    )
    cures = (Cure(f"move what can wait into a later phase, take cheaper parts, or allow {over} more"),)
    return RULE.finding(message, subject, at, _typical(cost), _measured(build, cost, postage, allowed), cures)


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


def _measured(build: Build, cost: PhaseCost, postage: int, allowed: int) -> Measurement:
    unit, scale = build.currency, 10 ** decimals(build.currency)
    source = "the plan's shops, else the prices of the parts" if build.shops else "the shopping list"
    terms = [Term(section, paid / scale, source) for section, paid in cost.sections]
    if postage:
        terms.append(Term("postage, shared out by what each phase has in a parcel", postage / scale, source))
    return Measurement(
        "the phase costs", (cost.paid + postage) / scale, "at most", allowed / scale, unit, tuple(terms)
    )


def _listed(titles: tuple[str, ...]) -> str:
    more = len(titles) - _MOST_NAMED
    return ", ".join(titles[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


RULE = Rule(PHASE_BUDGET, _check)
