"""Real git repositories for tests, which take nothing from their user's own configuration."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from cli.running import environment

_WHO = {
    "GIT_AUTHOR_NAME": "n",
    "GIT_AUTHOR_EMAIL": "e",
    "GIT_COMMITTER_NAME": "n",
    "GIT_COMMITTER_EMAIL": "e",
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_NOSYSTEM": "1",
}


def git(folder: Path, *given: str) -> str:
    if shutil.which("git") is None:
        pytest.skip("there is no git")
    done = subprocess.run(
        ["git", "-c", "protocol.file.allow=always", *given],
        cwd=folder,
        env=environment(_WHO),
        capture_output=True,
        check=True,
        timeout=60,
    )
    return done.stdout.decode("utf-8")


def committed(folder: Path, message: str) -> None:
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "--allow-empty", "-m", message)


def started(folder: Path) -> Path:
    """The folder as a repository, with nothing in it yet."""
    folder.mkdir(parents=True, exist_ok=True)
    git(folder, "init", "-q", "-b", "main")
    return folder
