"""`firstfix build PLAN -o DIR`: every document, written aside and swapped in."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.kept_choices import ChoicesFile, forgetting
from firstfix.cli.reading import compiled, shown
from firstfix.cli.showing import FORMATS, exit_code, sarif, show_report
from firstfix.cli.streams import say
from firstfix.cli.trouble import TroubleError

if TYPE_CHECKING:
    from firstfix.pipeline import Compiled

_PURPOSE = """\
Checks a plan and writes all its documents into one folder: shopping list, install checklist,
drawings, settings for each device, and a report to open in a browser.

The folder is replaced as a whole, or left as it was. Files of your own in it stay. A document that
you changed by hand is kept beside the new one, with .yours added to its name.
While the plan has errors, only the findings are written; --draft writes everything, marked as a draft.

What the plan leaves open (a jack, an address, an outlet) is chosen once. The choices are kept beside the
plan, in PLAN.allocations.yaml, and stay as long as they are possible. A plan with errors changes no choice."""

_EXAMPLE = """\
  firstfix build my-network.yaml -o out"""

# The document that leads to all others.
_FIRST = "report.html"


def run(given: Sequence[str]) -> int:
    arguments = Arguments("build", _PURPOSE, _EXAMPLE)
    arguments.add_argument("plan", metavar="PLAN", help="the plan file")
    arguments.add_argument("-o", "--output", metavar="DIR", required=True, help="the folder to write")
    arguments.add_argument("--draft", action="store_true", help="write everything in spite of errors")
    arguments.add_argument(
        "--choose-anew",
        metavar="NAME",
        action="append",
        default=[],
        help="choose anew about this device or run; may be given several times",
    )
    arguments.add_argument("--choose-all-anew", action="store_true", help="choose everything anew")
    arguments.add_format(*FORMATS)
    chosen = arguments.read(given)
    _check_folder(Path(chosen.output))
    kept = ChoicesFile(Path(chosen.plan), chosen.plan)
    kept.check()
    change = None if chosen.choose_all_anew else forgetting(chosen.choose_anew)
    result = compiled(Path(chosen.plan), chosen.plan, change)
    show_report(result, chosen.format)
    if result.build is None or result.report.has_errors:
        # A run at fault would lose its choices; so nothing is kept or dropped until the plan is right.
        if result.plan is not None:
            _write(chosen.output, _documents(result, chosen.draft))
        return exit_code(result)
    settled, text = kept.settled(result)
    _write(chosen.output, _documents(settled, chosen.draft))
    if text is not None:
        kept.replace(text)
    return exit_code(result)


def _check_folder(folder: Path) -> None:
    """Before any work is done: a folder that would be refused in the end."""
    from firstfix.documents.output_folder import CannotWriteError, usable

    try:
        usable(folder)
    except CannotWriteError as fault:
        raise TroubleError(str(fault)) from None


def _documents(result: "Compiled", is_draft: bool) -> Mapping[str, bytes]:
    from firstfix.pipeline import results

    if result.build is not None and (is_draft or not result.report.has_errors):
        return results(result)
    say(
        "the plan has errors, so only the findings are written (--draft writes everything, marked as a draft)"
    )
    return {"findings.sarif": sarif(result).encode()}


def _write(folder: str, files: Mapping[str, bytes]) -> None:
    from firstfix.documents.output_folder import CannotWriteError, write_folder

    try:
        written = write_folder(Path(folder), files)
    except CannotWriteError as fault:
        raise TroubleError(str(fault)) from None
    for name, kept_as in written.kept:
        say(f"{name} had been changed by hand; that text is now {kept_as}")
    count = len(written.files)
    begin = f"; begin with {shown(folder)}/{_FIRST}" if _FIRST in written.files else ""
    say(f"{count} {'file stands' if count == 1 else 'files stand'} in {shown(folder)}{begin}")
