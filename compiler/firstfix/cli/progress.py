"""`firstfix progress PLAN`: what is bought, done and measured so far; with options, records more of it."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.reading import compiled, shown
from firstfix.cli.showing import exit_code, refuse_unreadable
from firstfix.cli.streams import put, say
from firstfix.cli.trouble import FINE, TroubleError

if TYPE_CHECKING:
    from firstfix.pipeline import Compiled
    from firstfix.progress.change import Change

_PURPOSE = """\
Shows how far a build has come: what is to order, to come, to read and to do. With options it writes what
has been done into a file beside the plan, my-network.progress.yaml, which you may also edit by hand: your
comments and its layout stay. A step goes by the id in the checklist (pull:piece/core--desk/2, or shorter
pull:core--desk/2), a line of the shopping list and a run by the names that this command and the build's
what-remains.md show. A number of pieces or metres is what there is in all; without it, the whole line.
Many at once: --done phase:NAME takes every step of a phase, --done pull: every step of a kind, and
everything all steps, or with --ordered and --arrived all lines; what is recorded already stays as it is.
Steps don't go by their numbers, which change with the plan. If anything that is given is wrong, all that is
wrong is said and nothing is recorded."""

_EXAMPLE = """\
  firstfix progress my-network.yaml
  firstfix progress my-network.yaml --ordered cord-cat6/1m --arrived "cat6-indoor=100 m" --on 2027-03-14
  firstfix progress my-network.yaml --mac core=00:00:5e:00:53:0a --serial core=A1-77
  firstfix progress my-network.yaml --done fit:core pull:core--desk/2
  firstfix progress my-network.yaml --done phase:ground-floor --on 2027-03-20
  firstfix progress my-network.yaml --length core--desk/2=12.4m --passed core--desk/2"""

# Option, what it takes, and what it records.
_OPTIONS = (
    ("--done", "STEP", "steps that are done"),
    ("--not-done", "STEP", "steps to take out of the record"),
    ("--ordered", "LINE[=N]", "lines of the shopping list that are ordered"),
    ("--arrived", "LINE[=N]", "lines that have arrived"),
    ("--mac", "DEVICE=MAC", "MAC addresses, from the labels"),
    ("--serial", "DEVICE=TEXT", "serial numbers"),
    ("--length", "RUN=LENGTH", "lengths of installed runs, as the tester shows them"),
    ("--passed", "RUN", "runs that passed their test"),
    ("--failed", "RUN", "runs that failed it"),
)


def run(given: Sequence[str]) -> int:
    arguments = Arguments("progress", _PURPOSE, _EXAMPLE)
    arguments.add_argument("plan", metavar="PLAN", help="the plan file")
    for option, takes, what in _OPTIONS:
        arguments.add_argument(option, metavar=takes, nargs="+", action="extend", default=[], help=what)
    arguments.add_argument("--on", metavar="DATE", help="the day to write beside it, as 2027-03-14")
    arguments.add_format("text", "json")
    chosen = arguments.read(given)
    asked = {
        option.removeprefix("--"): tuple(
            _plain(each) for each in getattr(chosen, option.removeprefix("--").replace("-", "_"))
        )
        for option, _, _ in _OPTIONS
    }
    result = compiled(Path(chosen.plan), chosen.plan)
    if result.build is None:
        refuse_unreadable(result, shown(chosen.plan))
    if any(asked.values()):
        return _record(result, chosen.plan, asked, chosen.on or "")
    if chosen.on is not None:
        raise TroubleError(
            "--on gives the day of something that is recorded with it; there is nothing to record"
        )
    _show(result, chosen.format)
    return exit_code(result)


def _plain(text: str) -> str:
    """As typed, or as copied out of a file of Markdown, where some signs have a backslash before them; no name has one."""
    name, equals, value = text.partition("=")
    return name.replace("\\", "") + equals + value


def _show(result: "Compiled", form: str) -> None:
    from firstfix.cli.progress_text import standing_json, standing_text
    from firstfix.remaining.pulled import needs_now
    from firstfix.remaining.reckon import remaining
    from firstfix.work.order import order
    from firstfix.work.tasks import tasks

    assert result.build is not None
    found = remaining(
        result.build,
        order(tasks(result.build), result.build.phases),
        needs_now(result.build, result.progress),
        result.progress,
    )
    about = tuple(
        each
        for each in result.report.findings
        if each.primary is not None and result.progress.is_kept and each.primary.file == result.progress.file
    )
    put(standing_json(found, about) if form == "json" else standing_text(found, about))


def _record(result: "Compiled", plan: str, asked: dict[str, tuple[str, ...]], on: str) -> int:
    from firstfix.cli.progress_asked import changes_asked
    from firstfix.pipeline import PROGRESS_ENDING
    from firstfix.source.load import beside_name

    path = Path(plan).with_name(Path(plan).stem + PROGRESS_ENDING)
    name = beside_name(shown(plan), PROGRESS_ENDING)
    _refuse_faulty(result, name)
    assert result.build is not None
    changes, early, counts = changes_asked(result.build, result.progress, asked, on)
    _write(path, name, Path(plan).name, changes)
    written = "record is" if len(changes) == 1 else "records are"
    meant = "".join(
        f", for '{word}' {number} {what}{'' if number == 1 else 's'}" for word, number, what in counts
    )
    say(f"{name}: {len(changes)} {written} written{meant}{f'; note: {early}' if early else ''}")
    return FINE


def _refuse_faulty(result: "Compiled", name: str) -> None:
    """What cannot be read for certain is not written to."""
    for each in result.report.findings:
        if each.level.value == "error" and each.primary is not None and each.primary.file == name:
            raise TroubleError(f"{each.primary}: {each.message}; mend that first, nothing is recorded")


def _write(path: Path, name: str, plan: str, changes: "Sequence[Change]") -> None:
    from firstfix.cli.one_file import replace_file
    from firstfix.progress.change import CannotChangeError, changed

    before = _text(path, name, plan)
    mark = "\ufeff" if before.startswith("\ufeff") else ""
    try:
        after = mark + changed(before.removeprefix(mark), changes)
    except CannotChangeError as fault:
        raise TroubleError(
            f"{name} cannot be changed: {fault}; write it by hand, nothing is recorded"
        ) from None
    replace_file(path, name, after.encode())


def _text(path: Path, name: str, plan: str) -> str:
    try:
        # Bytes, so that line ends stay what they are.
        return path.read_bytes().decode("utf-8")
    except FileNotFoundError:
        return (
            f"# What has been done so far for {shown(plan)}. firstfix progress writes here, and so may you.\n"
        )
    except (OSError, UnicodeDecodeError) as fault:
        raise TroubleError(
            f"{name} cannot be read: {getattr(fault, 'strerror', 'it is not UTF-8')}"
        ) from None
