"""Every kind of finding there is, by family: of reading the files, of the rules, of exceptions, of the progress of the work."""

from typing import NamedTuple

from firstfix.allocations.kinds import ALLOCATION_KINDS
from firstfix.finding.kinds import Kind
from firstfix.progress.kinds import PROGRESS_KINDS
from firstfix.rules.exceptions import EXCEPTION_UNMATCHED
from firstfix.rules.registry import FAMILIES
from firstfix.rules.spending_kinds import SPENDING_KINDS
from firstfix.rules.work_kinds import WORK_KINDS
from firstfix.source.kinds import SOURCE_KINDS

# A family of this title gets the kinds of reading its file, too.
_KEPT = "kept choices"


class KindFamily(NamedTuple):
    """What somebody looks for together; its kinds are sorted by id."""

    title: str
    kinds: tuple[Kind, ...]


def kind_families() -> tuple[KindFamily, ...]:
    """In the order in which a plan meets them: its text, its rules, its exceptions, and then the work."""
    of_rules = ((family.title, tuple(rule.kind for rule in family.rules)) for family in FAMILIES)
    found = (
        ("the files of a plan", SOURCE_KINDS),
        *((title, (*kinds, *ALLOCATION_KINDS) if title == _KEPT else kinds) for title, kinds in of_rules),
        ("money", SPENDING_KINDS),
        ("order of work", WORK_KINDS),
        ("exceptions", (EXCEPTION_UNMATCHED,)),
        ("progress of the work", PROGRESS_KINDS),
    )
    return tuple(KindFamily(title, _sorted(kinds)) for title, kinds in found)


def all_kinds() -> tuple[Kind, ...]:
    """Sorted by id."""
    return _sorted(tuple(kind for family in kind_families() for kind in family.kinds))


def _sorted(kinds: tuple[Kind, ...]) -> tuple[Kind, ...]:
    return tuple(sorted(kinds, key=lambda kind: kind.id))
