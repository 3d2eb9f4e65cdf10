"""What the rules on PoE share: the resistance that a power run meets, what it takes from its source, names to show.

Takes a build and one of its power runs; gives figures of physics/, or Unknown with the missing fact.
"""

from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.finding.model import Label
from firstfix.parts.facts import Fact, Figure, Unknown, exactly
from firstfix.physics.constants import REFERENCE_TEMPERATURE_C
from firstfix.physics.copper import Loop, Stretch, powered_loop
from firstfix.physics.poe import Infeasible, delivery_to_device
from firstfix.physics.range import OutOfRange
from firstfix.standards.copper import conductor_materials
from firstfix.standards.poe import PoeClass, classes

TYPICAL_NOTE = Label(None, "rests on figures typical of their kind; those of your data sheets are better")


def rests_on(*figures: Figure) -> tuple[Label, ...]:
    """The note that a verdict rests on typical figures, where it does."""
    typical = any(isinstance(figure, Fact) and figure.is_typical_only for figure in figures)
    return (TYPICAL_NOTE,) if typical else ()


def device_of(build: Build, jack: str) -> str:
    return build.jacks[jack].device


def name_of(build: Build, jack: str) -> str:
    return build.devices[device_of(build, jack)].name


def granted_row(run: PowerRun) -> PoeClass | None:
    """The row of the class that the run was granted, or None where none was or it is not known."""
    return classes()[int(run.assigned.typical)] if isinstance(run.assigned, Fact) else None


def loop_of(build: Build, run: PowerRun, row: PoeClass) -> Loop | Unknown:
    """The loop resistance between source and device over the class's pairs [ohm], with a term for each piece."""
    stretches: list[Stretch] = []
    for piece_id in run.pieces:
        found = _stretch(build, piece_id)
        if isinstance(found, Unknown):
            return found
        stretches.append(found)
    try:
        return powered_loop(stretches, run.connections, 2 if row.pairs == 2 else 4)
    except OutOfRange as fault:
        return Unknown(str(fault))


def _stretch(build: Build, piece_id: str) -> Stretch | Unknown:
    piece = build.pieces[piece_id]
    form = build.library[piece.part].cable
    length = piece.length.figure
    if isinstance(length, Unknown):
        return length
    if form is None or isinstance(form.gauge_awg, Unknown):
        return Unknown(f"the part '{piece.part}' does not say its gauge")
    warmth = [build.ways[way].temperature for way in piece.route]
    hottest = max((each.high for each in warmth if isinstance(each, Fact)), default=REFERENCE_TEMPERATURE_C)
    return Stretch(
        f"{piece.kind} of '{piece.part}'",
        length.high,
        form.gauge_awg.high,
        max(hottest, REFERENCE_TEMPERATURE_C),
        conductor_materials()[form.conductor].conductivity,
    )


def taken_by_draw(build: Build, run: PowerRun) -> Figure:
    """What the source gives when the device draws its most and the channel loses its share [W]."""
    row = granted_row(run)
    if row is None:
        return run.reserved
    if isinstance(run.drawn, Unknown):
        return Unknown(f"what '{name_of(build, run.sink)}' draws is not known: {run.drawn.why}")
    loop = loop_of(build, run, row)
    if isinstance(loop, Unknown):
        return loop
    given = delivery_to_device(run.drawn.high, row.pse_min_v, loop.ohms)
    if isinstance(given, Infeasible):
        return Unknown("so much power cannot cross so long a cable at all")
    return exactly(given.source_w, "drawn by the device and lost in the channel")
