"""The stages in order, in one screenful: text, tree, plan, build, findings, results."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.allocations.choices import NO_CHOICES, Choices
from firstfix.build.model import Build
from firstfix.build.phases import Phase
from firstfix.finding.collector import Collector
from firstfix.finding.model import Finding, Level, Report, Undetermined, report
from firstfix.parts.facts import Fact
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.progress.apply import said_otherwise, with_progress
from firstfix.progress.model import NOTHING_KEPT, Progress
from firstfix.progress.new_names import with_new_names
from firstfix.resolve.make_build import make_build
from firstfix.rules.exceptions import EXCEPTION_UNMATCHED, accept
from firstfix.rules.run import Outcomes, examine, together
from firstfix.rules.spending_kinds import PHASE_BUDGET
from firstfix.rules.waiting import mark_waiting
from firstfix.rules.work_kinds import STEP_UNKNOWN
from firstfix.source.kinds import FAULT_COUNT
from firstfix.source.load import Source, beside_name, load, load_beside, read_beside
from firstfix.source.reader import garbage_collection_paused
from firstfix.span import whole_file

if TYPE_CHECKING:
    from firstfix.documents.in_phases import Stage
    from firstfix.growth.model import Growth, Spot
    from firstfix.plan.assumption import Assumption
    from firstfix.purchase.alternatives import Tried

PROGRESS_ENDING = ".progress.yaml"
CHOICES_ENDING = ".allocations.yaml"
# How far a plan can grow is searched for by compiling it some ten times for each place; past so many devices it is only reckoned.
MOST_TO_SEARCH, _MOST_FOR_DOCUMENTS = 1000, 60


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
    path: Path,
    shown_as: str,
    change: Callable[[Choices], Choices] | None = _as_read,
    assumptions: "tuple[Assumption, ...]" = (),
) -> Compiled:
    """Everything up to the findings. Raises source.load.UnreadableFile for `path` itself; all else is in the report.

    `change` may forget some of the choices that are kept beside the plan; with None they are not even read.
    With `assumptions`, what is read is the plan with those laid over it; raises AssumptionError for one that it has no place for.
    """
    with garbage_collection_paused():
        faults = Collector()
        source = load(path, shown_as, faults)
        if source.tree is None:
            return Compiled(source, None, None, report(_all(faults, shown_as)))
        if assumptions:
            _assume(source, assumptions)
        parts = library()
        plan = read_plan(source.tree, parts, faults)
        progress = with_new_names(_progress(path, shown_as, source, faults), plan.renames)
        plan = with_progress(plan, progress)
        read = Compiled(source, plan, None, report(()), progress, NO_CHOICES, tuple(_all(faults, shown_as)))
        kept_faults = Collector()
        choices = NO_CHOICES if change is None else change(_choices(path, shown_as, source, kept_faults))
        return _judged(read, choices, _all(kept_faults, shown_as))


def _assume(source: Source, assumptions: "tuple[Assumption, ...]") -> None:
    from firstfix.plan.assume import assumed

    assert source.tree is not None
    source.tree = assumed(source.tree, assumptions)
    source.texts |= {each.file: each.text for each in assumptions}


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


def standing_after(compiled: Compiled, phase: str) -> Compiled:
    """The network as it stands once `phase` is done, and what the rules say of that; what was read and chosen stays.

    Raises ValueError for a name that is no phase of the plan.
    """
    from firstfix.resolve.as_of import build_as_of

    plan, whole = compiled.plan, compiled.report
    assert plan is not None
    assert compiled.build is not None
    build = build_as_of(plan, compiled.build, phase)
    if build is compiled.build:
        return compiled
    # What a phase costs is its share of the whole list, with packs that are shared with later ones.
    unpaid = replace(build, phases=tuple(Phase(each.name, each.by) for each in build.phases))
    outcome, accepted = accept(plan.exceptions, _examined(unpaid))
    # An exception or a step may be about something that comes later; whether it is there at all is asked of the whole.
    said = [each for each in outcome.findings if each.rule not in _OF_THE_WHOLE]
    phases = {f"phase:{each.name}" for each in build.phases}
    beside = [each for each in whole.findings if each.rule not in whole.examined or _is_of(each, phases)]
    findings = [*beside, *said]
    untold = mark_waiting(outcome.undetermined, build, findings)
    untold = (*untold, *(each for each in whole.undetermined if _is_of(each, phases)))
    accepted = (*accepted, *(each for each in whole.accepted if _is_of(each.verdict, phases)))
    return replace(compiled, build=build, report=report(findings, untold, outcome.examined, accepted))


_OF_THE_WHOLE = frozenset((EXCEPTION_UNMATCHED.id, STEP_UNKNOWN.id, PHASE_BUDGET.id))


def _is_of(verdict: Finding | Undetermined, phases: Set[str]) -> bool:
    """Whether it is told of the whole, and holds as of these phases too."""
    return verdict.rule == STEP_UNKNOWN.id or (verdict.rule == PHASE_BUDGET.id and verdict.subject in phases)


def _examined(build: Build) -> Outcomes:
    """By all rules; those about money need the shopping list and those about the order of work all its steps, which are worked
    out only where the plan has a budget, or wants an order.
    """
    outcomes = examine(build)
    if any(isinstance(phase.budget, Fact) for phase in build.phases):
        from firstfix.spending.budgets import RULE

        outcomes = together(outcomes, examine(build, (RULE,)))
    if build.working.after:
        from firstfix.schedule.wanted import WANTED_RULES

        outcomes = together(outcomes, examine(build, WANTED_RULES))
    return outcomes


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


def room_to_grow(
    compiled: Compiled,
    wanted: "Callable[[tuple[Spot, ...]], tuple[Spot, ...]]",
    most_devices: int = MOST_TO_SEARCH,
) -> "tuple[Growth, ...]":
    """How many more fit of those things that `wanted` takes; of a plan of more than `most_devices` it is reckoned only."""
    from firstfix.allocations.forget import without
    from firstfix.growth.grow import growths

    assert compiled.plan is not None
    assert compiled.build is not None
    choices = choices_to_keep(compiled)

    def compile_variant(plan: Plan, anew: tuple[str, ...] = ()) -> tuple[Build, Report]:
        made = compile_again(replace(compiled, plan=plan), without(choices, anew))
        assert made.build is not None
        return made.build, made.report

    return growths(compiled.plan, compiled.build, compiled.report, wanted, compile_variant, most_devices)


def results(compiled: Compiled) -> Mapping[str, bytes]:
    """Every document of a compiled plan: relative path to bytes."""
    from firstfix.documents.all_documents import all_documents
    from firstfix.growth.spots import one_of_each

    assert compiled.build is not None
    with garbage_collection_paused():
        tried, stages = tuple(_tried(compiled)), tuple(_stages(compiled))
        # Nobody adds to what can't be built.
        growth = (
            () if compiled.report.has_errors else room_to_grow(compiled, one_of_each, _MOST_FOR_DOCUMENTS)
        )
        return all_documents(compiled.build, compiled.report, compiled.progress, tried, stages, growth)


def _stages(compiled: Compiled) -> "Iterator[Stage]":
    """The network as of each of its phases, where there are several."""
    from firstfix.documents.in_phases import Stage

    assert compiled.build is not None
    phases, before = compiled.build.phases, None
    for phase in phases if len(phases) > 1 else ():
        then = standing_after(compiled, phase.name)
        assert then.build is not None
        yield Stage(phase, before, then.build, then.report, phase == phases[-1])
        before = then.build


def _tried(compiled: Compiled) -> "Iterator[Tried]":
    """The plan with each of the other parts that its author thinks of, made anew."""
    from firstfix.purchase.alternatives import Tried

    plan, build = compiled.plan, compiled.build
    assert plan is not None
    assert build is not None
    wrong = {each.message for each in compiled.report.findings if each.level is Level.ERROR}
    made_of = {device.name for device in build.devices.values()}
    for device, part in plan.purchase.wish.instead:
        if part in build.library and device in made_of:
            devices = tuple(
                replace(spec, part=part) if spec.name == device else spec for spec in plan.devices
            )
            made = compile_again(replace(compiled, plan=replace(plan, devices=devices)), compiled.choices)
            errors = (each.message for each in made.report.findings if each.level is Level.ERROR)
            assert made.build is not None
            yield Tried(device, part, made.build, tuple(each for each in errors if each not in wrong))
