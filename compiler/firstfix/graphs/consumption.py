"""What a thing takes from its supply, and how much of that stays where it stands as heat: from its least to its most.

Takes a build and one of its devices; gives a Consumption. What is fed on by PoE leaves; what is lost in making it stays.
"""

import math
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.physics.poe import Infeasible, delivery_to_device
from firstfix.standards.mains import mains_limits

# Kinds that give off heat; of the others (panels, couplers) nobody asks for a draw.
LIVE_KINDS = frozenset((*ACTIVE_KINDS, "injector", "splitter", "ups", "power-strip"))


class Spread(NamedTuple):
    """A figure at its least, as usual, and at its most, which is infinite where nothing bounds it."""

    least: float
    usual: float
    most: float

    def plus(self, other: "Spread") -> "Spread":
        return Spread(self.least + other.least, self.usual + other.usual, self.most + other.most)


NOTHING = Spread(0.0, 0.0, 0.0)
_NO_BOUND = Spread(0.0, 0.0, math.inf)
# Each step of a cascade hands on less than it gets, so there are few; a plan may write a circle all the same.
_DEEPEST = 8


class Consumption(NamedTuple):
    """Watts: `own` use, what is `given` to others at its jacks, what is `lost` in making that.

    `missing`: facts without which the most is only a bound, or there is none. `basis`: of its own use.
    """

    device: str
    own: Spread
    given: Spread
    lost: Spread
    missing: tuple[str, ...]
    basis: str

    @property
    def heat(self) -> Spread:
        return self.own.plus(self.lost)

    @property
    def taken(self) -> Spread:
        return self.heat.plus(self.given)


def consumption(build: Build, device: Device) -> Consumption:
    """Of any device; one that is of no live kind and says no draw takes nothing."""
    return _consumption(build, device, ())


def _consumption(build: Build, device: Device, above: tuple[str, ...]) -> Consumption:
    """`above`: ids of those that feed it by PoE, the first one first."""
    run = _feeding(build, device)
    if device.part.kind == "splitter":
        return _of_splitter(build, device, run)
    own, missing = _own(device, run)
    given, lost, doubts = _handed_on(build, device, (*above, device.id))
    return Consumption(device.id, own, given, lost, (*missing, *doubts), _basis(device.part.draw))


def _basis(figure: Figure) -> str:
    return figure.basis if isinstance(figure, Fact) else "not said; no more than it is granted"


def _spread(figure: Fact) -> Spread:
    return Spread(figure.low, figure.typical, figure.high)


def _feeding(build: Build, device: Device) -> PowerRun | None:
    """The run that feeds it by PoE."""
    takes = device.part.takes_poe
    runs = (
        build.power_runs.get(f"power-run:{device.name}/{jack}") for jack in (takes.jacks if takes else ())
    )
    return next((run for run in runs if run is not None), None)


def _own(device: Device, run: PowerRun | None) -> tuple[Spread, tuple[str, ...]]:
    draw = device.part.draw
    if isinstance(draw, Fact):
        return _spread(draw), ()
    if device.part.kind not in LIVE_KINDS:
        return NOTHING, ()
    missing = (f"what '{device.name}' draws",)
    if run is not None and isinstance(run.granted, Fact):
        return Spread(0.0, 0.0, run.granted.high), missing
    return _NO_BOUND, missing


def _of_splitter(build: Build, device: Device, run: PowerRun | None) -> Consumption:
    """It uses nothing itself; what it loses goes with what it feeds."""
    fed = build.devices.get(run.feeds) if run is not None else None
    if fed is None:
        own, missing = _own(device, run)
        return Consumption(device.id, own, NOTHING, NOTHING, missing, _basis(device.part.draw))
    lead = device.part.gives_low_voltage
    given, missing = _own(fed, run)
    lost = _loss(given, lead.efficiency if lead else Unknown("no lead"))
    return Consumption(device.id, NOTHING, given, lost, missing, _basis(fed.part.draw))


def _handed_on(
    build: Build, device: Device, above: tuple[str, ...]
) -> tuple[Spread, Spread, tuple[str, ...]]:
    """What it gives by PoE, cables' loss included, what it loses in that, and what is not known of it."""
    source = build.power_sources.get(device.id)
    gives = device.part.gives_poe
    if source is None or gives is None or not source.runs:
        return NOTHING, NOTHING, ()
    given, missing = NOTHING, []
    for each in source.runs:
        run = build.power_runs[each]
        given = given.plus(at_source(build, run, above))
        if isinstance(run.drawn, Unknown):
            missing.append(run.drawn.why)
    return given, _loss(given, gives.efficiency), tuple(dict.fromkeys(missing))


def at_source(build: Build, run: PowerRun, above: tuple[str, ...] = ()) -> Spread:
    """What its source gives it, the cable's loss included; `above`: ids of what feeds that source by PoE, and its own."""
    granted = run.granted.high if isinstance(run.granted, Fact) else math.inf
    if granted <= 0:
        return NOTHING
    drawn = drawn_at_sink(build, run, above) if isinstance(run.drawn, Fact) else Spread(0.0, 0.0, granted)
    if isinstance(run.loop, Unknown):
        reserved = run.reserved.high if isinstance(run.reserved, Fact) else drawn.most
        return drawn._replace(most=max(drawn.most, reserved))
    loop = run.loop
    ohms = (loop.low, loop.typical, loop.high)
    return Spread(*(_with_cable(watts, run.volts, each) for watts, each in zip(drawn, ohms, strict=True)))


def drawn_at_sink(build: Build, run: PowerRun, above: tuple[str, ...] = ()) -> Spread:
    """What the device draws at its jack; of one that hands power on, `run.drawn` tells the most, and what is usual hangs on those
    that it feeds. Nothing is known of the most where `run.drawn` is unknown."""
    if isinstance(run.drawn, Unknown):
        return _NO_BOUND
    drawn = _spread(run.drawn)
    sink = build.jacks[run.sink].device
    source = build.power_sources.get(sink)
    if source is None or not source.runs or source.fed_by != run.id:
        return drawn
    if sink in above or len(above) > _DEEPEST:
        return drawn
    usual = _consumption(build, build.devices[sink], above).taken.usual
    return drawn._replace(usual=min(max(usual, drawn.least), drawn.most))


def _with_cable(watts: float, volts: float, ohms: float) -> float:
    """What the source gives so that `watts` arrive; where they can't, poe-reach says so."""
    if not volts or not math.isfinite(watts):
        return watts
    delivery = delivery_to_device(watts, volts, ohms)
    return watts if isinstance(delivery, Infeasible) else float(delivery.source_w)


def _loss(given: Spread, efficiency: Figure) -> Spread:
    """P (1 / eta - 1); where the part does not say it, from none to that of the worst that is usual."""
    if isinstance(efficiency, Fact):
        best, usual, worst = efficiency.high, efficiency.typical, efficiency.low
    else:
        worst = mains_limits().conversion_least.value
        best, usual = 1.0, (1.0 + worst) / 2
    return Spread(given.least * (1 / best - 1), given.usual * (1 / usual - 1), given.most * (1 / worst - 1))
