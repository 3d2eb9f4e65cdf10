"""Rules on what the mains carries: strips, UPSs and circuits against what hangs on them, and what leaks to earth.

Takes a build, whose loads come from graphs.mains_load with their spread; yields one outcome for each strip, UPS and circuit.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import Circuit
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Finding, Label, Level, Measurement, Term
from firstfix.graphs.mains_limits import Bound, strip_bounds
from firstfix.graphs.mains_load import Load, Loads, leakage, mains_loads, strips
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.mains import continuous_power
from firstfix.physics.range import at_most
from firstfix.rules.ends import End
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.typical import rests_on
from firstfix.standards.mains import mains_limits
from firstfix.units import number, watts

_MOST_NAMED = 6
ELECTRICIAN = Label(None, "mains: local codes decide, and fixed wiring is left to a licensed electrician")
_DRAW = ("at the least", "as usual", "when all draw their most")
_MA = 1000.0


@rule("strip-load", Level.ERROR, COMMON_PRACTICE)
def strip_load(build: Build) -> Iterator[Outcome]:
    """Whether a power strip or UPS carries all that is plugged into it, and into what is plugged into it.

    Because: an overloaded strip gets hot and can burn; an overloaded UPS drops everything at the moment it is needed.
    Compares: sum of what its things draw, with the PoE that they give and lose [W] <= its rating, and a strip's amperes times the
        volts of the mains, where the plan says those; of a UPS also volt-amperes, by a
        power factor of 1 at the best and 0.6 at the worst, which small supplies have. Over it at the least is an error,
        as usual or at the most a warning. What has two leads may draw all of it through either.
    Skips: strips with nothing in them.
    Cannot tell: a rating or a draw that is not known, where that matters.
    Remedy: spread the things over two strips on two outlets; a UPS with a greater rating.
    """
    for strip in strips(build):
        yield _strip(build, strip)


def _strip(build: Build, strip: Device) -> Outcome:
    at = build.provenance.span(strip.id, "part")
    rating = strip.part.mains.rating
    if isinstance(rating, Unknown):
        return strip_load.cannot_tell(strip.id, at, f"the rating of '{strip.part.name}' (`mains: {{rating: …}}`)")  # fmt: skip
    loads = mains_loads(build).behind(strip.id)
    over = [
        (end, bound)
        for bound in strip_bounds(build, strip, rating)
        for end in End
        if not at_most(loads.total[end], bound.watts[end])
    ]
    if not over:
        return Fine(strip.id)
    end, bound = min(over, key=lambda pair: pair[0])
    if end is End.MOST and loads.missing:
        return strip_load.cannot_tell(strip.id, at, *loads.missing)
    return _strip_finding(build, strip, loads, bound, end)


def _strip_finding(build: Build, strip: Device, loads: Loads, bound: Bound, end: End) -> Finding:
    figure, limit = loads.total[end], bound.watts[end]
    basis = bound.basis.basis if isinstance(bound.basis, Fact) else ""
    return strip_load.finding(
        f"what hangs on '{strip.name}' takes {watts(figure)} {_DRAW[end]}, and it carries {watts(limit)}",
        strip.id,
        build.provenance.span(strip.id, "part"),
        related=(*_places(build, loads), ELECTRICIAN, *rests_on(bound.basis)),
        measurement=Measurement(
            f"load of '{strip.name}'", figure, "at most", limit, "W", _terms(loads, end), f"{bound.source}, {basis}"
        ),
        cures=(
            Cure(f"plug some of it in elsewhere: {watts(figure - limit)} is too much"),
            Cure(f"take one that carries {watts(figure)} or more"),
        ),
        level=Level.ERROR if end is End.LEAST else Level.WARNING,
    )  # fmt: skip


def _heaviest(loads: Loads, end: End) -> list[Load]:
    """Those that take anything, the heaviest first."""
    found = [each for each in loads.loads if each.taken[end] > 0]
    return sorted(found, key=lambda each: (-each.taken[end], each.device.id))


def _terms(loads: Loads, end: End) -> tuple[Term, ...]:
    return tuple(
        Term(f"'{each.device.name}'{_share(each)}", each.taken[end], each.basis)
        for each in _heaviest(loads, end)
    )


def _share(load: Load) -> str:
    return "" if load.leads == load.of else f", {load.leads} of its {load.of} leads"


def _places(build: Build, loads: Loads) -> tuple[Label, ...]:
    return tuple(
        Label(build.provenance.span(each.device.id, "part"), f"takes up to {watts(each.taken.most)}")
        for each in _heaviest(loads, End.MOST)[:_MOST_NAMED]
    )


_CONTINUOUS = Basis(
    "NFPA 70 (2017)", "210.20(A); elsewhere 80 % is a common margin without a source; local codes decide"
)


@rule("circuit-load", Level.ERROR, _CONTINUOUS)
def circuit_load(build: Build) -> Iterator[Outcome]:
    """Whether a mains circuit carries all that the plan hangs on it.

    Because: a breaker that runs at its limit for hours trips on the evening when everything is on.
    Compares: what its things usually draw, for hours [W] <= 80 % of its rating times its volts; what they draw at the most <= all of
        that. Over all of it at the least is an error, else a warning. What else is plugged in on that circuit the plan doesn't
        know: leave room for it. The 80 % are the rule of NFPA 70 for loads of three hours and more; IEC 60364 has none like it.
    Skips: circuits on which nothing hangs; rooms that name no circuit.
    Cannot tell: volts or a draw that is not known, where that matters.
    Remedy: plug some of it in on another circuit. A new circuit is a licensed electrician's work.
    """
    for circuit in build.circuits.values():
        loads = mains_loads(build).of_circuit(circuit)
        if loads.loads:
            yield _circuit(build, circuit, loads)


def _circuit(build: Build, circuit: Circuit, loads: Loads) -> Outcome:
    at = build.provenance.span(circuit.id)
    if isinstance(circuit.volts, Unknown) or isinstance(circuit.rating, Unknown):
        return circuit_load.cannot_tell(circuit.id, at, f"the volts of '{circuit.name}' (`volts: …`)")
    all_of_it = circuit.volts.low * circuit.rating.low
    for_long = float(continuous_power(circuit.volts.low, circuit.rating.low))
    if not at_most(loads.total.least, all_of_it):
        return _circuit_finding(build, circuit, loads, End.LEAST, all_of_it, "all of its rating")
    if not at_most(loads.total.usual, for_long):
        return _circuit_finding(build, circuit, loads, End.USUAL, for_long, "80 % of its rating for hours")
    if at_most(loads.total.most, all_of_it):
        return Fine(circuit.id)
    if loads.missing:
        return circuit_load.cannot_tell(circuit.id, at, *loads.missing)
    return _circuit_finding(build, circuit, loads, End.MOST, all_of_it, "all of its rating")


def _circuit_finding(
    build: Build, circuit: Circuit, loads: Loads, end: End, limit: float, share: str
) -> Outcome:
    figure = loads.total[end]
    return circuit_load.finding(
        f"what the plan hangs on circuit '{circuit.name}' takes {watts(figure)} {_DRAW[end]}, and {share} is {watts(limit)}",
        circuit.id,
        build.provenance.span(circuit.id),
        related=(*_places(build, loads), ELECTRICIAN),
        measurement=Measurement(f"load of '{circuit.name}'", figure, "at most", limit, "W", _terms(loads, end)),
        cures=(
            Cure(f"plug some of it in where another circuit feeds the outlets: {watts(figure - limit)} is too much"),
        ),
        level=Level.ERROR if end is End.LEAST else Level.WARNING,
    )  # fmt: skip


_LEAKS = Basis(
    "BS 7671 (2018)", "531.3.2, 30 % of the residual current, from memory; 25 % is advised, common practice"
)


@rule("earth-leakage", Level.WARNING, _LEAKS)
def earth_leakage(build: Build) -> Iterator[Outcome]:
    """Whether what leaks to earth in use, on one circuit, leaves a residual current device of 30 mA in peace.

    Because: each supply leaks a little through its filter; ten of them together trip the device now and then, and nothing is broken.
    Compares: sum of the leakage that its things usually have [mA] <= 30 % of 30 mA; over 25 % is a note. It is taken that one
        device of 30 mA guards the circuit, as is usual for socket outlets; the plan does not say it. Currents are added as if
        in phase, which is the worst.
    Skips: circuits on which nothing hangs; rooms that name no circuit.
    Cannot tell: leakage that is not known, where the known keeps the limit.
    Remedy: spread the things over circuits that have a device each; a licensed electrician can measure it.
    """
    for circuit in build.circuits.values():
        loads = mains_loads(build).of_circuit(circuit)
        if loads.loads:
            yield _leaks(build, circuit, loads)


def _leaks(build: Build, circuit: Circuit, loads: Loads) -> Outcome:
    known = mains_limits()
    usual, _, unknown = leakage(loads)
    figure = usual * _MA
    most = known.leakage_most.value * known.residual_current.value
    advised = known.leakage_advised.value * known.residual_current.value
    if at_most(figure, most) and unknown:
        return earth_leakage.cannot_tell(circuit.id, build.provenance.span(circuit.id), *unknown)
    if at_most(figure, advised):
        return Fine(circuit.id)
    limit, level = (advised, Level.NOTE) if at_most(figure, most) else (most, Level.WARNING)
    share = number(limit / known.residual_current.value * 100)
    return earth_leakage.finding(
        f"what hangs on circuit '{circuit.name}' leaks {number(figure)} mA to earth in use, and {share} % of"
        f" {number(known.residual_current.value)} mA is {number(limit)} mA",
        circuit.id,
        build.provenance.span(circuit.id),
        related=(
            Label(None, f"taken to be guarded by one device of {number(known.residual_current.value)} mA: {known.residual_current.basis}, from memory"),
            ELECTRICIAN, *rests_on(*(each.device.part.mains.leakage for each in loads.loads)),
        ),
        measurement=Measurement(f"leakage on '{circuit.name}'", figure, "at most", limit, "mA", tuple(_leak_terms(loads))),
        cures=(Cure("plug some of it in where another circuit with its own residual current device feeds the outlets"),),
        level=level,
    )  # fmt: skip


def _leak_terms(loads: Loads) -> Iterator[Term]:
    for each in loads.loads:
        figure = each.device.part.mains.leakage
        if isinstance(figure, Fact) and figure.typical > 0:
            yield Term(f"'{each.device.name}'", figure.typical * _MA, figure.basis)


RULES: tuple[Rule, ...] = (strip_load, circuit_load, earth_leakage)
