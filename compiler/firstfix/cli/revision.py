"""A plan file on disk, or one of a git revision (`HEAD~2:plans/home.yaml`), laid out where it can be read like any other."""

import io
import shutil
import subprocess
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from firstfix.cli.reading import shown
from firstfix.cli.trouble import TroubleError

_MOST_BYTES = 256 * 1024 * 1024


@contextmanager
def plan_file(given: str) -> Iterator[Path]:
    """The file to read. What stands on disk comes first; a revision's folder, for its includes, is laid out aside."""
    revision, colon, inside = given.partition(":")
    if not colon or Path(given).exists():
        yield Path(given)
        return
    folder, slash, name = inside.rpartition("/")
    if not revision or revision.startswith("-") or not name:
        raise TroubleError(
            f"{shown(given)} is no file, and no file of a revision such as HEAD:my-network.yaml"
        )
    with tempfile.TemporaryDirectory(prefix="firstfix-") as aside:
        _lay_out(_archive(f"{revision}:{folder}{slash}", given), Path(aside))
        yield Path(aside) / name


def _archive(tree: str, given: str) -> bytes:
    """What git has at `tree`, as a tar file."""
    top, _, object_id = (
        _git(["rev-parse", "--show-toplevel", tree], Path.cwd(), given).decode().partition("\n")
    )
    archive = _git(["archive", "--format=tar", object_id.strip()], Path(top), given)
    if len(archive) > _MOST_BYTES:
        raise TroubleError(f"{shown(given)} cannot be read: the folder it lies in is too large")
    return archive


def _git(arguments: list[str], folder: Path, given: str) -> bytes:
    git = shutil.which("git")
    if git is None:
        raise TroubleError(f"there is no file {shown(given)}, and no git to look for a revision with")
    # A list of arguments, so no shell; what the user wrote is in it behind a revision that begins with no dash.
    done = subprocess.run([git, *arguments], cwd=folder, capture_output=True, check=False)  # noqa: S603
    if done.returncode:
        told = done.stderr.decode("utf-8", "replace").strip().partition("\n")[0]
        raise TroubleError(f"{shown(given)} cannot be read: git says {told.removeprefix('fatal: ')}")
    return done.stdout


def _lay_out(archive: bytes, folder: Path) -> None:
    """Ordinary files only: a link could lead out of the folder."""
    with tarfile.open(fileobj=io.BytesIO(archive)) as members:
        for member in members:
            parts = PurePosixPath(member.name).parts
            content = members.extractfile(member) if member.isreg() else None
            if content is not None and ".." not in parts and not member.name.startswith("/"):
                path = folder.joinpath(*parts)
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content.read())
