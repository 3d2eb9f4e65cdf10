"""`firstfix diff OLD NEW`: what changes between two plans, or between two revisions of one."""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from firstfix.cli.arguments import Arguments
from firstfix.cli.reading import compiled, shown
from firstfix.cli.revision import plan_file
from firstfix.cli.showing import refuse_unreadable
from firstfix.cli.streams import put, say
from firstfix.cli.trouble import FINE, FOUND, TroubleError

if TYPE_CHECKING:
    from firstfix.build.model import Build
    from firstfix.changeover.model import Way
    from firstfix.documents.changes import ComparedPlans
    from firstfix.pipeline import Compiled

    Drawn = tuple[Mapping[str, bytes], Mapping[str, str]]

_PURPOSE = """\
Says what changes from one plan to another: what is added, removed, moved, re-run, re-patched, re-addressed
and so on; which findings come and go; what room is left; what there is to buy once all of the old shopping
list is there, what comes free, and what it costs. Layout and comments make no difference, nor do names.
OLD and NEW are files, or files of a git revision, written REVISION:PATH as git writes them; then all that
stands beside the plan is that revision's, too.
Exit code 0: the same, 1: different, 2: one of them cannot be read."""

_EXAMPLE = """\
  firstfix diff last-year.yaml my-network.yaml
  firstfix diff HEAD:my-network.yaml my-network.yaml
  firstfix diff main:my-network.yaml my-network.yaml --format markdown
As a diff driver of git, with `*-network.yaml diff=firstfix` in .gitattributes:
  git config diff.firstfix.command 'firstfix diff --from-git'"""

_FROM_GIT = "--from-git"


class _Plan(NamedTuple):
    result: "Compiled"
    called: str


def run(given: Sequence[str]) -> int:
    if given[:1] == [_FROM_GIT]:
        return _for_git(given[2:] if given[1:2] == ["--"] else given[1:])
    arguments = Arguments("diff", _PURPOSE, _EXAMPLE)
    arguments.add_argument("old", metavar="OLD", help="the plan as it was")
    arguments.add_argument("new", metavar="NEW", help="the plan as it is to be")
    arguments.add_argument(
        "-o", "--output", metavar="DIR", help="write the changes into this folder, too, with drawings"
    )
    arguments.add_format("text", "json", "markdown")
    chosen = arguments.read(given)
    write = _writer(chosen.output)
    old, new = _plan(chosen.old), _plan(chosen.new)
    _refuse_what_cannot_be_read(old, new)
    compared = _compared(old, new)
    for note in compared.notes if chosen.format == "text" else ():
        say(note)
    way = _way(old, new, compared)
    put(_rendered(compared, chosen.format, way))
    write(compared, way, lambda: _drawn(old, new, compared))
    return FINE if compared.is_empty else FOUND


def _plan(given: str) -> _Plan:
    with plan_file(given) as path:
        return _Plan(compiled(path, given), given)


def _refuse_what_cannot_be_read(old: _Plan, new: _Plan) -> None:
    """The findings on the one that cannot be read, and what can still be said of the other."""
    for each, other, which in ((old, new, "NEW"), (new, old, "OLD")):
        if each.result.build is not None:
            continue
        if other.result.build is not None:
            say(f"{which}, {shown(other.called)}, was checked by itself: {_counted(other.result)}")
        refuse_unreadable(each.result, shown(each.called))


def _counted(result: "Compiled") -> str:
    from firstfix.finding.model import Level

    counts = [(result.report.count(level), level.value) for level in Level]
    return ", ".join(f"{count or 'no'} {name}{'' if count == 1 else 's'}" for count, name in counts)


def _compared(old: _Plan, new: _Plan, notes: Sequence[str] = ()) -> "ComparedPlans":
    from firstfix.compare.changes import compare
    from firstfix.compare.room_left import room_left
    from firstfix.compare.verdicts import verdict_changes
    from firstfix.documents.changes import ComparedPlans
    from firstfix.graphs.headroom import headroom
    from firstfix.purchase.difference import purchases
    from firstfix.remaining.pulled import pulled

    before, after = _build(old.result), _build(new.result)
    changes = compare(before, after)
    names = changes.delta.names
    faulty = [shown(each.called) for each in (old, new) if each.result.report.has_errors]
    told = [*notes, *(f"{each} has errors; it is compared as far as it goes" for each in faulty)]
    return ComparedPlans(
        shown(old.called),
        shown(new.called),
        changes,
        verdict_changes(old.result.report, new.result.report, names),
        room_left(headroom(before), headroom(after), names),
        purchases(before, after, names, pulled(before, old.result.progress)),
        tuple(told),
    )


