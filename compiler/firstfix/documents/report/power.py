"""PoE in tables: for each source what it has, what is reserved and what is left; for each device its classes and watts."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.power import PowerRun, PowerSource
from firstfix.documents.report.wiring import own_jack
from firstfix.documents.stubs.figures import at_most, power_class, shown
from firstfix.finding.figures import quantity
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import watts


class FedRow(NamedTuple):
    """One device that is fed: class it asks for and is granted, watts it gets, draws at the most, and are counted at the source."""

    device: str
    jack: str
    asked: str
    assigned: str
    granted: str
    drawn: str
    reserved: str


class SourceTable(NamedTuple):
    name: str
    budget: str
    terms: tuple[str, ...]
    reserved: str
    left: str
    counts: str
    fed_by: str
    rows: tuple[FedRow, ...]


def power_tables(build: Build) -> tuple[SourceTable, ...]:
    """Sources by name; those that feed nothing too."""
    sources = sorted(build.power_sources.values(), key=lambda source: natural(source.device))
    return tuple(_source(build, source) for source in sources)


def _source(build: Build, source: PowerSource) -> SourceTable:
    runs = [build.power_runs[each] for each in source.runs if each in build.power_runs]
    reserved = _sum(runs)
    return SourceTable(
        ids.path(source.device),
        shown(source.budget, watts),
        tuple(
            f"{term.what}: {quantity(term.value, 'W')}" + (f" ({term.source})" if term.source else "")
            for term in source.terms
        ),
        shown(reserved, watts),
        shown(_left(source.budget, reserved), watts),
        f"by {source.counts} ({source.counts_basis})" if source.counts_basis else f"by {source.counts}",
        _fed_by(build, source),
        tuple(_row(build, run) for run in sorted(runs, key=lambda run: natural(run.source))),
    )


def _sum(runs: list[PowerRun]) -> Figure:
    """The worst case of all that is counted; unknown as soon as one is."""
    unknown = [run for run in runs if isinstance(run.reserved, Unknown)]
    if unknown:
        names = ", ".join(ids.path(run.sink) for run in unknown)
        return Unknown(f"what {names} needs is not known")
    total = sum(run.reserved.high for run in runs if isinstance(run.reserved, Fact))
    return Fact(total, total, total, "sum of what is reserved")


def _left(budget: Figure, reserved: Figure) -> Figure:
    if isinstance(budget, Unknown):
        return budget
    if isinstance(reserved, Unknown):
        return reserved
    left = budget.low - reserved.high
    return Fact(left, left, left, "budget less what is reserved")


def _fed_by(build: Build, source: PowerSource) -> str:
    run = build.power_runs.get(source.fed_by)
    return f"PoE from {own_jack(run.source)}" if run else "PoE" if source.fed_by else "the mains"


def _row(build: Build, run: PowerRun) -> FedRow:
    sink = build.jacks.get(run.sink)
    return FedRow(
        ids.path(sink.device) if sink else ids.path(run.sink),
        own_jack(run.source),
        power_class(run.asked),
        power_class(run.assigned),
        shown(run.granted, watts),
        at_most(run.drawn, watts),
        at_most(run.reserved, watts),
    )
