"""Rules on things in the middle of a powered run: what a surge protector lets pass, and what a splitter gives on.

Takes a build; yields an outcome for each protector that a power run passes, and for each splitter that feeds something.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.physics.range import at_most
from firstfix.rules.power_path import device_of, granted_row, name_of, rests_on
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.standards.poe import classes
from firstfix.units import watts

_PASSING = Basis(
    "IEEE Std 802.3 (2018)", "Clause 145, power classes; what a protector bears is its data sheet's"
)


@rule("poe-through", Level.ERROR, _PASSING)
def poe_through(build: Build) -> Iterator[Outcome]:
    """The class of PoE that a surge protector in line bears, against the class that is granted over it.

    Because: one that is made for two pairs and 30 W has nothing on the other two, or clamps and warms at more; the device stays
        dark, or the protector fails and guards no longer.
    Compares: power at the source of the class that is granted [W] <= that of the class that the protector bears.
    Skips: runs without a protector, and those that are granted no class.
    Cannot tell: the protector's part does not say which class it bears, or the class that is granted is not known.
    Remedy: a protector for that class, or a device that is content with less.
    """
    protectors = {device.id for device in build.devices.values() if device.part.surge is not None}
    if not protectors:
        return
    for run in build.power_runs.values():
        if isinstance(run.granted, Fact) and run.granted.high <= 0:
            continue
        for each in _between(build, run):
            if each in protectors:
                yield _judge_protector(build, run, build.devices[each])


def _between(build: Build, run: PowerRun) -> tuple[str, ...]:
    """The things in line that the run itself passes; the channel may go on beyond an injector or a splitter."""
    channel = build.channels[run.channel]
    places = [channel.pieces.index(each) for each in (run.pieces[0], run.pieces[-1])]
    return channel.through[min(places) : max(places)]


def _judge_protector(build: Build, run: PowerRun, protector: Device) -> Outcome:
    at = build.provenance.span(protector.id, "part")
    surge, row = protector.part.surge, granted_row(run)
    bears: Figure = surge.poe_class if surge is not None else Unknown("")
    if row is None:
        return poe_through.cannot_tell(protector.id, at, f"the class that '{name_of(build, run.sink)}' is granted is not known")  # fmt: skip
    if isinstance(bears, Unknown):
        return poe_through.cannot_tell(protector.id, at, f"the part '{protector.part.name}' does not say which class of PoE it bears")  # fmt: skip
    most = classes()[int(bears.low)]
    if at_most(row.pse_power_w, most.pse_power_w):
        return Fine(protector.id)
    return poe_through.finding(
        f"'{protector.name}' bears PoE of class {most.number} at the most, and '{name_of(build, run.sink)}' is granted class {row.number} over it",
        protector.id,
        at,
        related=(
            Label(
                build.provenance.span(device_of(build, run.sink), "part"),
                f"class {row.number} goes over {run.pairs} pairs",
            ),
            *rests_on(bears),
        ),
        measurement=Measurement(
            f"PoE through '{protector.name}'", row.pse_power_w, "at most", most.pse_power_w, "W",
            (Term(f"class {row.number} at the source", row.pse_power_w, str(row.basis)),),
        ),
        cures=(Cure(f"take a surge protector that bears class {row.number}"),),
    )  # fmt: skip


@rule("splitter-output", Level.ERROR, COMMON_PRACTICE)
def splitter_output(build: Build) -> Iterator[Outcome]:
    """The power that a splitter gives over its low-voltage lead, against the draw of what hangs on it.

    Because: a splitter gives less than the class that it takes; the thing on its lead restarts under load.
    Compares: greatest draw of the device [W] <= the splitter's output [W]. Voltage and plug of the lead are not compared.
    Skips: splitters that feed nothing; what a splitter draws of its class is poe-class's.
    Cannot tell: the splitter's part does not say its output, or the device's not its draw.
    Remedy: a splitter that gives more, or an adaptor on the mains.
    """
    for run in build.power_runs.values():
        if run.feeds:
            yield _judge(build, run)


def _judge(build: Build, run: PowerRun) -> Outcome:
    splitter, device = build.devices[device_of(build, run.sink)], build.devices[run.feeds]
    at = build.provenance.span(splitter.id, "part")
    lead = splitter.part.gives_low_voltage
    output: Figure = lead.power if lead is not None else Unknown("")
    draw = device.part.draw
    missing = []
    if isinstance(output, Unknown):
        missing.append(f"the part '{splitter.part.name}' does not say how much its low-voltage lead gives")
    if isinstance(draw, Unknown):
        missing.append(f"the part '{device.part.name}' does not say what it draws")
    if isinstance(output, Unknown) or isinstance(draw, Unknown):
        return splitter_output.cannot_tell(splitter.id, at, *missing)
    if at_most(draw.high, output.low):
        return Fine(splitter.id)
    return splitter_output.finding(
        f"'{splitter.name}' gives {watts(output.low)} over its low-voltage lead, and '{device.name}' on it draws up to {watts(draw.high)}",
        splitter.id,
        at,
        related=(
            Label(build.provenance.span(device.id, "part"), f"draws up to {watts(draw.high)} ({draw.basis})"),
            *rests_on(draw, output),
        ),
        measurement=Measurement(
            f"draw of '{device.name}'", draw.high, "at most", output.low, "W", (Term("its greatest draw", draw.high, draw.basis),),
            output.basis,
        ),
        cures=(
            Cure(f"take a splitter whose lead gives {watts(draw.high)} or more"),
            Cure(f"feed '{device.name}' by its own adaptor on the mains"),
        ),
    )  # fmt: skip


RULES: tuple[Rule, ...] = (poe_through, splitter_output)
