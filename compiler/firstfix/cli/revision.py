"""A plan file on disk, or one of a git revision (`HEAD~2:plans/home.yaml`), laid out where it can be read like any other.

Of a revision comes the plan, what it includes, and what stands beside it: the choices kept and the progress. Nothing of them is taken from
the folder of today.
"""

import os
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from firstfix.cli.git import GitRefusal, asked, git, is_shallow
from firstfix.cli.reading import shown
from firstfix.cli.trouble import TroubleError

_MOST_BYTES = 256 * 1024 * 1024
_ORDINARY = ("100644", "100755")
_LINK = "120000"
_BESIDE = (".allocations.yaml", ".progress.yaml")


class Entry(NamedTuple):
    """One file in git: how it is kept (an ordinary file, a link) and the id of its content."""

    mode: str
    content: str


# Path to entry, from the folder that the plan stands in.
Listing = Mapping[str, Entry]


@contextmanager
def plan_file(given: str) -> Iterator[Path]:
    """The file to read. What stands on disk comes first; a revision's files are laid out aside."""
    revision, colon, inside = given.partition(":")
    if not colon or os.path.lexists(given):
        yield Path(given)
        return
    folder, slash, name = inside.rpartition("/")
    if not revision or revision.startswith("-") or not name:
        raise TroubleError(
            f"{shown(given)} is no file, and no file of a revision such as HEAD:my-network.yaml"
        )
    with laid_out(_listing(revision, folder + slash, given), name, given) as path:
        yield path


@contextmanager
def laid_out(listing: Listing, name: str, given: str) -> Iterator[Path]:
    """The plan `name` and what belongs to it, in a folder of their own for a while."""
    entry = listing.get(name)
    if entry is None:
        raise TroubleError(f"there is no file {shown(given)}: the revision does not hold it")
    if entry.mode == _LINK:
        raise TroubleError(f"{shown(given)} is a symbolic link, which is not followed into another place")
    if entry.mode not in _ORDINARY:
        raise TroubleError(f"{shown(given)} is not an ordinary file")
    with tempfile.TemporaryDirectory(prefix="firstfix-") as aside:
        for path, content in _belonging(listing, name, given).items():
            file = Path(aside).joinpath(*PurePosixPath(path).parts)
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
        yield Path(aside) / name


def _listing(revision: str, folder: str, given: str) -> Listing:
    """All files below the plan's folder. Raises TroubleError with the reason where there is none."""
    _check_repository(given)
    if not asked("rev-parse", "--verify", "--quiet", f"{revision}^{{tree}}"):
        raise TroubleError(_no_revision(revision, given))
    try:
        tree = git("rev-parse", "--verify", f"{revision}:{folder}").decode().strip()
        return listed(git("ls-tree", "-r", "-z", "--full-tree", tree))
    except GitRefusal as refusal:
        if "outside repository" in str(refusal):
            raise TroubleError(
                f"{shown(given)} lies outside the repository, whose revisions know nothing of it"
            ) from None
        raise TroubleError(f"there is no file {shown(given)}: the revision does not hold it") from None


def _check_repository(given: str) -> None:
    try:
        git("rev-parse", "--git-dir")
    except GitRefusal as refusal:
        if "not a git repository" in str(refusal):
            text = f"there is no file {shown(given)}, and no git repository here that could hold it"
        else:
            text = f"{shown(given)} cannot be read: git says {shown(str(refusal))}"
        raise TroubleError(text) from None


def _no_revision(revision: str, given: str) -> str:
    text = f"{shown(given)} cannot be read: git knows no revision {shown(revision)}"
    if is_shallow():
        text += ", but this clone is shallow and lacks the older ones; `git fetch --unshallow` brings them"
    return text


def listed(answer: bytes) -> Listing:
    """From what `git ls-tree -z` or `git ls-files -s -z` prints."""
    found = {}
    for line in answer.split(b"\0"):
        head, tab, path = line.partition(b"\t")
        words = head.decode("ascii", "replace").split()
        if not tab or len(words) < 3:
            continue
        # ls-tree: mode, type, id; ls-files: mode, id, stage, which is 0 unless a merge is under way.
        content = words[2] if words[1] in ("blob", "commit") else words[1] if words[2] == "0" else ""
        if content:
            found[os.fsdecode(path)] = Entry(words[0], content)
    return found


def _belonging(listing: Listing, name: str, given: str) -> Mapping[str, bytes]:
    """The plan, what stands beside it, and every file that one of them names, as an include does."""
    stem = PurePosixPath(name).stem
    found: dict[str, bytes] = {}
    ahead = [name, *(each for ending in _BESIDE if (each := stem + ending) in listing)]
    while ahead:
        found |= _contents(listing, ahead, given)
        if sum(map(len, found.values())) > _MOST_BYTES:
            raise TroubleError(f"{shown(given)} cannot be read: it and what it includes are too large")
        texts = [found[each] for each in ahead]
        ahead = [
            path
            for path, entry in listing.items()
            if path not in found and entry.mode in _ORDINARY and _is_safe(path) and _is_named(path, texts)
        ]
    return found


def _is_named(path: str, texts: list[bytes]) -> bool:
    last = os.fsencode(path.rpartition("/")[2])
    return any(last in text for text in texts)


def _is_safe(path: str) -> bool:
    return not path.startswith("/") and ".." not in path.split("/")


def _contents(listing: Listing, paths: list[str], given: str) -> Mapping[str, bytes]:
    asked_for = "".join(f"{listing[path].content}\n" for path in paths)
    try:
        answer = git("cat-file", "--batch", given=asked_for.encode())
    except GitRefusal as refusal:
        raise TroubleError(f"{shown(given)} cannot be read: git says {refusal}") from None
    found = {}
    for path in paths:
        head, _, answer = answer.partition(b"\n")
        words = head.split()
        if len(words) != 3 or words[1] != b"blob":
            raise TroubleError(
                f"{shown(given)} cannot be read: this clone lacks the content of {shown(path)}"
            )
        size = int(words[2])
        found[path], answer = answer[:size], answer[size + 1 :]
    return found
