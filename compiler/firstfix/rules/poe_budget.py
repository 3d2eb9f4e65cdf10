"""The rule on PoE budgets: what each source has to give, against what its devices take; in cascades to any depth.

Takes a build, in which each source's budget has its own terms already; yields one outcome for each source that feeds anything.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.power import PowerRun, PowerSource
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.power_path import granted_row, name_of, rests_on, taken_by_draw
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.units import watts

_BUDGET = Basis("IEEE Std 802.3 (2018)", "Clauses 33 and 145; the budget is the data sheet's")


class _Load(NamedTuple):
    """One run and what it takes of the budget [W]."""

    run: PowerRun
    taken: Figure


@rule("poe-budget", Level.ERROR, _BUDGET)
def poe_budget(build: Build) -> Iterator[Outcome]:
    """What all devices on a source of PoE take together, against what the source has to give.

    Because: past its budget a switch refuses the last device that is plugged in, or drops one when others draw more: the camera
        that went dark on the first cold night.
    Compares: sum over its devices of what the source counts for each [W] <= its budget [W]. A source that is fed by PoE itself
        has what it is granted, less its own use and the loss in conversion. By class, the class's power counts; by draw,
        the greatest draw and the loss in the channel.
    Skips: sources that feed nothing, and those that get no power themselves (unpowered and poe-class have those).
    Cannot tell: a budget or a load that is not known; a source that does not say how it counts, where only counting by draw fits.
    Remedy: a source with a greater budget, an injector for the heaviest load, a feed of a higher class, fewer devices.
    """
    for source in build.power_sources.values():
        if source.runs and not _is_dark(build, source):
            yield _judge(build, source)


def _is_dark(build: Build, source: PowerSource) -> bool:
    if not source.fed_by:
        return not build.devices[source.device].part.mains.inlet
    granted = build.power_runs[source.fed_by].granted
    return isinstance(granted, Fact) and granted.high <= 0


def _judge(build: Build, source: PowerSource) -> Outcome:
    at = build.provenance.span(source.device, "part")
    name = build.devices[source.device].name
    if isinstance(source.budget, Unknown):
        return poe_budget.cannot_tell(source.device, at, source.budget.why)
    runs = [build.power_runs[each] for each in source.runs]
    loads = [_Load(run, run.reserved) for run in runs]
    budget = source.budget.low
    missing = [f"'{name_of(build, each.run.sink)}': {each.taken.why}" for each in loads if isinstance(each.taken, Unknown)]  # fmt: skip
    if at_most(_sum(loads), budget):
        return poe_budget.cannot_tell(source.device, at, *missing) if missing else Fine(source.device)
    counts = build.devices[source.device].part.gives_poe
    if counts is not None and isinstance(counts.counts, Unknown):
        by_draw = [_Load(run, taken_by_draw(build, run)) for run in runs]
        if at_most(_sum(by_draw), budget):
            doubt = (
                f"the part of '{name}' does not say how it counts: by class it is {watts(_sum(loads))} of"
                f" {watts(budget)}, by draw {watts(_sum(by_draw))}"
            )
            return poe_budget.cannot_tell(source.device, at, doubt, *missing)
    return _finding(build, source, source.budget, loads)


def _sum(loads: list[_Load]) -> float:
    return sum(each.taken.high for each in loads if isinstance(each.taken, Fact))


def _finding(build: Build, source: PowerSource, budget: Fact, loads: list[_Load]) -> Outcome:
    device = build.devices[source.device]
    total = _sum(loads)
    heaviest_first = sorted(
        ((each.taken.high, each) for each in loads if isinstance(each.taken, Fact)),
        key=lambda pair: (-pair[0], pair[1].run.id),
    )
    terms = tuple(Term(_load_name(build, each.run), taken, f"by {source.counts}") for taken, each in heaviest_first)  # fmt: skip
    given = tuple(
        Label(build.provenance.span(source.device, "part"), f"{term.what}: {watts(term.value)}")
        for term in source.terms
    )
    added = tuple(
        Label(build.provenance.span(build.jacks[each.run.sink].device, "part"), f"adds {watts(taken)}")
        for taken, each in heaviest_first
    )
    return poe_budget.finding(
        f"'{device.name}' has {watts(budget.low)} of PoE to give, and {_how_many(loads)} {watts(total)} of it",
        source.device,
        build.provenance.span(source.device, "part"),
        related=(*given, *added, *rests_on(budget, *(each.run.drawn for each in loads))),
        measurement=Measurement(
            f"PoE of '{device.name}', counted by {source.counts}", total, "at most", budget.low, "W", terms
        ),
        cures=_cures(build, source, total, budget.low, heaviest_first),
    )


def _how_many(loads: list[_Load]) -> str:
    return f"{len(loads)} devices take" if len(loads) > 1 else "1 device takes"


def _load_name(build: Build, run: PowerRun) -> str:
    row = granted_row(run)
    return f"'{name_of(build, run.sink)}'" + (f", class {row.number}" if row is not None else "")


def _cures(
    build: Build, source: PowerSource, total: float, budget: float, heaviest_first: list[tuple[float, _Load]]
) -> tuple[Cure, ...]:
    cures = []
    over = total - budget
    relief = [pair for pair in heaviest_first if at_most(over, pair[0])]
    if relief:
        # The smallest load that is enough moves the least.
        taken, load = relief[-1]
        cures.append(Cure(f"feed '{name_of(build, load.run.sink)}' by an injector of its own: {watts(taken)} less, {watts(over)} is needed"))  # fmt: skip
    part = build.devices[source.device].part
    higher = [(number, given) for number, given in (part.gives_poe.when_fed if part.gives_poe else ()) if at_most(total, given)]  # fmt: skip
    if source.fed_by and higher:
        cures.append(Cure(f"feed it by class {higher[0][0]}: then it can give {watts(higher[0][1])}"))
    stronger = _stronger(build, part, total)
    if stronger:
        cures.append(Cure(f"take a source that gives {watts(total)} or more, such as '{stronger}'"))
    return tuple(cures) or (Cure(f"spread the devices over two sources: {watts(over)} is too much for one"),)


def _stronger(build: Build, part: Part, total: float) -> str:
    """The smallest of the library's sources of the same kind that gives enough, with as many jacks."""
    fitting = [
        (other.gives_poe.budget.low, other.name)
        for other in build.library.values()
        if other.kind == part.kind and other.gives_poe is not None and isinstance(other.gives_poe.budget, Fact)
        and at_most(total, other.gives_poe.budget.low) and len(other.jacks) >= len(part.jacks)
    ]  # fmt: skip
    return min(fitting)[1] if fitting else ""


RULES: tuple[Rule, ...] = (poe_budget,)
