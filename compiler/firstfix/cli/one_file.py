"""One file, written aside and put in place at once: a reader sees the old one or the new one, whole."""

import os
import tempfile
from pathlib import Path

from firstfix.cli.trouble import TroubleError


def replace_file(path: Path, shown: str, content: bytes) -> None:
    """Raises TroubleError, leaving what was there as it was."""
    try:
        if path.is_symlink() or (path.exists() and not path.is_file()):
            raise TroubleError(f"{shown} is no ordinary file, so it is not replaced")
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(content)
            _usual_mode(Path(name), path)
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as fault:
        raise TroubleError(f"{shown} cannot be written: {fault.strerror}") from None


def _usual_mode(aside: Path, path: Path) -> None:
    """A temporary file is private; the result is as open as the one it replaces, or as any new file."""
    if path.exists():
        aside.chmod(path.stat().st_mode & 0o777)
        return
    mask = os.umask(0)
    os.umask(mask)
    aside.chmod(0o666 & ~mask)
