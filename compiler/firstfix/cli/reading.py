"""A plan named on the command line, compiled; what every command that takes a plan shares."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import visible

if TYPE_CHECKING:
    from firstfix.allocations.choices import Choices
    from firstfix.pipeline import Compiled
    from firstfix.plan.assumption import Assumption


def as_read(choices: "Choices") -> "Choices":
    return choices


def compiled(
    path: Path,
    given: str,
    change: "Callable[[Choices], Choices] | None" = as_read,
    assumptions: "tuple[Assumption, ...]" = (),
) -> "Compiled":
    """The plan at `path`, which the user called `given`. `change` may forget some of the choices kept beside it; None reads none.

    `assumptions` are laid over it. Raises TroubleError where the file itself cannot be read, or has no place for one of them;
    all else is in the report.
    """
    from firstfix.pipeline import compile_plan
    from firstfix.plan.assumption import AssumptionError
    from firstfix.source.load import UnreadableFile

    try:
        return compile_plan(path, shown(given), change, assumptions)
    except (UnreadableFile, AssumptionError) as fault:
        raise TroubleError(str(fault)) from None


def standing(result: "Compiled", phase: str | None) -> "Compiled":
    """The network once `phase` is done; all of it with None. Raises TroubleError for a phase that the plan has not."""
    if phase is None or result.build is None:
        return result
    from firstfix.pipeline import standing_after
    from firstfix.source.nearest import did_you_mean

    names = [each.name for each in result.build.phases]
    if phase not in names:
        listed = ", ".join(f"'{name}'" for name in names)
        has = f"it has {listed}{did_you_mean(phase, names)}" if names else "it has none"
        raise TroubleError(f"the plan has no phase '{visible(phase)}'; {has}")
    return standing_after(result, phase)


def shown(path: str) -> str:
    """A path for people and documents: forward slashes, nothing unprintable, no bytes that aren't text."""
    named = os.fsencode(path).decode("utf-8", "backslashreplace")
    return visible(named.replace(os.sep, "/"))
