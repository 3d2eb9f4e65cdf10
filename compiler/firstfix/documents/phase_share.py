"""How the list of one phase goes with the whole list: what its share of that is, and why the two are not the same.

Takes the lines to buy of a phase and its share by purchase/by_phase.py; gives a sentence or two.
"""

from firstfix.build.model import Build
from firstfix.build.phases import Phase
from firstfix.offers.currency import minor
from firstfix.parts.facts import Fact
from firstfix.purchase.by_phase import PhaseCost
from firstfix.purchase.money import money
from firstfix.purchase.needs import Need, total

_SHARED = "a pack or coil that serves several phases is shared out there, and bought here with the first that needs it"
_BY_SHOPS = "; and there the prices are those of the shops' orders, here those of the parts"


def share_words(build: Build, phase: Phase, to_buy: tuple[Need, ...], cost: PhaseCost, postage: int) -> str:
    """`cost` and `postage` in minor units, of the whole list."""
    currency = build.currency
    share = f"This phase's share of the whole list is {money(cost.paid, currency)}"
    if postage:
        share += f", and {money(postage, currency)} of the postage"
    if isinstance(phase.budget, Fact):
        allowed = money(minor(phase.budget.typical, currency), currency)
        share += f"; {'both are' if postage else 'that is'} held against its budget of {allowed}"
    more = total(to_buy).known - cost.paid
    if not more:
        return f"{share}. This list comes to the same."
    way = "more" if more > 0 else "less"
    why = _SHARED + (_BY_SHOPS if build.shops else "")
    return f"{share}. This list comes to {money(abs(more), currency)} {way}: {why}."
