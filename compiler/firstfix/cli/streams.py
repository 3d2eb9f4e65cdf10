"""The two streams: results on standard output, sentences about the run on standard error."""

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, TextIO

from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import visible

if TYPE_CHECKING:
    from firstfix.finding.render_text import Palette


def prepare() -> None:
    """Make both streams take any text: what their encoding lacks is written as an escape."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")


def palette() -> "Palette":
    """Colour on a terminal that takes it, unless NO_COLOR is set."""
    from firstfix.finding.render_text import COLOURED, PLAIN

    is_plain = bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"
    return COLOURED if not is_plain and _is_terminal(sys.stdout) else PLAIN


def is_terminal() -> bool:
    """Whether results go straight to a screen."""
    return _is_terminal(sys.stdout)


def _is_terminal(stream: TextIO | None) -> bool:
    return stream is not None and not stream.closed and stream.isatty()


def put(text: str) -> None:
    """Results as text."""
    _write(lambda: sys.stdout.write(text))


def put_bytes(content: bytes) -> None:
    """Results that are no text, or text whose encoding is settled."""
    _write(lambda: sys.stdout.buffer.write(content))


def say(sentence: str) -> None:
    """A sentence about the run. If nobody can hear it, so be it."""
    if sys.stderr is None:
        return
    try:
        sys.stderr.write(f"firstfix: {visible(sentence)}\n")
        sys.stderr.flush()
    except OSError:
        _let_go(sys.stderr)


def _write(write: Callable[[], object]) -> None:
    """A reader that has read enough (`| head`) is no fault; a full disk is."""
    if sys.stdout is None:
        return
    try:
        write()
        sys.stdout.flush()
    except BrokenPipeError:
        _let_go(sys.stdout)
    except OSError as fault:
        _let_go(sys.stdout)
        raise TroubleError(f"the output cannot be written: {fault.strerror}") from None


def _let_go(stream: TextIO) -> None:
    """Point the stream nowhere, or Python complains about it once more when it ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)
