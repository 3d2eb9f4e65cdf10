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


def as_read(choices: "Choices") -> "Choices":
    return choices


def compiled(path: Path, given: str, change: "Callable[[Choices], Choices] | None" = as_read) -> "Compiled":
    """The plan at `path`, which the user called `given`. `change` may forget some of the choices kept beside it; None reads none.

    Raises TroubleError where the file itself cannot be read; all else is in the report.
    """
    from firstfix.pipeline import compile_plan
    from firstfix.source.load import UnreadableFile

    try:
        return compile_plan(path, shown(given), change)
    except UnreadableFile as fault:
        raise TroubleError(str(fault)) from None


def shown(path: str) -> str:
    """A path for people and documents: forward slashes, nothing unprintable, no bytes that aren't text."""
    named = os.fsencode(path).decode("utf-8", "backslashreplace")
    return visible(named.replace(os.sep, "/"))
