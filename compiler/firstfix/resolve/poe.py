"""Who is fed by PoE over which channel, by which class; and what each giver has to give, from the mains or from its own feed."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import Channel, Piece
from firstfix.build.hardware import Device
from firstfix.build.power import PowerRun, PowerSource
from firstfix.finding.model import Term
from firstfix.parts.facts import Fact, Figure, Unknown, exactly
from firstfix.parts.part import GivesPoe, Library, Part
from firstfix.physics.copper import Stretch, powered_loop
from firstfix.physics.poe import Infeasible, assigned_on_port, cascade_budget, delivery_to_device, poe_class
from firstfix.physics.range import OutOfRange
from firstfix.plan.model import Plan
from firstfix.resolve.jacks import JackField
from firstfix.resolve.notes import Notes
from firstfix.standards.copper import conductor_materials

# The worst conversion inside a device that hands PoE on, where its data sheet gives neither pass-through figures nor an
# efficiency. Common practice, no source.
WORST_EFFICIENCY = 0.9
# How many devices of a ring are named in its finding.
_MOST_NAMED = 6


class PowerOverEthernet(NamedTuple):
    runs: dict[str, PowerRun]
    sources: dict[str, PowerSource]


class _Candidate(NamedTuple):
    """A channel with its feed: the jack that gives, the jack that takes, and the pieces between."""

    channel: Channel
    source: str
    sink: str
    pieces: tuple[str, ...]
    connections: int


def resolve_poe(
    plan: Plan,
    channels: dict[str, Channel],
    pieces: dict[str, Piece],
    field: JackField,
    devices: dict[str, Device],
    library: Library,
    notes: Notes,
) -> PowerOverEthernet:
    on_mains = {ids.device(spec.name) for spec in plan.devices if spec.power and spec.power != "poe"}
    candidates = [
        found
        for channel in channels.values()
        if (found := _feed(channel, pieces, field, devices, on_mains)) is not None
    ]
    by_source: dict[str, list[_Candidate]] = {}
    for each in candidates:
        by_source.setdefault(field.jacks[each.source].device, []).append(each)
    work = _Work(pieces, field, devices, library, notes, {}, {}, {})
    for source in _root_to_leaf(candidates, field, devices, notes):
        work.settle(source, by_source.get(source, []))
    return PowerOverEthernet(dict(sorted(work.runs.items())), dict(sorted(work.sources.items())))


def _feed(
    channel: Channel,
    laid: dict[str, Piece],
    field: JackField,
    devices: dict[str, Device],
    on_mains: set[str],
) -> _Candidate | None:
    for sink_end in (0, 1):
        sink = field.jacks[channel.ends[sink_end]]
        source = field.jacks[channel.ends[1 - sink_end]]
        if sink.power != "takes" or sink.device in on_mains or channel.medium != "copper":
            continue
        found = _in_line_source(channel, sink_end, laid, devices)
        if found is not None:
            return found
        if source.power == "gives" and not _blocked(channel, devices):
            return _Candidate(channel, source.id, sink.id, channel.pieces, channel.connections)
    return None


def _in_line_source(
    channel: Channel, sink_end: int, laid: dict[str, Piece], devices: dict[str, Device]
) -> _Candidate | None:
    """The first thing that gives, looking from the device that takes: PoE begins there, whatever lies behind it.

    One that stands the wrong way round gives the other way.
    """
    order = channel.through if sink_end == 0 else channel.through[::-1]
    pieces = channel.pieces if sink_end == 0 else channel.pieces[::-1]
    for count, device_id in enumerate(order):
        part = devices[device_id].part
        if any(each.power == "blocks" for each in part.passes):
            return None
        if part.gives_poe is not None:
            giving = ids.jack(devices[device_id].name, part.gives_poe.jacks[0])
            if giving not in laid[pieces[count]].ends:
                return None
            return _Candidate(
                channel,
                giving,
                channel.ends[sink_end],
                pieces[: count + 1],
                count,
            )
    return None


def _blocked(channel: Channel, devices: dict[str, Device]) -> bool:
    """Whether the ends are kept apart for power. An injector that does not feed the device is the wrong way round."""
    passes = (each for device in channel.through for each in devices[device].part.passes)
    return any(each.power in ("blocks", "injects") for each in passes)


def _root_to_leaf(
    candidates: list[_Candidate],
    field: JackField,
    devices: dict[str, Device],
    notes: Notes,
) -> list[str]:
    """All givers, each after what feeds it; a ring of devices that would feed each other is reported and left out."""
    givers = sorted(device.id for device in devices.values() if device.part.gives_poe is not None)
    fed_by: dict[str, set[str]] = {giver: set() for giver in givers}
    for each in candidates:
        sink = field.jacks[each.sink].device
        if sink in fed_by:
            fed_by[sink].add(field.jacks[each.source].device)
    ordered: list[str] = []
    done: set[str] = set()
    waiting = givers
    while waiting:
        ready = [giver for giver in waiting if fed_by[giver] <= done]
        if not ready:
            names = ", ".join(f"'{devices[giver].name}'" for giver in waiting[:_MOST_NAMED])
            names += f" and {len(waiting) - _MOST_NAMED} more" if len(waiting) > _MOST_NAMED else ""
            notes.gap(
                "power-ring",
                waiting[0],
                f"{names} would feed each other with PoE, so none is fed at all",
                notes.provenance.span(waiting[0]),
            )
            return ordered
        ordered.extend(ready)
        done.update(ready)
        waiting = [giver for giver in waiting if giver not in done]
    return ordered


class _Work(NamedTuple):
    """What settling the givers one by one reads and fills."""

    pieces: dict[str, Piece]
    field: JackField
    devices: dict[str, Device]
    library: Library
    notes: Notes
    runs: dict[str, PowerRun]
    sources: dict[str, PowerSource]
    run_to: dict[str, PowerRun]

    def settle(self, device_id: str, feeds: list[_Candidate]) -> None:
        part = self.devices[device_id].part
        gives = part.gives_poe
        assert gives is not None
        fed_by = self.run_to.get(device_id)
        counts, counts_basis = _counting(gives)
        for each in feeds:
            run = self._run(each, gives, counts)
            self.runs[run.id] = run
            self.run_to.setdefault(self.field.jacks[run.sink].device, run)
        budget, terms = _budget(part, gives, fed_by)
        mine = tuple(sorted(f"power-run:{ids.path(each.sink)}" for each in feeds))
        self.sources[device_id] = PowerSource(
            device_id, budget, terms, counts, counts_basis, fed_by.id if fed_by else "", mine
        )

    def _run(self, each: _Candidate, gives: GivesPoe, counts: str) -> PowerRun:
        sink_device = self.devices[self.field.jacks[each.sink].device]
        takes = sink_device.part.takes_poe
        assert takes is not None
        asked, offered = takes.poe_class, gives.poe_class
        assigned, granted, reserved = _assigned(asked, offered)
        drawn = _drawn(sink_device.part, granted)
        if counts == "draw" and isinstance(assigned, Fact):
            reserved = self._reserved_by_draw(each, int(assigned.typical), drawn)
        run_id = f"power-run:{ids.path(each.sink)}"
        return PowerRun(
            run_id, each.source, each.sink, each.channel.id, each.pieces, each.connections, asked, offered, assigned, granted, reserved, drawn
        )  # fmt: skip

    def _reserved_by_draw(self, each: _Candidate, assigned: int, drawn: Figure) -> Figure:
        """What the source gives when the device draws its most, with the loss of this very channel at 20 °C."""
        if isinstance(drawn, Unknown):
            return drawn
        stretches = []
        for piece_id in each.pieces:
            piece = self.pieces[piece_id]
            length = piece.length.figure
            form = self.library[piece.part].cable
            if isinstance(length, Unknown):
                return length
            if form is None or isinstance(form.gauge_awg, Unknown):
                return Unknown(f"the gauge of '{piece.part}' is not known")
            share = conductor_materials()[form.conductor].conductivity
            stretches.append(Stretch(piece_id, length.typical, form.gauge_awg.typical, conductivity=share))
        row = poe_class(assigned)
        try:
            loop = powered_loop(stretches, each.connections, row.pairs)  # type: ignore[arg-type]
            given = delivery_to_device(drawn.high, row.pse_min_v, loop.ohms)
        except OutOfRange as fault:
            return Unknown(str(fault))
        if isinstance(given, Infeasible):
            return Unknown("this much power cannot cross so long a cable at all")
        return exactly(given.source_w, "drawn by the device and lost in the channel")


def _counting(gives: GivesPoe) -> tuple[str, str]:
    if isinstance(gives.counts, Unknown):
        return "class", "the part does not say how it counts; by class is the safe way"
    return gives.counts, "the part says so"


def _assigned(asked: Figure, offered: Figure) -> tuple[Figure, Figure, Figure]:
    """The class assigned, watts at the device, watts reserved at the source by class."""
    if isinstance(asked, Unknown):
        why = Unknown("the device's part does not say which class it asks for")
        return why, why, why
    if isinstance(offered, Unknown):
        why = Unknown("the source's part does not say which class it gives")
        return why, why, why
    given = assigned_on_port(int(asked.typical), int(offered.typical)).granted
    if given is None:
        nothing = exactly(0.0, "IEEE 802.3: no class can be granted")
        return Unknown("the port grants this device no class at all"), nothing, nothing
    basis = str(given.basis)
    return exactly(given.number, basis), exactly(given.pd_power_w, basis), exactly(given.pse_power_w, basis)


def _drawn(part: Part, granted: Figure) -> Figure:
    """The most a device draws at its jack: its own use; for one that hands PoE on, all that it is granted."""
    if part.gives_poe is not None and part.takes_poe is not None and isinstance(granted, Fact):
        return exactly(
            granted.high, f"{granted.basis}; a device that hands PoE on may draw all that it is granted"
        )
    return part.draw


def _budget(part: Part, gives: GivesPoe, fed_by: PowerRun | None) -> tuple[Figure, tuple[Term, ...]]:
    if part.mains.inlet and fed_by is None:
        if isinstance(gives.budget, Unknown):
            return Unknown(f"the part '{part.name}' does not say how much it can give"), ()
        return gives.budget, (Term("its own supply gives", gives.budget.low, gives.budget.basis),)
    if fed_by is None:
        return exactly(0.0, "nothing feeds it"), (Term("nothing feeds it", 0.0),)
    if isinstance(fed_by.granted, Fact) and fed_by.granted.high == 0:
        return exactly(0.0, "what should feed it grants nothing"), (
            Term("what should feed it grants nothing", 0.0),
        )
    if isinstance(fed_by.assigned, Unknown) or isinstance(fed_by.granted, Unknown):
        return Unknown("what feeds it is not known"), ()
    granted_class = int(fed_by.assigned.typical)
    stated = [watts for number, watts in gives.when_fed if number <= granted_class]
    if stated:
        return exactly(stated[-1], part.basis), (
            Term(f"fed by class {granted_class}, it can give", stated[-1], part.basis),
        )
    if isinstance(part.draw, Unknown):
        return Unknown(f"the part '{part.name}' does not say what it uses itself"), ()
    return _handed_on(part, gives, granted_class, fed_by.granted.low, part.draw)


def _handed_on(
    part: Part, gives: GivesPoe, granted_class: int, granted: float, own: Fact
) -> tuple[Figure, tuple[Term, ...]]:
    """What is granted, minus own use, minus the conversion's loss: the worst stated, or a worst case of our own."""
    efficiency = gives.efficiency.low if isinstance(gives.efficiency, Fact) else WORST_EFFICIENCY
    basis = part.basis if isinstance(gives.efficiency, Fact) else "common practice, no source: worst case"
    left = max(0.0, cascade_budget(granted_class, own.high, efficiency))
    used = min(own.high, granted)
    terms = (
        Term(f"granted to it by class {granted_class}", granted, "IEEE 802.3"),
        Term("its own use", -used, own.basis),
        Term(f"lost in conversion at {efficiency:.0%}", left + used - granted, basis),
    )
    return exactly(round(left, 6), basis), terms
