"""What git hands to an external diff, turned into two plans to compare: `diff.NAME.command` is `firstfix diff --from-git`.

git gives a path and, for each side, a file, the id of its content and its mode (gitattributes, "Defining an external diff driver"; git,
GIT_EXTERNAL_DIFF). The file is that one text alone; what stands beside a plan is looked for where that text was: in the working tree, in
HEAD, in the index, or in the newest revision that holds it. Where it is read from is said, for git does not tell which revision was asked for.
"""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from firstfix.cli.git import GitRefusal, asked, git
from firstfix.cli.reading import shown
from firstfix.cli.revision import Listing, laid_out, listed
from firstfix.cli.trouble import TroubleError

NOWHERE = "/dev/null"
# Revisions looked at for one that holds a text.
_MOST_REVISIONS = 50


class Side(NamedTuple):
    """One side of what git compares. `content` is the id of the text, all zeros for a file of the working tree."""

    path: str
    file: str
    content: str

    @property
    def is_there(self) -> bool:
        return self.file != NOWHERE

    @property
    def is_on_disk(self) -> bool:
        return not self.content.strip("0")


class Found(NamedTuple):
    """Where a plan can be read, what it is called, and a sentence where that is not the place one would think of, or ""."""

    path: Path
    called: str
    note: str


def sides(given: Sequence[str]) -> tuple[Side, Side]:
    """From the arguments that git gives: seven, or nine where a file was renamed. Raises TroubleError for what git would not give."""
    if len(given) == 1:
        raise TroubleError(f"{shown(given[0])} is in the middle of a merge, and nothing is compared")
    if len(given) not in (7, 9):
        raise TroubleError("git gives a path and, for two sides, a file, an id and a mode; this is not it")
    path, old_file, old_content, _, new_file, new_content, _ = given[:7]
    return Side(path, old_file, old_content), Side(
        given[7] if len(given) == 9 else path, new_file, new_content
    )


@contextmanager
def found(side: Side, *, is_new: bool) -> Iterator[Found]:
    """`is_new`: which side it is; where HEAD and the index hold one text, the old one is HEAD's and the new one the index's."""
    if side.is_on_disk:
        yield Found(Path(side.path if Path(side.path).is_file() else side.file), side.path, "")
        return
    folder, slash, name = side.path.rpartition("/")
    places = (_in_index, _in_head) if is_new else (_in_head, _in_index)
    for place in (*places, _in_history):
        listing, called, note = place(side)
        if listing:
            below = {
                path.removeprefix(folder + slash): entry
                for path, entry in listing.items()
                if path.startswith(folder + slash)
            }
            with laid_out(below, name, called) as path:
                yield Found(path, called, note)
            return
    called = f"{side.content[:10]} {side.path}"
    yield Found(
        Path(side.file),
        called,
        f"{shown(called)} is in no revision here, so it is read alone: without includes, kept choices and progress",
    )


_Place = tuple[Listing, str, str]
_NOT_THERE: _Place = ({}, "", "")


def _in_head(side: Side) -> _Place:
    return _in_revision(side, "HEAD", f"HEAD:{side.path}", "")


def _in_index(side: Side) -> _Place:
    try:
        entries = listed(git("ls-files", "-s", "-z"))
    except GitRefusal:
        # No repository is here: somebody tries the driver by hand.
        return _NOT_THERE
    if side.path not in entries or not _is_same(entries[side.path].content, side):
        return _NOT_THERE
    return entries, f"index:{side.path}", ""


def _in_history(side: Side) -> _Place:
    """The newest revision that holds the text: the one before it went, else the one in which it came."""
    try:
        answer = git(
            "log", "--all", f"--max-count={_MOST_REVISIONS}", "--format=%H %P", f"--find-object={side.content}", "--",
            f":(top,literal){side.path}",
        )  # fmt: skip
    except GitRefusal:
        return _NOT_THERE
    for line in answer.decode("ascii", "replace").splitlines():
        revision, *parents = line.split()
        for each in (*parents, revision):
            called = f"{each[:10]}:{side.path}"
            note = (
                f"what stands beside {shown(called)} is read as of that revision, the newest with this text"
            )
            place = _in_revision(side, each, called, note)
            if place[0]:
                return place
    return _NOT_THERE


def _in_revision(side: Side, revision: str, called: str, note: str) -> _Place:
    if not _is_same(asked("rev-parse", "--verify", "--quiet", f"{revision}:{side.path}"), side):
        return _NOT_THERE
    return listed(git("ls-tree", "-r", "-z", "--full-tree", revision)), called, note


def _is_same(content: str, side: Side) -> bool:
    """git may give an id cut short."""
    return bool(content) and content.startswith(side.content)


def top() -> None:
    """git starts a driver at the top of the working tree; by hand one may be anywhere."""
    folder = asked("rev-parse", "--show-toplevel")
    if folder:
        os.chdir(folder)
