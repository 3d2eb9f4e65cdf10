"""Faults in the order that an author wants for the work: the checks are in schedule/, which sees the rules and the work."""

from firstfix.finding.kinds import Kind, error

STEP_UNKNOWN = error(
    "step-unknown",
    """A step that the plan names under `work: after:` is one of the checklist's.

    Because: what is to wait for a step that there is not would wait for nothing, without a word.
    Compares: each name with the ids of the steps, and with their short forms (`fit:core` for `fit:device/core`).
    What is in place already has no steps of being put there.
    Remedy: take the id that stands at the step in install-checklist.md, or `firstfix check PLAN --why fit:core`.
    """,
)
STEPS_IN_A_RING = error(
    "steps-in-a-ring",
    """What the plan wants done first under `work: after:` can be done first.

    Because: steps that wait for each other are never begun.
    Compares: what the plan wants with what must come first for other reasons, with what else the plan wants, and with the
    order of phases. What closes a ring is left out, so that there still is a checklist.
    Remedy: take one of the wishes out, or turn it round.
    """,
)
WORK_KINDS: tuple[Kind, ...] = (STEP_UNKNOWN, STEPS_IN_A_RING)
