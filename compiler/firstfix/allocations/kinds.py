"""The kinds of faults in a file of kept choices that are not faults of YAML."""

from firstfix.finding.kinds import Kind
from firstfix.finding.model import PLAN_LANGUAGE, Level

KEPT_MERGE = Kind(
    "kept-merge",
    Level.NOTE,
    """A merge that was left unfinished in the file of kept choices counts as both of its sides.

    Because: one line holds one choice, so two sides that each add lines are both right.
    Compares: the lines with the marks that a merge puts between its two sides.
    Remedy: `firstfix build` writes the file without the marks; a line `*.allocations.yaml merge=union` in `.gitattributes` spares them.
    """,
    PLAN_LANGUAGE,
)

ALLOCATION_KINDS: tuple[Kind, ...] = (KEPT_MERGE,)
