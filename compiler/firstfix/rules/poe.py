"""Rules on Power over Ethernet, run by run: the class that is granted, and the cable between.

Takes a build; yields outcomes for each power run. Budgets are in poe_budget, things without any power in unpowered.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Figure, Unknown, exactly
from firstfix.parts.layers import parts_of_kind
from firstfix.physics.poe import Delivery, Infeasible, delivery_to_device
from firstfix.physics.range import at_least, at_most
from firstfix.rules.power_path import device_of, granted_row, name_of, rests_on
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.standards.poe import PoeClass, classes, types
from firstfix.units import metres, number, watts

_CLASSES = Basis("IEEE Std 802.3 (2018)", "Clauses 33 and 145, power classes and demotion")
_LOOP = Basis(
    "IEEE Std 802.3 (2018)", "Clauses 33 and 145, loop resistance and voltage at the device; from memory"
)


@rule("poe-class", Level.ERROR, _CLASSES)
def poe_class_granted(build: Build) -> Iterator[Outcome]:
    """The power a device may draw by the class it is granted, against what it draws at the most.

    Because: a device that asks for more than its jack gives is granted a lower class, or none: it stays dark, or restarts when
        its heater, motor or radio comes on.
    Compares: greatest draw of the device [W] <= power at the device of the granted class [W]. A device that hands PoE on is
        compared by its own use; what is left for others is poe-budget's. One that is granted less than it asks for works
        with less (a warning) where its part says 'least-class' and that is granted, else stays dark (an error).
    Skips: devices on the mains; a splitter with more on its lead than that gives, of which splitter-output tells.
    Cannot tell: a device whose class or draw is not known, a source whose class is not known; a device that is granted less
        than it asks for and draws no more, whose part does not say whether it starts at all.
    Remedy: a jack or an injector that gives the class asked for, or a device that is content with less.
    """
    known_fine: set[object] = set()
    for run in build.power_runs.values():
        part = build.devices[device_of(build, run.sink)].part
        # Big sites repeat the same few pairs of parts; what was fine once is fine again.
        shape = (part.name, run.asked, run.port_class, run.assigned, run.drawn)
        outcome = Fine(run.id) if shape in known_fine else _judge_class(build, run)
        if isinstance(outcome, Fine):
            known_fine.add(shape)
        yield outcome


def _judge_class(build: Build, run: PowerRun) -> Outcome:
    device = build.devices[device_of(build, run.sink)]
    at = build.provenance.span(device.id, "part")
    missing = _unsaid_classes(build, run)
    if missing or isinstance(run.asked, Unknown) or isinstance(run.granted, Unknown):
        return poe_class_granted.cannot_tell(run.id, at, *_named(build, run, missing))
    if _lead_overloaded(build, run, device):
        return Fine(run.id)
    asked = classes()[int(run.asked.typical)]
    row = granted_row(run)
    need = _own_need(device, run)
    if row is None or not at_most(asked.pd_power_w, row.pd_power_w):
        return _demoted(build, run, device, asked, row, need)
    if isinstance(need, Unknown):
        why = need.why if need is run.drawn else f"the part '{device.part.name}' does not say what it draws"
        return poe_class_granted.cannot_tell(run.id, at, *_named(build, run, [why]))
    if at_most(need.high, row.pd_power_w):
        return Fine(run.id)
    tail = f"but draws up to {watts(need.high)}"
    return _class_finding(build, run, asked, row, need, tail, Level.ERROR)


def _unsaid_classes(build: Build, run: PowerRun) -> list[str]:
    """What is missing to know the class that is granted: the parts, by name, and the fact."""
    sink, source = (build.devices[device_of(build, each)].part.name for each in (run.sink, run.source))
    missing = []
    if isinstance(run.asked, Unknown):
        missing.append(f"the part '{sink}' does not say which class it asks for (`takes-poe: {{class}}`)")
    if isinstance(run.port_class, Unknown):
        missing.append(f"the part '{source}' does not say which class it gives (`gives-poe: {{class}}`)")
    return missing


def _lead_overloaded(build: Build, run: PowerRun, splitter: Device) -> bool:
    """A splitter gives no more than its lead can, whatever hangs on it: splitter-output tells of that, once."""
    lead = splitter.part.gives_low_voltage
    if not run.feeds or lead is None or isinstance(lead.power, Unknown):
        return False
    draw = build.devices[run.feeds].part.draw
    return isinstance(draw, Fact) and not at_most(draw.high, lead.power.low)


def _demoted(
    build: Build, run: PowerRun, device: Device, asked: PoeClass, row: PoeClass | None, need: Figure
) -> Outcome:
    """Granted less than it asks for: whether it then works at all is a fact of the part, by no standard."""
    takes = device.part.takes_poe
    least = takes.least_class if takes is not None else Unknown("")
    if row is None:
        return _class_finding(build, run, asked, row, need, "so it stays dark", Level.ERROR)
    if isinstance(least, Fact):
        lowest = classes()[int(least.typical)]
        if not at_most(lowest.pd_power_w, row.pd_power_w):
            tail = f"and its part works with class {lowest.number} at the least, so it stays dark"
            works = exactly(lowest.pd_power_w, f"class {lowest.number}, {lowest.basis}")
            return _class_finding(build, run, asked, row, works, tail, Level.ERROR, "the least it works with")
        tail = f"with which its part works, if with less than all it can do{_draws(need)}"
        return _class_finding(build, run, asked, row, need, tail, Level.WARNING)
    if isinstance(need, Fact) and not at_most(need.high, row.pd_power_w):
        tail = f"but draws up to {watts(need.high)}, and its part does not say whether it starts at all with less"
        return _class_finding(build, run, asked, row, need, tail, Level.ERROR)
    why = (
        f"asks for class {asked.number} and is granted class {row.number} ({watts(row.pd_power_w)}): the part"
        f" '{device.part.name}' does not say with 'least-class' whether it works with less or stays dark"
    )
    at = build.provenance.span(device.id, "part")
    return poe_class_granted.cannot_tell(run.id, at, *_named(build, run, [why]))


def _draws(need: Figure) -> str:
    return f"; it draws up to {watts(need.high)}" if isinstance(need, Fact) else ""


def _class_finding(
    build: Build,
    run: PowerRun,
    asked: PoeClass,
    row: PoeClass | None,
    need: Figure,
    tail: str,
    level: Level,
    what: str = "its greatest draw",
) -> Outcome:
    device = build.devices[device_of(build, run.sink)]
    granted = row.pd_power_w if row is not None else 0.0
    given = "no class at all" if row is None else f"class {row.number}"
    span = build.provenance.span(device.id, "part")
    asks = f"asks for class {asked.number}: {watts(asked.pd_power_w)} at the device, {watts(asked.pse_power_w)} at the source ({asked.basis})"
    measurement = None
    if isinstance(need, Fact):
        terms = (Term(what, need.high, need.basis),)
        limit = "no class is granted" if row is None else f"power at the device of class {row.number}"
        measurement = Measurement(
            f"need of '{device.name}'", need.high, "at most", granted, "W", terms, limit
        )
    return poe_class_granted.finding(
        f"'{device.name}' asks for class {asked.number} and is granted {given}: {watts(granted)}, {tail}",
        run.id,
        span,
        related=(_source_label(build, run), Label(span, asks), *rests_on(need, run.asked)),
        measurement=measurement,
        cures=_class_cures(build, device, asked),
        level=level,
        basis=None if row is None else row.basis,
    )


def _own_need(device: Device, run: PowerRun) -> Figure:
    """A device that hands PoE on needs its own use first; its budget says what is left for others."""
    return device.part.draw if device.part.gives_poe is not None else run.drawn


def _named(build: Build, run: PowerRun, missing: list[str]) -> list[str]:
    return [f"'{name_of(build, run.source)}' to '{name_of(build, run.sink)}': {each}" for each in missing]


def _source_label(build: Build, run: PowerRun) -> Label:
    source = build.devices[device_of(build, run.source)]
    text = f"'{source.name}' gives its power"
    if isinstance(run.port_class, Fact):
        most = classes()[int(run.port_class.typical)]
        text = f"'{source.name}' gives class {most.number} at the most, {watts(most.pse_power_w)} at its jack"
        gives = source.part.gives_poe
        if gives is not None and isinstance(gives.pairs, Fact) and gives.pairs.high < most.pairs:
            text += ", but over 2 pairs, which carry class 4 at the most"
        if (
            gives is not None
            and isinstance(gives.jack_limit, Fact)
            and gives.jack_limit.low < most.pse_power_w
        ):
            text += f", and no more than {watts(gives.jack_limit.low)} at one"
    return Label(build.provenance.span(source.id, "part"), text)


def _class_cures(build: Build, device: Device, asked: PoeClass) -> tuple[Cure, ...]:
    wanted = f"class {asked.number} ({watts(asked.pse_power_w)} at the source)"
    found = sorted(
        part.name
        for part in parts_of_kind(build.library, "injector")
        if part.gives_poe is not None and isinstance(part.gives_poe.poe_class, Fact)
        and part.gives_poe.poe_class.low >= asked.number
    )  # fmt: skip
    cures = [Cure(f"feed '{device.name}' from a jack that gives {wanted}")]
    if found:
        cures.append(Cure(f"put an injector in the run, such as '{found[0]}', which gives {wanted}"))
    return tuple(cures)


class _Arrival(NamedTuple):
    """How a run fares with so much resistance: what arrives, and the limit that it breaks, or nothing."""

    given: Delivery | Infeasible
    breach: Measurement | None


@rule("poe-reach", Level.ERROR, _LOOP)
def poe_reach(build: Build) -> Iterator[Outcome]:
    """The cable between a source of PoE and its device, against the resistance and voltage that the class allows.

    Because: a thin or long cable turns the power into warmth; the device sees too low a voltage under load and restarts.
    Compares: loop resistance over the powered pairs [ohm] <= the class's; voltage at the device under its greatest draw,
        with the source at its lowest voltage [V] >= the least of the class's type. Each piece counts by its own length and
        gauge, stranded ones with 2.6 % more, in its way's temperature; each mated connection with 0.2 ohm.
    Skips: runs that are granted no power; poe-class has those.
    Cannot tell: a length, a gauge or a class is not known; a way's temperature, where 20 °C keeps the limit and 60 °C does not.
    Remedy: a shorter way, a thicker gauge, copper for copper-clad aluminium, or an injector nearer to the device.
    """
    # Big sites repeat the same few shapes; what was fine once is fine again.
    known_fine: set[object] = set()
    for run in build.power_runs.values():
        if isinstance(run.granted, Fact) and run.granted.high <= 0:
            continue
        shape = (run.loop, run.pairs, run.volts, run.assigned, run.drawn)
        outcome = Fine(run.id) if shape in known_fine else _judge_reach(build, run)
        if isinstance(outcome, Fine):
            known_fine.add(shape)
        yield outcome


def _judge_reach(build: Build, run: PowerRun) -> Outcome:
    at = build.provenance.span(build.channels[run.channel].link)
    row = granted_row(run)
    if row is None:
        missing = _unsaid_classes(build, run) or ["the class that is granted is not known"]
        return poe_reach.cannot_tell(run.id, at, *_named(build, run, missing))
    if isinstance(run.loop, Unknown):
        return poe_reach.cannot_tell(
            run.id, at, *_named(build, run, list(run.loop_doubts or (run.loop.why,)))
        )
    most = min(run.drawn.high, row.pd_power_w) if isinstance(run.drawn, Fact) else row.pd_power_w
    if _arrival(run, row, run.loop.high, most).breach is None:
        return Fine(run.id)
    surely = most if isinstance(run.drawn, Fact) else 0.0
    arrival = _arrival(run, row, run.loop.low, surely)
    if arrival.breach is None:
        missing = list(run.loop_doubts)
        if isinstance(run.drawn, Unknown):
            missing.append(run.drawn.why)
        return poe_reach.cannot_tell(run.id, at, *_named(build, run, missing))
    return _reach_finding(build, run, row, arrival, surely)


def _arrival(run: PowerRun, row: PoeClass, ohms: float, power: float) -> _Arrival:
    given = delivery_to_device(power, run.volts, ohms)
    # The class's limit is for its own pairs; over four instead of two, half as much.
    limit = row.loop_ohm * row.pairs / run.pairs
    least = types()[row.type].pd_min_v
    if not at_most(ohms, limit):
        what = f"loop resistance over {run.pairs} pairs"
        return _Arrival(given, Measurement(what, ohms, "at most", limit, "Ω", run.loop_terms))
    if isinstance(given, Infeasible):
        return _Arrival(
            given,
            Measurement(
                "power to the device",
                given.asked_w,
                "at most",
                given.most_w,
                "W",
                _asked(run, given),
                f"V² / 4R, {number(run.volts)} V and {ohms:.4g} Ω",
            ),
        )
    if not at_least(given.device_v, least):
        return _Arrival(given, _voltage(run, row, given, least))
    return _Arrival(given, None)


def _asked(run: PowerRun, given: Infeasible) -> tuple[Term, ...]:
    """What it draws at the most, or all that its class lets it."""
    drawn = isinstance(run.drawn, Fact) and run.drawn.high <= given.asked_w
    whence = run.drawn.basis if drawn and isinstance(run.drawn, Fact) else "all that its class lets it draw"
    return (Term("its greatest draw", given.asked_w, whence),)


def _voltage(run: PowerRun, row: PoeClass, given: Delivery, least: float) -> Measurement:
    drops = (
        Term(
            f"lost in {each.what}, {given.current_a:.4g} A × {each.value:.4g} Ω",
            -given.current_a * each.value,
            each.source,
        )
        for each in run.loop_terms
    )
    terms = (Term("lowest voltage of the source", run.volts, str(row.basis)), *drops)
    return Measurement("voltage at the device", given.device_v, "at least", least, "V", terms)


def _reach_finding(build: Build, run: PowerRun, row: PoeClass, arrival: _Arrival, power: float) -> Outcome:
    given = arrival.given
    arrives = (
        f"{watts(power)} cannot cross it at all"
        if isinstance(given, Infeasible)
        else f"at {watts(power)}, {number(given.device_v)} V of {number(run.volts)} V arrive"
    )
    return poe_reach.finding(
        f"the cable from '{name_of(build, run.source)}' to '{name_of(build, run.sink)}' has too much resistance for class {row.number}: {arrives}",
        run.id,
        build.provenance.span(build.channels[run.channel].link),
        related=(
            _source_label(build, run), *_sink_labels(build, run, given, power),
            *_clad_labels(build, run), *rests_on(run.drawn),
        ),
        measurement=arrival.breach,
        cures=_reach_cures(build, run, row),
        basis=Basis(row.basis.document, f"{row.basis.clause}, loop resistance from memory"),
    )  # fmt: skip


def _sink_labels(
    build: Build, run: PowerRun, given: Delivery | Infeasible, power: float
) -> tuple[Label, ...]:
    span = build.provenance.span(device_of(build, run.sink), "part")
    name = name_of(build, run.sink)
    if isinstance(given, Infeasible):
        text = f"at {number(run.volts)} V no more than {watts(given.most_w)} cross it, V²/4R"
    else:
        text = f"{watts(given.source_w)} must leave the source: {number(given.current_a)} A from {number(run.volts)} V, {watts(given.loss_w)} lost in the cable"
    return (Label(span, f"'{name}' is reckoned at {watts(power)}"), Label(None, text))


def _clad_labels(build: Build, run: PowerRun) -> tuple[Label, ...]:
    forms = {
        each: build.library[each].cable for each in sorted({build.pieces[piece].part for piece in run.pieces})
    }
    return tuple(
        Label(None, f"'{name}' is {form.conductor.replace('-', ' ')}, which no data-cable standard admits")
        for name, form in forms.items()
        if form is not None and form.conductor != "copper"
    )


def _reach_cures(build: Build, run: PowerRun, row: PoeClass) -> tuple[Cure, ...]:
    """By how much the run's longest piece must be shorter, its resistance being spread evenly along it."""
    cures = [
        Cure("take a thicker gauge of solid copper, such as 23 AWG, or put an injector nearer to the device")
    ]
    over = run.loop.low - row.loop_ohm * row.pairs / run.pairs if isinstance(run.loop, Fact) else 0.0
    pieces = [(build.pieces[each].length.figure, term.value) for each, term in zip(run.pieces, run.loop_terms, strict=False)]  # fmt: skip
    longest = max(((each.high, ohms) for each, ohms in pieces if isinstance(each, Fact)), default=(0.0, 0.0))
    if 0 < over < longest[1]:
        shorter = over / longest[1] * longest[0]
        cures.insert(
            0, Cure(f"make its longest piece ({metres(longest[0])}) {metres(shorter)} shorter, or more")
        )
    return tuple(cures)


RULES: tuple[Rule, ...] = (poe_class_granted, poe_reach)
