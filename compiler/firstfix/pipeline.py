"""The stages in order, in one screenful: text, tree, plan, build, findings, results."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.allocations.choices import NO_CHOICES, Choices
from firstfix.build.model import Build
from firstfix.finding.collector import Collector
from firstfix.finding.model import Finding, Level, Report, report
from firstfix.parts.facts import Fact
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.progress.apply import said_otherwise, with_progress
from firstfix.progress.model import NOTHING_KEPT, Progress
from firstfix.progress.new_names import with_new_names
from firstfix.resolve.make_build import make_build
from firstfix.rules.exceptions import accept
from firstfix.rules.run import Outcomes, examine, together
from firstfix.rules.waiting import mark_waiting
from firstfix.source.kinds import FAULT_COUNT
from firstfix.source.load import Source, beside_name, load, load_beside, read_beside
from firstfix.source.reader import garbage_collection_paused
from firstfix.span import whole_file

if TYPE_CHECKING:
    from firstfix.purchase.alternatives import Tried

PROGRESS_ENDING = ".progress.yaml"
CHOICES_ENDING = ".allocations.yaml"


@dataclass(frozen=True, slots=True)
class Compiled:
    """What became of one plan file. Without a tree there is no plan and no build, and the report says why.

    `choices` of an earlier build are those that this one was made with; `faults` are those of reading the plan.
    """

    source: Source
    plan: Plan | None
    build: Build | None
    report: Report
    progress: Progress = NOTHING_KEPT
    choices: Choices = NO_CHOICES
    faults: tuple[Finding, ...] = ()


def _as_read(choices: Choices) -> Choices:
    return choices


def compile_plan(
    path: Path, shown_as: str, change: Callable[[Choices], Choices] | None = _as_read
) -> Compiled:
    """Everything up to the findings. Raises source.load.UnreadableFile for `path` itself; all else is in the report.

    `change` may forget some of the choices that are kept beside the plan; with None they are not even read.
    """
    with garbage_collection_paused():
        faults = Collector()
        source = load(path, shown_as, faults)
        if source.tree is None:
            return Compiled(source, None, None, report(_all(faults, shown_as)))
        parts = library()
        plan = read_plan(source.tree, parts, faults)
        progress = with_new_names(_progress(path, shown_as, source, faults), plan.renames)
        plan = with_progress(plan, progress)
        read = Compiled(source, plan, None, report(()), progress, NO_CHOICES, tuple(_all(faults, shown_as)))
        kept_faults = Collector()
        choices = NO_CHOICES if change is None else change(_choices(path, shown_as, source, kept_faults))
        return _judged(read, choices, _all(kept_faults, shown_as))


def compile_again(compiled: Compiled, choices: Choices) -> Compiled:
    """The same plan with other choices kept."""
    with garbage_collection_paused():
        return _judged(compiled, choices, [])


def _judged(read: Compiled, choices: Choices, kept_faults: list[Finding]) -> Compiled:
    assert read.plan is not None
    build = make_build(read.plan, library(), choices)
    outcome, accepted = accept(read.plan.exceptions, _examined(build))
    findings = [*read.faults, *kept_faults, *outcome.findings, *_told(read.plan, build, read.progress)]
    untold = mark_waiting(outcome.undetermined, build, findings)
    judged = report(findings, untold, outcome.examined, accepted)
    return replace(read, build=build, report=judged, choices=choices)


def _examined(build: Build) -> Outcomes:
    """By all rules; those about money need the shopping list, which is worked out only where there is a budget."""
    if not any(isinstance(phase.budget, Fact) for phase in build.phases):
        return examine(build)
    from firstfix.spending.budgets import RULE

    return together(examine(build), examine(build, (RULE,)))


def _choices(path: Path, shown_as: str, source: Source, faults: Collector) -> Choices:
    """What an earlier build chose, from the file beside the plan."""
    data = read_beside(path, CHOICES_ENDING, shown_as, source, faults)
    if data is None:
        return NO_CHOICES
    from firstfix.allocations.read import read_choices

    return read_choices(data, beside_name(shown_as, CHOICES_ENDING), faults)


def choices_to_keep(compiled: Compiled) -> Choices:
    """What the next compilation of the plan is to keep of this one."""
    from firstfix.resolve.choices import choices_made

    assert compiled.plan is not None
    assert compiled.build is not None
    with garbage_collection_paused():
        return choices_made(compiled.plan, compiled.build, compiled.choices)


def _progress(path: Path, shown_as: str, source: Source, faults: Collector) -> Progress:
    """What has been done so far, from the file beside the plan, if somebody keeps one."""
    tree = load_beside(path, PROGRESS_ENDING, shown_as, source, faults)
    if tree is None:
        return NOTHING_KEPT
    from firstfix.progress.read import read_progress

    return read_progress(tree, beside_name(shown_as, PROGRESS_ENDING), faults)


def _told(plan: Plan, build: Build, progress: Progress) -> Iterable[Finding]:
    """What the build and its progress say about each other."""
    if not progress.is_kept:
        return ()
    from firstfix.remaining.told import progress_findings

    return (*said_otherwise(plan, progress), *progress_findings(build, progress))


def _all(faults: Collector, shown_as: str) -> list[Finding]:
    """The faults that were kept, and one that counts those that were not."""
    if faults.dropped:
        message = f"{faults.dropped:,} further faults are not listed"
        counted = Finding(
            FAULT_COUNT.id, FAULT_COUNT.level, message, "", whole_file(shown_as), FAULT_COUNT.basis
        )
        return [*faults.findings, counted]
    return faults.findings


def results(compiled: Compiled) -> Mapping[str, bytes]:
    """Every document of a compiled plan: relative path to bytes."""
    from firstfix.documents.all_documents import all_documents

    assert compiled.build is not None
    with garbage_collection_paused():
        return all_documents(compiled.build, compiled.report, compiled.progress, tuple(_tried(compiled)))


def _tried(compiled: Compiled) -> "Iterator[Tried]":
    """The plan with each of the other parts that its author thinks of, made anew."""
    from firstfix.purchase.alternatives import Tried

    plan, build = compiled.plan, compiled.build
    assert plan is not None
    assert build is not None
    wrong = {each.message for each in compiled.report.findings if each.level is Level.ERROR}
    for device, part in plan.purchase.wish.instead:
        if part in build.library and any(spec.name == device for spec in plan.devices):
            devices = tuple(
                replace(spec, part=part) if spec.name == device else spec for spec in plan.devices
            )
            made = compile_again(replace(compiled, plan=replace(plan, devices=devices)), compiled.choices)
            errors = (each.message for each in made.report.findings if each.level is Level.ERROR)
            assert made.build is not None
            yield Tried(device, part, made.build, tuple(each for each in errors if each not in wrong))
