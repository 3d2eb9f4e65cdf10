"""The command run as its user runs it: a process of its own, with its two streams and its exit code."""

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

# One error (an unknown key), and a plan that has none and needs no rule to be right.
BROKEN_PLAN = "name: broken\ndevises:\n  core: {part: switch-8}\n"
UNREADABLE_PLAN = "name: [unclosed\n"


class Run(NamedTuple):
    code: int
    out: str
    err: str


def firstfix(*given: str | bytes, cwd: Path, env: Mapping[str, str] | None = None) -> Run:
    return python("-m", "firstfix", *given, cwd=cwd, env=env)


def python(*given: str | bytes, cwd: Path, env: Mapping[str, str] | None = None) -> Run:
    done = subprocess.run(
        [sys.executable, *given],
        cwd=cwd,
        env=environment(env),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        timeout=60,
        check=False,
    )
    return Run(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))


def environment(extra: Mapping[str, str] | None = None) -> dict[str, str]:
    """The test's own, without what would change how the command prints."""
    usual = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "FIRSTFIX_DEBUG")}
    return {**usual, "PYTHONWARNINGS": "error", **(extra or {})}


def is_one_sentence(text: str) -> bool:
    """One line on standard error that begins with the command's name and is no trace."""
    return text.startswith("firstfix: ") and text.count("\n") == 1 and "Traceback" not in text
