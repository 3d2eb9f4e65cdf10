"""Every kind of finding there is: of reading the files, of the rules, of exceptions, of the progress of the work."""

from firstfix.allocations.kinds import ALLOCATION_KINDS
from firstfix.finding.kinds import Kind
from firstfix.progress.kinds import PROGRESS_KINDS
from firstfix.rules.exceptions import EXCEPTION_UNMATCHED
from firstfix.rules.registry import ALL_RULES
from firstfix.source.kinds import SOURCE_KINDS


def all_kinds() -> tuple[Kind, ...]:
    """Sorted by id."""
    rules = (rule.kind for rule in ALL_RULES)
    return tuple(sorted((*SOURCE_KINDS, *ALLOCATION_KINDS, *PROGRESS_KINDS, *rules, EXCEPTION_UNMATCHED)))
