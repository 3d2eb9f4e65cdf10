"""PoE in tables: for each source what it has, what is reserved and what is left; for each device its classes and watts."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.power import PowerRun, PowerSource
from firstfix.documents.report.wiring import own_jack
from firstfix.documents.stubs.figures import at_most, power_class, shown
from firstfix.finding.figures import quantity
from firstfix.units import number, watts


class FedRow(NamedTuple):
    """One device that is fed: class it asks for and is granted, watts it gets, draws at the most, and are counted at the source.

    `loop`: ohms between source and device; `priority`: of the port, low being the first to go dark.
    """

    device: str
    jack: str
    asked: str
    assigned: str
    granted: str
    drawn: str
    reserved: str
    loop: str
    priority: str


class SourceTable(NamedTuple):
    name: str
    budget: str
    terms: tuple[str, ...]
    reserved: str
    left: str
    left_share: str
    counts: str
    fed_by: str
    rows: tuple[FedRow, ...]


def power_tables(build: Build) -> tuple[SourceTable, ...]:
    """Sources by name; those that feed nothing too."""
    sources = sorted(build.power_sources.values(), key=lambda source: natural(source.device))
    return tuple(_source(build, source) for source in sources)


def _source(build: Build, source: PowerSource) -> SourceTable:
    runs = [build.power_runs[each] for each in source.runs if each in build.power_runs]
    return SourceTable(
        ids.path(source.device),
        shown(source.budget, watts),
        tuple(
            f"{term.what}: {quantity(term.value, 'W')}" + (f" ({term.source})" if term.source else "")
            for term in source.terms
        ),
        at_most(source.taken, watts),
        shown(source.left, watts),
        shown(source.left_share, "{:.0%}".format),
        f"by {source.counts} ({source.counts_basis})" if source.counts_basis else f"by {source.counts}",
        _fed_by(build, source),
        tuple(_row(build, run) for run in sorted(runs, key=lambda run: natural(run.source))),
    )


def _fed_by(build: Build, source: PowerSource) -> str:
    run = build.power_runs.get(source.fed_by)
    return f"PoE from {own_jack(run.source)}" if run else "PoE" if source.fed_by else "the mains"


def _ohms(value: float) -> str:
    return f"{number(value)} Ω"


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
        at_most(run.loop, _ohms),
        run.priority,
    )
