"""PoE in lines: which class was asked, offered and granted, from where, and what a source has left."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.build.power import PowerRun, PowerSource
from firstfix.build.reasons import WORKED_OUT
from firstfix.explaining.lines import figure, shown_jack
from firstfix.explaining.model import Line
from firstfix.finding.figures import quantity
from firstfix.parts.facts import Fact, Figure
from firstfix.units import number, watts


def poe_taken(build: Build, run: PowerRun) -> Iterator[Line]:
    why = f"the first jack on the way to it that gives PoE; jack {build.jacks[run.sink].name} takes it"
    yield Line("PoE from", shown_jack(run.source), WORKED_OUT, why)
    yield from poe_classes(run)


def poe_classes(run: PowerRun) -> Iterator[Line]:
    yield figure("PoE class it asks for", run.asked, number)
    yield figure("highest class of that jack", run.port_class, number)
    granted = figure("class granted", run.assigned, number)
    yield granted._replace(origin=WORKED_OUT, why=_basis(run.assigned)) if granted.origin else granted
    yield figure("granted at the device", run.granted, watts)
    yield figure("counted at the source", run.reserved, watts)
    yield figure("drawn at the most", run.drawn, watts)


def _basis(given: Figure) -> str:
    return given.basis if isinstance(given, Fact) else given.why


def poe_given(build: Build, source: PowerSource) -> Iterator[Line]:
    yield figure("PoE to give", source.budget, watts)
    if len(source.terms) > 1:
        for term in source.terms:
            yield Line(f"  {term.what}", quantity(term.value, "W"), term.source)
    if not source.runs:
        yield Line("PoE taken", "nothing takes any")
        return
    taken = [build.power_runs[each] for each in source.runs]
    known = [run.reserved for run in taken if isinstance(run.reserved, Fact)]
    total = sum(each.high for each in known)
    more = f", and {len(taken) - len(known)} not known" if len(known) < len(taken) else ""
    why = f"counted by {source.counts}: {source.counts_basis}"
    yield Line("PoE taken", f"{watts(total)}{more}", WORKED_OUT, why)
    for run in sorted(taken, key=lambda run: build.jacks[run.source].order):
        value = watts(run.reserved.high) if isinstance(run.reserved, Fact) else "not known"
        asked = f", class {number(run.assigned.typical)}" if isinstance(run.assigned, Fact) else ""
        yield Line(f"  jack {build.jacks[run.source].name}", f"{value}, {build.jacks[run.sink].device.partition(':')[2]}{asked}")  # fmt: skip
    if isinstance(source.budget, Fact):
        yield Line("PoE left", watts(source.budget.low - total), WORKED_OUT)
