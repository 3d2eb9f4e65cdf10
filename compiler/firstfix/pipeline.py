"""The stages in order, in one screenful: text, tree, plan, build, findings, results."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from firstfix.build.model import Build
from firstfix.finding.collector import Collector
from firstfix.finding.model import Report, report
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.resolve.make_build import make_build
from firstfix.rules.run import examine
from firstfix.source.load import Source, load
from firstfix.source.reader import garbage_collection_paused


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
            return Compiled(source, None, None, report(faults.findings))
        parts = library()
        plan = read_plan(source.tree, parts, faults)
        build = make_build(plan, parts)
        outcome = examine(build)
        return Compiled(
            source,
            plan,
            build,
            report([*faults.findings, *outcome.findings], outcome.undetermined, outcome.examined),
        )


def results(compiled: Compiled) -> Mapping[str, bytes]:
    """Every document of a compiled plan: relative path to bytes."""
    from firstfix.documents.all_documents import all_documents

    assert compiled.build is not None
    return all_documents(compiled.build, compiled.report)
