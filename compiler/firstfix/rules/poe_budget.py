"""The rule on PoE budgets: what each source has to give, against what its devices take; in cascades to any depth.

Takes a build, in which each source's budget has its own terms already; yields one outcome for each source that feeds anything.
"""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.build.power import PowerRun, PowerSource
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part
from firstfix.physics.range import at_most
from firstfix.rules.poe_shedding import ORDER, dark_first
from firstfix.rules.power_path import class_named, granted_row, name_of, rests_on
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.units import watts

_BUDGET = Basis("IEEE Std 802.3 (2018)", "Clauses 33 and 145; the budget is the data sheet's")
# How many of those that go dark are named.
_MOST_NAMED = 6
# P is the draw, V the source's voltage, R the loop of the channel, or the most that the class allows one to have.
_CURRENT = "I = (V − √(V² − 4 R P)) / 2 R"
_HOW = {
    "class": "the class's power is reserved",
    "draw": f"its greatest draw and the loss in its cable, V I with {_CURRENT}",
    "asked": f"what it asks for in steps of 0.1 W, over the worst channel of its class: V I with {_CURRENT}",
}


@rule("poe-budget", Level.ERROR, _BUDGET)
def poe_budget(build: Build) -> Iterator[Outcome]:
    """What all devices on a source of PoE take together, against what the source has to give.

    Because: past its budget a switch refuses the last device that is plugged in, or drops one when others draw more: the camera
        that went dark on the first cold night.
    Compares: sum over its devices of what the source counts for each [W] <= its budget [W]. A source that is fed by PoE itself
        has its part's 'when-fed' for the class that it is granted, or what it is granted less its own use and the loss in
        conversion (90 % at the worst, where its part does not say). By class, the class's power counts; by draw, the greatest
        draw and the loss in the actual channel; where both parts negotiate, what is asked for in steps of 0.1 W.
    Skips: sources that feed nothing, and those that get no power themselves (unpowered and poe-class have those).
    Cannot tell: a fact is missing (a budget, a draw, a class, a length, a temperature, an efficiency, how a source counts), and
        the devices fit by the best it may be and do not by the worst. What fits either way is fine.
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
    if isinstance(source.budget, Unknown):
        return poe_budget.cannot_tell(source.device, at, source.budget.why)
    if isinstance(source.taken, Fact) and at_most(source.taken.high, source.budget.low):
        return Fine(source.device)
    runs = [build.power_runs[each] for each in source.runs]
    if not at_most(_least(runs), source.budget.high):
        return _finding(build, source, source.budget, runs)
    return poe_budget.cannot_tell(source.device, at, *_missing(build, source, source.budget, runs))


def _least(runs: list[PowerRun]) -> float:
    """What they take for sure [W]; nothing of one that is not known counts."""
    return sum(run.reserved.low for run in runs if isinstance(run.reserved, Fact))


def _missing(build: Build, source: PowerSource, budget: Fact, runs: list[PowerRun]) -> list[str]:
    """The range in which the sum lies, and every fact that would narrow it, each once."""
    if isinstance(source.taken, Fact):
        taken = f"{watts(source.taken.low)} to {watts(source.taken.high)}"
        given = (
            watts(budget.low) if budget.low == budget.high else f"{watts(budget.low)} to {watts(budget.high)}"
        )
        doubts = [
            f"'{build.devices[source.device].name}' has {given} to give, and {taken} is taken; not known is:"
        ]
    else:
        doubts = []
    doubts += source.doubts
    for run in runs:
        if isinstance(run.reserved, Unknown):
            doubts.append(f"'{name_of(build, run.sink)}': {run.reserved.why}")
        elif run.reserved.low < run.reserved.high:
            doubts += run.doubts
    return list(dict.fromkeys(doubts))


def _finding(build: Build, source: PowerSource, budget: Fact, runs: list[PowerRun]) -> Outcome:
    device = build.devices[source.device]
    total = _least(runs)
    at = build.provenance.span(source.device, "part")
    heaviest_first = sorted(
        ((run.reserved.low, run) for run in runs if isinstance(run.reserved, Fact)),
        key=lambda pair: (-pair[0], pair[1].id),
    )
    given = tuple(Label(at, f"{term.what}: {watts(term.value)}{_by(term)}") for term in source.terms)
    added = tuple(
        Label(build.provenance.span(build.jacks[run.sink].device, "part"), f"adds {watts(taken)}")
        for taken, run in heaviest_first
    )
    return poe_budget.finding(
        f"'{device.name}' has {watts(budget.high)} of PoE to give, and {_how_many(runs)} {watts(total)} of it,"
        f" counted by {source.counts}",
        source.device,
        at,
        related=(
            *_dark_note(build, runs, budget.high), *given,
            Label(None, f"it counts by {source.counts}: {source.counts_basis}"), *added,
            *rests_on(budget, *(run.drawn for run in runs)),
        ),
        measurement=Measurement(
            f"PoE of '{device.name}', counted by {source.counts}", total, "at most", budget.high, "W",
            tuple(Term(_load_name(build, run), taken, _whence(run)) for taken, run in heaviest_first),
            f"what '{device.name}' has to give, {budget.basis}",
        ),
        cures=_cures(build, source, total, budget.high, heaviest_first),
    )  # fmt: skip


def _by(term: Term) -> str:
    return f" ({term.source})" if term.source else ""


def _how_many(runs: list[PowerRun]) -> str:
    return f"{len(runs)} devices take" if len(runs) > 1 else "1 device takes"


def _whence(run: PowerRun) -> str:
    row = granted_row(run)
    return f"{_HOW[run.counted]}; {row.basis}" if row is not None else _HOW[run.counted]


def _load_name(build: Build, run: PowerRun) -> str:
    """The device with its classes, and its loss where it is counted: what an installer needs to reckon it again."""
    asked, assigned = class_named(run.asked), class_named(run.assigned)
    named = f"{asked} asked, {assigned} assigned" if asked != assigned else assigned
    drawn = ""
    if run.counted != "class" and isinstance(run.drawn, Fact):
        drawn = f", draws {watts(run.drawn.high)}"
        if run.counted == "draw" and isinstance(run.loop, Fact):
            drawn += f" over {run.loop.low:.4g} Ω from {run.volts:g} V"
        row = granted_row(run)
        if run.counted == "asked" and row is not None:
            drawn += f" over {row.loop_ohm:g} Ω from {row.pse_min_v:g} V"
    return f"'{name_of(build, run.sink)}', {named}{drawn}"


def _dark_note(build: Build, runs: list[PowerRun], budget: float) -> tuple[Label, ...]:
    """Those that go dark, the first one first, and by which order that was found."""
    dark = dark_first(build, runs, budget)
    named = [
        f"'{name_of(build, run.sink)}' (priority {run.priority}, jack '{build.jacks[run.source].name}')"
        for run in dark[:_MOST_NAMED]
    ]
    if len(dark) > _MOST_NAMED:
        named.append(f"{len(dark) - _MOST_NAMED} more")
    return (Label(None, f"goes dark first: {', then '.join(named)}; {ORDER}"),) if named else ()


def _cures(
    build: Build,
    source: PowerSource,
    total: float,
    budget: float,
    heaviest_first: list[tuple[float, PowerRun]],
) -> tuple[Cure, ...]:
    cures = []
    over = total - budget
    relief = [pair for pair in heaviest_first if at_most(over, pair[0])]
    if relief:
        # The smallest load that is enough moves the least.
        taken, run = relief[-1]
        cures.append(Cure(f"feed '{name_of(build, run.sink)}' by an injector of its own: {watts(taken)} less, {watts(over)} is needed"))  # fmt: skip
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
