"""What git says, asked without a shell, without running anything that a repository configures, and without the network.

Takes arguments; gives bytes. What git refuses is a GitRefusal with its own words, for the caller to put into a sentence.
"""

import os
import shutil
import subprocess
from pathlib import Path

from firstfix.cli.trouble import TroubleError

# Messages in the language that is looked for here; no locks, no questions, no objects fetched in passing.
_QUIETLY = {"LC_ALL": "C", "GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0", "GIT_NO_LAZY_FETCH": "1"}


class GitRefusal(Exception):
    """git ended with a fault; the text is the first line of what it said."""


def git(*arguments: str, folder: Path | None = None, given: bytes = b"") -> bytes:
    """What it prints. Raises GitRefusal, and TroubleError where there is no git."""
    program = shutil.which("git")
    if program is None:
        raise TroubleError("there is no git here to look for a revision with")
    # A list of arguments, so no shell; what the user wrote never stands where an option may.
    done = subprocess.run(  # noqa: S603
        [program, *arguments], cwd=folder, input=given, capture_output=True, check=False, env={**os.environ, **_QUIETLY}
    )  # fmt: skip
    if done.returncode:
        told = done.stderr.decode("utf-8", "replace").strip().partition("\n")[0]
        raise GitRefusal(told.removeprefix("fatal: "))
    return done.stdout


def asked(*arguments: str) -> str:
    """The same as one line of text, "" where git refuses."""
    try:
        return git(*arguments).decode("utf-8", "surrogateescape").strip("\n")
    except GitRefusal:
        return ""


def is_shallow() -> bool:
    """Whether older revisions were left out when the repository was copied."""
    return asked("rev-parse", "--is-shallow-repository") == "true"
