"""Verdicts on money that rest on the shopping list: the checks are in spending/, which sees the rules and the purchase."""

from firstfix.finding.kinds import Kind
from firstfix.finding.model import Basis, Level

PHASE_BUDGET = Kind(
    "phase-budget",
    Level.WARNING,
    """What is bought for a phase costs no more than its budget.

    Because: whoever finds out at the till has the choice between a debt and half a network.
    Compares: sum of the shopping list's lines for the phase, in whole packs [currency] <= the phase's budget [currency].
    A pack that serves several phases is shared out between them. What names no phase is bought with the first one.
    Where the plan names shops, lines cost what the best order pays there, tax included, and a phase bears its share of the postage; what no
    shop offers, and every line of a plan without shops, counts by the price of its part. Tools to borrow or buy are not in it.
    Skips: phases without a budget.
    Cannot tell: the rest is within the budget, and a line has no price; or the best order is too large a question for a check.
    Remedy: move things into a later phase, take a cheaper part, or raise the budget.
    """,
    Basis("the plan", "the phase's budget"),
)

SPENDING_KINDS = (PHASE_BUDGET,)
