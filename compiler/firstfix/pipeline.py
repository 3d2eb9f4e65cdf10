"""The stages in order, in one screenful: text, tree, plan, build, findings, results."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from firstfix.build.model import Build
from firstfix.finding.collector import Collector
from firstfix.finding.model import Finding, Report, report
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.resolve.make_build import make_build
from firstfix.rules.run import examine
from firstfix.source.kinds import FAULT_COUNT
from firstfix.source.load import Source, load
from firstfix.source.reader import garbage_collection_paused
from firstfix.span import whole_file


@dataclass(frozen=True, slots=True)
class Compiled:
    """What became of one plan file. Without a tree there is no plan and no build, and the report says why."""

    source: Source
    plan: Plan | None
    build: Build | None
    report: Report


def compile_plan(path: Path, shown_as: str) -> Compiled:
    """Everything up to the findings. Raises source.load.UnreadableFile for `path` itself; all else is in the report."""
    with garbage_collection_paused():
        faults = Collector()
        source = load(path, shown_as, faults)
        if source.tree is None:
            return Compiled(source, None, None, report(_all(faults, shown_as)))
        parts = library()
        plan = read_plan(source.tree, parts, faults)
        build = make_build(plan, parts)
        outcome = examine(build)
        return Compiled(
            source,
            plan,
            build,
            report([*_all(faults, shown_as), *outcome.findings], outcome.undetermined, outcome.examined),
        )


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
    return all_documents(compiled.build, compiled.report)
