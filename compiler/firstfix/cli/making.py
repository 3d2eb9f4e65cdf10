"""A new text file, whole or not at all; one that exists is never overwritten."""

from pathlib import Path
from typing import TextIO

from firstfix.cli.trouble import TroubleError


def make_file(path: Path, name: str, text: str) -> None:
    try:
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            _fill(stream, path, text)
    except FileExistsError:
        raise TroubleError(f"{name} exists already and is left alone; name another file") from None
    except OSError as fault:
        raise TroubleError(f"{name} cannot be made: {fault.strerror}") from None


def _fill(stream: TextIO, path: Path, text: str) -> None:
    try:
        stream.write(text)
        stream.flush()
    except BaseException:
        path.unlink(missing_ok=True)
        raise
