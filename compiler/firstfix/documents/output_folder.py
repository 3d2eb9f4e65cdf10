"""A folder of documents, written aside and swapped in: all of the new ones stand there, or all of the old.

Takes a folder's path and each document's bytes by relative path. The folder must be empty, absent or hold our
marker. Files in it that aren't ours are kept, and so is a document of ours that was changed by hand.
"""

import hashlib
import os
import shutil
import stat
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import NamedTuple

MARKER = ".firstfix"
_HEADER = "This folder is written by firstfix. Below: SHA-256 and path of each file it wrote.\n"
_MOST_MARKER_BYTES = 4 * 1024 * 1024
# Bytes; file systems allow 255, and a name of ours may still get an ending.
_LONGEST_PART = 200


class CannotWriteError(Exception):
    """The folder cannot be written and is as it was before; the text is one sentence for the user."""


class UnsafeNameError(Exception):
    """A document's name would lead out of the folder, or clash with another: a fault of ours."""


class Written(NamedTuple):
    """`kept`: documents of ours that were changed by hand, each with the path where its text now is."""

    files: tuple[str, ...]
    kept: tuple[tuple[str, str], ...]


def write_folder(target: Path, files: Mapping[str, bytes]) -> Written:
    """Make `target` hold exactly `files`, besides what isn't ours.

    Raises CannotWriteError or UnsafeNameError, and then has changed nothing.
    """
    _check_names(files)
    shown = target.as_posix()
    final = usable(target)
    try:
        aside = Path(tempfile.mkdtemp(prefix=f".{final.name}.firstfix-", dir=final.parent))
        try:
            kept = _fill(aside / "new", final, files)
            _swap(aside / "new", final, aside / "old")
        finally:
            _remove(aside, final, shown)
    except OSError as fault:
        raise _no_writing(shown, fault) from None
    return Written(tuple(sorted(files)), kept)


def _remove(aside: Path, final: Path, shown: str) -> None:
    """Never the only copy: where the old folder could not be put back, it stays aside, and that is said."""
    old = aside / "old"
    if old.exists() and not final.exists():
        raise CannotWriteError(
            f"{shown} cannot be written; what stood there is now in {aside.name}/old beside it"
        )
    shutil.rmtree(aside, ignore_errors=True)


def _check_names(files: Mapping[str, bytes]) -> None:
    """Relative paths of plain parts, none equal to another, or to a folder of another, in any letter case."""
    taken = {MARKER}
    folders: set[str] = set()
    for name in files:
        parts = name.casefold().split("/")
        if not all(map(_is_safe_part, parts)) or name.casefold() in taken:
            raise UnsafeNameError(f"{name!r} cannot be a document's name")
        taken.add(name.casefold())
        folders.update("/".join(parts[:count]) for count in range(1, len(parts)))
    if not folders.isdisjoint(taken):
        raise UnsafeNameError(f"{min(folders & taken)!r} is a document and a folder")


def _is_safe_part(part: str) -> bool:
    """No dots or spaces at the ends, nothing with a meaning of its own on some system, not too long."""
    is_plain = part.isprintable() and not set(part) & set('\\/:*?"<>|')
    return is_plain and part == part.strip().rstrip(".") != "" and len(part.encode()) <= _LONGEST_PART


def usable(target: Path) -> Path:
    """`target` as an absolute path. Raises CannotWriteError where a folder of ours may not stand there."""
    try:
        return _usable(target, target.as_posix())
    except (OSError, RuntimeError) as fault:  # RuntimeError: a circle of symbolic links in the path
        raise _no_writing(target.as_posix(), fault) from None


def _no_writing(shown: str, fault: Exception) -> CannotWriteError:
    reason = getattr(fault, "strerror", None) or type(fault).__name__
    return CannotWriteError(f"{shown} cannot be written: {reason}; what stood there is untouched")


