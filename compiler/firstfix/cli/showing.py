"""A report on standard output, in the format asked for, and the exit code that follows from it."""

import sys
from typing import TYPE_CHECKING, NoReturn

from firstfix import __version__
from firstfix.cli.streams import palette, put
from firstfix.cli.trouble import FINE, FOUND, TROUBLE, TroubleError

if TYPE_CHECKING:
    from firstfix.pipeline import Compiled

FORMATS = ("text", "json", "sarif")


def show_report(compiled: "Compiled", form: str) -> None:
    put(_RENDERERS[form](compiled))


def exit_code(compiled: "Compiled") -> int:
    if compiled.plan is None:
        return TROUBLE
    return FOUND if compiled.report.has_errors else FINE


def refuse_unreadable(compiled: "Compiled", name: str) -> NoReturn:
    """For commands whose results are no findings: those go to standard error, and the command ends."""
    from firstfix.finding.render_text import render_text

    if sys.stderr is not None:
        sys.stderr.write(render_text(compiled.report, compiled.source.texts))
    raise TroubleError(f"{name} cannot be read as a plan")


def sarif(compiled: "Compiled") -> str:
    from firstfix.finding.render_sarif import render_sarif
    from firstfix.rules.all_kinds import all_kinds

    return render_sarif(compiled.report, compiled.source.texts, all_kinds(), __version__)


def _text(compiled: "Compiled") -> str:
    from firstfix.finding.render_text import render_text

    return render_text(compiled.report, compiled.source.texts, palette())


def _json(compiled: "Compiled") -> str:
    from firstfix.finding.render_json import render_json

    return render_json(compiled.report)


_RENDERERS = {"text": _text, "json": _json, "sarif": sarif}
