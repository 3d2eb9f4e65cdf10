"""Every rule, in one explicit tuple. A test fails if a rule isn't in it."""

from firstfix.finding.kinds import Kind
from firstfix.rules import cabinets, orphans, unsettled
from firstfix.rules.rule import Rule
from firstfix.source.kinds import SOURCE_KINDS

ALL_RULES: tuple[Rule, ...] = (
    *unsettled.RULES,
    *orphans.RULES,
    *cabinets.RULES,
)


def all_kinds() -> tuple[Kind, ...]:
    """Every kind of finding there is, those of reading a plan included, sorted by id."""
    return tuple(sorted((*SOURCE_KINDS, *(rule.kind for rule in ALL_RULES))))