def _usable(target: Path, shown: str) -> Path:
    if target.is_symlink():
        raise CannotWriteError(f"{shown} is a symbolic link; name the folder that it leads to")
    final = target.resolve()
    if final == Path.cwd() or final in Path.cwd().parents:
        raise CannotWriteError(f"{shown} is the folder you are in; name one in it, such as -o out")
    if not final.parent.is_dir():
        raise CannotWriteError(f"there is no folder {target.parent.as_posix()} to make {target.name} in")
    if not final.exists():
        return final
    if not final.is_dir():
        raise CannotWriteError(f"{shown} is a file, not a folder")
    if any(final.iterdir()) and _listed(final) is None:
        raise CannotWriteError(f"{shown} holds files that firstfix did not write; name a new folder")
    return final


def _listed(folder: Path) -> Mapping[str, str] | None:
    """What the marker says we wrote: digest by path; None without our marker. Compared, never followed."""
    marker = folder / MARKER
    if marker.is_symlink() or not marker.is_file() or marker.stat().st_size > _MOST_MARKER_BYTES:
        return None
    text = marker.read_bytes().decode("utf-8", "replace")
    if not text.startswith(_HEADER):
        return None
    lines = (line.partition("  ") for line in text[len(_HEADER) :].split("\n"))
    return {path: digest for digest, _, path in lines if path}


def _fill(new: Path, final: Path, files: Mapping[str, bytes]) -> tuple[tuple[str, str], ...]:
    new.mkdir()
    for name, content in sorted(files.items()):
        path = new / PurePosixPath(name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    kept = tuple(_carry_over(final, new)) if final.is_dir() else ()
    lines = [f"{hashlib.sha256(content).hexdigest()}  {name}\n" for name, content in sorted(files.items())]
    (new / MARKER).write_bytes((_HEADER + "".join(lines)).encode())
    if final.is_dir():
        new.chmod(stat.S_IMODE(final.stat().st_mode))
    return kept


def _carry_over(old: Path, new: Path) -> Iterator[tuple[str, str]]:
    """Bring what isn't ours into the new folder; gives our documents that were changed, with new names."""
    listed = _listed(old) or {}
    for path in _all_below(old):
        name = path.relative_to(old).as_posix()
        if name == MARKER or listed.get(name) == _digest(path):
            continue
        keep_as = name
        if name in listed:
            keep_as = _free_name(old, new, name)
            yield name, keep_as
        elif os.path.lexists(new / name):
            raise CannotWriteError(
                f"{name} in {old.name} is yours, and firstfix would write one there; move it"
            )
        _link(path, new / keep_as)


def _all_below(folder: Path) -> Iterator[Path]:
    """Files, links (not followed) and empty folders, in order."""
    for path in sorted(folder.iterdir()):
        if path.is_dir() and not path.is_symlink() and any(path.iterdir()):
            yield from _all_below(path)
        else:
            yield path


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() and not path.is_symlink() else ""


def _free_name(old: Path, new: Path, name: str) -> str:
    number = 1
    while True:
        candidate = f"{name}.yours" if number == 1 else f"{name}.yours-{number}"
        if not os.path.lexists(old / candidate) and not os.path.lexists(new / candidate):
            return candidate
        number += 1


def _link(path: Path, copy: Path) -> None:
    """The same file under a second name, which costs nothing; a copy where there are no such links."""
    copy.parent.mkdir(parents=True, exist_ok=True)
    if path.is_dir() and not path.is_symlink():
        copy.mkdir()
        return
    try:
        os.link(path, copy, follow_symlinks=False)
    except OSError:
        shutil.copy2(path, copy, follow_symlinks=False)


def _swap(new: Path, final: Path, old: Path) -> None:
    """Two renames on one file system. If anything comes between them, the old folder goes back."""
    try:
        if final.exists():
            final.rename(old)
        new.rename(final)
    except BaseException:
        if old.exists() and not final.exists():
            old.rename(final)
        raise
