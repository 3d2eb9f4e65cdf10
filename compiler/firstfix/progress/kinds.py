"""The kinds of findings about what was recorded on site."""

from firstfix.finding.kinds import Kind, error, warning
from firstfix.finding.model import Basis, Level


def _note(id: str, help: str, basis: Basis) -> Kind:
    return Kind(id, Level.NOTE, help, basis)


PROGRESS_FILE = Basis("the progress file of firstfix")

UNMATCHED = _note(
    "progress-unmatched",
    """What was recorded on site is still in the plan.

    Because: a plan changes while it is built; a record that nothing asks for any more must not vanish unseen.
    Compares: each step, shopping list line, device and run in the progress file with those of the plan.
    Remedy: none is needed, the record is kept. After a renaming, write `was: old-name` at the thing in the plan.
    """,
    PROGRESS_FILE,
)
OUTDATED = _note(
    "progress-outdated",
    """What was recorded on site was recorded for what the plan says now.

    Because: a cable that was pulled, or a switch that was mounted, stays what it is when the plan changes.
    Compares: what the plan said when it was recorded (part, length, ends, place, the VLANs of a device's jacks) with what it says now.
    Skips: records that do not say what the plan said; `firstfix progress` writes it, by hand it may be left out.
    Remedy: do the step anew and record it again, or take the change back in the plan.
    """,
    PROGRESS_FILE,
)
OUT_OF_TIME = _note(
    "progress-out-of-time",
    """What is recorded with a day follows what had to come before it.

    Because: a slip in a year or month makes parts late that are here, and a step done before what it waits for is to be looked at again.
    Compares: the day of each arrival with that of its order, and the day of each step with those of the steps it waits for.
    Skips: records without a day. Nobody's clock is asked whether a day has come yet.
    Remedy: mend the day, or look at the step again.
    """,
    PROGRESS_FILE,
)
LABEL_TWICE = error(
    "label-twice",
    """A MAC address belongs to one device.

    Because: an address that was read from the wrong box sends a fixed lease, or a switch's settings, to the wrong device.
    Compares: the MAC addresses in the progress file with each other.
    Remedy: read the two labels again.
    """,
)
FAILED_TEST = warning(
    "run-failed-test",
    """An installed run passes its test before anything is connected to it.

    Because: a fault in a wall is cheap to mend before it is closed over, and dear after.
    Compares: the verdict recorded for each run.
    Remedy: terminate its ends anew, first the one that the tester points to; then pull it again. Record the new verdict.
    """,
)._replace(basis=PROGRESS_FILE)
MEASURED = _note(
    "length-measured",
    """A run measured on site is about as long as planned.

    Because: the longer one is judged against the limits of its channel, and a length far off can be a wrong run's.
    Compares: measured length [m] <= planned length with its slack [m], and measured >= planned without slack, less 10 %.
    Skips: runs that nobody has measured, and those whose planned length is not known.
    Remedy: correct the length of the way in the plan, so that the next run in it is bought right.
    """,
    Basis(
        "ANSI/TIA-1152-A",
        "a field tester's length may be 10 % off by the cable's velocity of propagation; from memory",
    ),
)
PROGRESS_KINDS: tuple[Kind, ...] = (UNMATCHED, OUTDATED, OUT_OF_TIME, LABEL_TWICE, FAILED_TEST, MEASURED)