def _build(result: "Compiled") -> "Build":
    """Without what was read at unboxing, which is no difference between two plans."""
    from dataclasses import replace

    from firstfix.resolve.found import as_written

    assert result.build is not None
    if result.plan is None or not result.progress.labels:
        return result.build
    return replace(result.build, devices=as_written(result.build.devices, result.plan))


def _rendered(compared: "ComparedPlans", form: str, way: "Way | None" = None) -> str:
    if form == "json":
        from firstfix.documents.changes_json import changes_json

        return changes_json(compared)
    if form == "markdown":
        from firstfix.documents.changes_markdown import changes_markdown

        return changes_markdown(compared, way=_way_lines(way) if way else ())
    from firstfix.documents.changes_text import changes_text

    return changes_text(compared) + (_way_in_short(way) if way else "")


def _way(old: _Plan, new: _Plan, compared: "ComparedPlans") -> "Way":
    from firstfix.changeover.way import way_there

    return way_there(_build(old.result), _build(new.result), compared.changes.delta.names)


def _way_in_short(way: "Way") -> str:
    from firstfix.documents.way_there import way_text

    short = way_text(way)
    return f"\n{short}" if short else ""


def _way_lines(way: "Way") -> Sequence[str]:
    """What the way there costs, in a few lines."""
    from firstfix.documents.way_there import way_lines

    return way_lines(way)


def _way_files(way: "Way") -> Mapping[str, bytes]:
    """The way there to take along, if there is anything to do."""
    from firstfix.documents.way_there import way_files

    return way_files(way)


def _drawn(old: _Plan, new: _Plan, compared: "ComparedPlans") -> "Drawn":
    """The change as drawings, and which of them are shown."""
    from firstfix.documents.drawing.change.files import change_files

    is_draft = new.result.report.has_errors
    return change_files(_build(old.result), _build(new.result), compared.changes, is_draft)


def _writer(
    folder: str | None,
) -> "Callable[[ComparedPlans, Way, Callable[[], Drawn]], None]":
    """Refuses a folder before any work is done, and draws only if there is one."""
    if folder is None:
        return lambda _, __, ___: None
    from firstfix.documents.output_folder import CannotWriteError, usable, write_folder

    target = Path(folder)
    try:
        usable(target)
    except CannotWriteError as fault:
        raise TroubleError(str(fault)) from None

    def write(compared: "ComparedPlans", way: "Way", drawn: "Callable[[], Drawn]") -> None:
        try:
            written = write_folder(target, _files(compared, way, drawn()))
        except CannotWriteError as fault:
            raise TroubleError(str(fault)) from None
        for name, kept_as in written.kept:
            say(f"{name} had been changed by hand; that text is now {kept_as}")
        say(f"{len(written.files)} files stand in {shown(folder)}; begin with {shown(folder)}/changes.md")

    return write


def _files(compared: "ComparedPlans", way: "Way", drawn: "Drawn") -> Mapping[str, bytes]:
    """All that `-o` writes."""
    from firstfix.documents.changes_files import changes_files

    drawings, pictures = drawn
    return changes_files(compared, {**_way_files(way), **drawings}, pictures, _way_lines(way))


def _for_git(given: Sequence[str]) -> int:
    """As git's driver: to standard output, and always 0, or git would stop there."""
    from contextlib import ExitStack

    from firstfix.cli import git_driver

    try:
        git_driver.top()
        old, new = git_driver.sides(given)
        for side, verb in ((old, "new"), (new, "gone")):
            if not side.is_there:
                put(f"{shown(side.path)} is {verb}; there is nothing to compare it with\n")
                return FINE
        with ExitStack() as aside:
            found = [
                aside.enter_context(git_driver.found(side, is_new=is_new))
                for side, is_new in ((old, False), (new, True))
            ]
            plans = [_Plan(compiled(each.path, each.called), each.called) for each in found]
        put(f"{shown(plans[0].called)} → {shown(plans[1].called)}\n")
        for each in plans:
            if each.result.build is None:
                put(f"{shown(each.called)} cannot be read as a plan: {_first_fault(each.result)}\n")
                return FINE
        notes = [each.note for each in found if each.note]
        compared = _compared(plans[0], plans[1], notes)
        put("".join(f"{note}\n" for note in compared.notes) + _rendered(compared, "text"))
    except TroubleError as trouble:
        put(f"{trouble}\n")
    return FINE


def _first_fault(result: "Compiled") -> str:
    first = result.report.findings[0]
    where = f"{first.primary.file}:{first.primary.line}: " if first.primary is not None else ""
    return f"{where}{first.message}"
