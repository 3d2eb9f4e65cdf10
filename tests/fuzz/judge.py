"""What a hostile plan may not do to us: raise, hang, print without end, or get a name into a document as markup.

`judge` takes the bytes of a plan and a folder to put them in, and gives the fault in words, or "" where all is well.
"""

import re
import signal
import traceback
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

from firstfix.finding.render_text import render_text
from firstfix.pipeline import Compiled, compile_plan, results

MOST_OUTPUT = 100_000
# Seconds of processor time for a plan of a house; a few hundredths are usual, so that only a hang comes near.
MOST_SECONDS = 5.0
MOST_SECONDS_OF_DOCUMENTS = 30.0

_MARKUP = (".html", ".svg", ".md")
# A script of ours would be told by this too; there is none that alerts.
_ESCAPED_NOT = re.compile(rb"<script>alert|<b>&amp;'")


class TooLong(BaseException):
    """Not an Exception: nothing that guards against faults may swallow it."""


@contextmanager
def processor_time(seconds: float) -> Iterator[None]:
    """Raises TooLong within the block once it has used that much processor time. In the main thread only."""

    def ring(signum: int, frame: FrameType | None) -> None:
        raise TooLong

    before = signal.signal(signal.SIGVTALRM, ring)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def judge(text: bytes, folder: Path, with_documents: bool = False) -> str:
    path = folder / "plan.yaml"
    path.write_bytes(text)
    try:
        with processor_time(MOST_SECONDS):
            compiled = compile_plan(path, "plan.yaml")
            said = render_text(compiled.report, compiled.source.texts)
        if with_documents and compiled.build is not None:
            with processor_time(MOST_SECONDS_OF_DOCUMENTS):
                files = results(compiled)
            return _wrong_with_documents(files) or _wrong_with_text(compiled, said)
    except TooLong:
        return "takes too long:\n" + traceback.format_exc()
    except Exception:
        return traceback.format_exc()
    return _wrong_with_text(compiled, said)


def _wrong_with_text(compiled: Compiled, said: str) -> str:
    if compiled.build is None and not compiled.report.has_errors:
        return "no build, and nothing said about it"
    if len(said.encode()) > MOST_OUTPUT:
        return f"prints {len(said.encode()):,} bytes"
    odd = [each for each in said if not each.isprintable() and each != "\n"]
    return f"prints the control character {odd[0]!r}" if odd else ""


def _wrong_with_documents(files: Mapping[str, bytes]) -> str:
    for name, data in files.items():
        if ".." in name.split("/") or name.startswith("/") or "\\" in name or not name.isprintable():
            return f"a document is called {name!r}"
        if name.endswith(_MARKUP) and _ESCAPED_NOT.search(data):
            return f"{name} holds a name as markup"
        if name.endswith(".csv") and re.search(rb"(^|[,\n]\"?)[=@]", data):
            return f"{name} holds a cell that begins a formula"
    return ""
