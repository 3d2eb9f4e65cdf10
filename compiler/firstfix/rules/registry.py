"""Every rule, in one explicit tuple. A test fails if a rule isn't in it."""

from firstfix.finding.kinds import Kind
from firstfix.rules import (
    addresses,
    cabinets,
    cable_choice,
    channels,
    layer2,
    membership,
    orphans,
    poe,
    poe_budget,
    unsettled,
    vlans,
)
from firstfix.rules.rule import Rule
from firstfix.source.kinds import SOURCE_KINDS

ALL_RULES: tuple[Rule, ...] = (
    *unsettled.RULES,
    *orphans.RULES,
    *cabinets.RULES,
    *layer2.RULES,
    *vlans.RULES,
    *membership.RULES,
    *addresses.RULES,
    *poe.RULES,
    *poe_budget.RULES,
    *channels.RULES,
    *cable_choice.RULES,
)


def all_kinds() -> tuple[Kind, ...]:
    """Every kind of finding there is, those of reading a plan included, sorted by id."""
    return tuple(sorted((*SOURCE_KINDS, *(rule.kind for rule in ALL_RULES))))
