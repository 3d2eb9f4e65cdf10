"""Rules on Power over Ethernet, run by run: the class that is granted, the cable between, and who gets no power at all.

Takes a build; yields outcomes for each power run, and for each device that needs power. Budgets are in poe_budget.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.physics.copper import Loop
from firstfix.physics.poe import Delivery, Infeasible, delivery_to_device
from firstfix.physics.range import at_least, at_most
from firstfix.rules.power_path import device_of, granted_row, loop_of, name_of, rests_on
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
        compared by its own use; what is left for others is poe-budget's. Demoted but sufficient is a warning.
    Skips: devices on the mains.
    Cannot tell: a device whose class or draw is not known, or a source whose class is not known.
    Remedy: a jack or an injector that gives the class asked for, or a device that is content with less.
    """
    for run in build.power_runs.values():
        yield _judge_class(build, run)


def _judge_class(build: Build, run: PowerRun) -> Outcome:
    device = build.devices[device_of(build, run.sink)]
    at = build.provenance.span(device.id, "part")
    need = _own_need(device, run)
    missing = [each.why for each in (run.asked, run.port_class) if isinstance(each, Unknown)]
    if isinstance(need, Unknown):
        missing.append(f"the part '{device.part.name}' does not say what it draws")
    if (
        missing
        or isinstance(run.asked, Unknown)
        or isinstance(run.granted, Unknown)
        or isinstance(need, Unknown)
    ):
        return poe_class_granted.cannot_tell(run.id, at, *_named(build, run, missing))
    asked = classes()[int(run.asked.typical)]
    row = granted_row(run)
    granted = run.granted.low
    if row is not None and at_most(need.high, granted) and at_most(asked.pd_power_w, granted):
        return Fine(run.id)
    given = "no class at all" if row is None else f"class {row.number}"
    who = f"'{device.name}' asks for class {asked.number} and is granted {given}"
    enough = at_most(need.high, granted)
    tail = (
        f"enough for the {watts(need.high)} it draws at the most"
        if enough
        else f"but draws up to {watts(need.high)}"
    )
    return poe_class_granted.finding(
        f"{who}: {watts(granted)}, {tail}",
        run.id,
        at,
        related=(_source_label(build, run), *rests_on(need, run.asked)),
        measurement=Measurement(
            f"draw of '{device.name}'", need.high, "at most", granted, "W", (Term("its greatest draw", need.high, need.basis),)
        ),
        cures=_class_cures(build, device, asked),
        level=Level.WARNING if enough and row is not None else Level.ERROR,
        basis=None if row is None else row.basis,
    )  # fmt: skip


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
    return Label(build.provenance.span(source.id, "part"), text)


def _class_cures(build: Build, device: Device, asked: PoeClass) -> tuple[Cure, ...]:
    wanted = f"class {asked.number} ({watts(asked.pse_power_w)} at the source)"
    found = sorted(
        part.name
        for part in build.library.values()
        if part.kind == "injector" and part.gives_poe is not None and isinstance(part.gives_poe.poe_class, Fact)
        and part.gives_poe.poe_class.low >= asked.number
    )  # fmt: skip
    cures = [Cure(f"feed '{device.name}' from a jack that gives {wanted}")]
    if found:
        cures.append(Cure(f"put an injector in the run, such as '{found[0]}', which gives {wanted}"))
    return tuple(cures)


@rule("poe-reach", Level.ERROR, _LOOP)
def poe_reach(build: Build) -> Iterator[Outcome]:
    """The cable between a source of PoE and its device, against the resistance and voltage that the class allows.

    Because: a thin or long cable turns the power into warmth; the device sees too low a voltage under load and restarts.
    Compares: loop resistance over the powered pairs [ohm] <= the class's; voltage at the device under its greatest draw,
        with the source at its lowest voltage [V] >= the least of the class's type. Warm ways count at their temperature,
        others at 20 °C.
    Skips: runs that are granted no power; poe-class has those.
    Cannot tell: a length, a gauge or a class is not known.
    Remedy: a shorter way, a thicker gauge, copper for copper-clad aluminium, or an injector nearer to the device.
    """
    # Big sites repeat the same few shapes; what was fine once is fine again.
    known_fine: set[object] = set()
    for run in build.power_runs.values():
        if isinstance(run.granted, Fact) and run.granted.high <= 0:
            continue
        pieces = (build.pieces[each] for each in run.pieces)
        laid = tuple((each.part, each.length.figure, each.route) for each in pieces)
        shape = (laid, run.connections, run.assigned, run.granted, run.drawn)
        outcome = Fine(run.id) if shape in known_fine else _judge_reach(build, run)
        if isinstance(outcome, Fine):
            known_fine.add(shape)
        yield outcome


def _judge_reach(build: Build, run: PowerRun) -> Outcome:
    at = build.provenance.span(build.channels[run.channel].link)
    row = granted_row(run)
    if row is None or isinstance(run.granted, Unknown):
        return poe_reach.cannot_tell(
            run.id, at, *_named(build, run, ["the class that is granted is not known"])
        )
    loop = loop_of(build, run, row)
    if isinstance(loop, Unknown):
        return poe_reach.cannot_tell(run.id, at, loop.why)
    power = min(run.drawn.high, run.granted.low) if isinstance(run.drawn, Fact) else run.granted.low
    given = delivery_to_device(power, row.pse_min_v, loop.ohms)
    least = types()[row.type].pd_min_v
    if not at_most(loop.ohms, row.loop_ohm):
        measurement = Measurement(
            f"loop resistance over {row.pairs} pairs", loop.ohms, "at most", row.loop_ohm, "Ω", tuple(Term(*each) for each in loop.terms)
        )  # fmt: skip
    elif isinstance(given, Infeasible):
        measurement = Measurement("power to the device", given.asked_w, "at most", given.most_w, "W")
    elif not at_least(given.device_v, least):
        measurement = _voltage(row, given, least, loop)
    else:
        return Fine(run.id)
    return poe_reach.finding(
        f"the cable from '{name_of(build, run.source)}' to '{name_of(build, run.sink)}' has too much resistance for class {row.number}: "
        + _arrives(given, power, row),
        run.id,
        at,
        related=(_source_label(build, run), *_sink_label(build, run, power), *rests_on(run.drawn)),
        measurement=measurement,
        cures=_reach_cures(build, run, row, loop),
        basis=Basis(row.basis.document, f"{row.basis.clause}, loop resistance from memory"),
    )  # fmt: skip


def _arrives(given: Delivery | Infeasible, power: float, row: PoeClass) -> str:
    if isinstance(given, Infeasible):
        return f"{watts(power)} cannot cross it at all"
    return f"at {watts(power)}, {number(given.device_v)} V of {number(row.pse_min_v)} V arrive"


def _voltage(row: PoeClass, given: Delivery, least: float, loop: Loop) -> Measurement:
    drops = tuple(
        Term(f"lost in {each.what}", -given.current_a * each.value, each.source) for each in loop.terms
    )
    terms = (Term("lowest voltage of the source", row.pse_min_v, str(row.basis)), *drops)
    return Measurement("voltage at the device", given.device_v, "at least", least, "V", terms)


def _sink_label(build: Build, run: PowerRun, power: float) -> tuple[Label, ...]:
    span = build.provenance.span(device_of(build, run.sink), "part")
    return (Label(span, f"'{name_of(build, run.sink)}' is reckoned at {watts(power)}"),)


def _reach_cures(build: Build, run: PowerRun, row: PoeClass, loop: Loop) -> tuple[Cure, ...]:
    """By how much the run's longest piece must be shorter, its resistance being spread evenly along it."""
    over = loop.ohms - row.loop_ohm
    pieces = [(piece.length.figure, term.value) for piece, term in zip(map(build.pieces.__getitem__, run.pieces), loop.terms, strict=False)]  # fmt: skip
    longest = max(((each.high, ohms) for each, ohms in pieces if isinstance(each, Fact)), default=(0.0, 0.0))
    cures = [
        Cure("take a thicker gauge of solid copper, such as 23 AWG, or put an injector nearer to the device")
    ]
    if 0 < over < longest[1]:
        shorter = over / longest[1] * longest[0]
        cures.insert(
            0, Cure(f"make its longest piece ({metres(longest[0])}) {metres(shorter)} shorter, or more")
        )
    return tuple(cures)


@rule("unpowered", Level.ERROR, COMMON_PRACTICE)
def unpowered(build: Build) -> Iterator[Outcome]:
    """Whether each thing that needs power gets any, by PoE or from the mains.

    Because: everything is on the wall, and one thing stays dark since its channel ends at a jack that gives no PoE.
    Compares: the count of its feeds >= 1
    Skips: passive things, and those that draw nothing; devices that are denied a class (poe-class has those).
    Cannot tell: a device on a link that has a fault, one that does not say how it is fed, a splitter in a run.
    Remedy: a jack that gives PoE, an injector in the run, a mains outlet.
    """
    by_poe = {device_of(build, run.sink) for run in build.power_runs.values()}
    by_mains = {feed.device for feed in build.mains_feeds}
    unsure = _unsettled(build)
    wired: _Wired | None = None
    for device in build.devices.values():
        if not _needs_power(device):
            continue
        if device.id in by_poe or device.id in by_mains:
            yield Fine(device.id)
            continue
        at = build.provenance.span(device.id, "part")
        if device.id in unsure:
            yield unpowered.cannot_tell(device.id, at, "what should feed it has a fault of its own")
        elif device.part.kind == "splitter":
            yield unpowered.cannot_tell(device.id, at, "what feeds a splitter within a run is not worked out")
        elif device.part.takes_poe is None and not device.part.mains.inlet:
            yield unpowered.cannot_tell(
                device.id, at, f"the part '{device.part.name}' does not say how it is fed"
            )
        else:
            wired = wired or _Wired(build)
            yield unpowered.finding(
                wired.why(device), device.id, at, related=wired.places(device), cures=_feeding_cures(device)
            )


def _needs_power(device: Device) -> bool:
    part = device.part
    if part.takes_poe is not None or part.mains.inlet:
        return True
    if part.kind not in ACTIVE_KINDS:
        return False
    return isinstance(part.draw, Unknown) or part.draw.high > 0


def _unsettled(build: Build) -> frozenset[str]:
    """Devices whose feed may hang on a fault that has its own finding already."""
    found = set(build.unsettled)
    for gap in build.gaps:
        link = build.links.get(gap.subject)
        found.update(link.hops if link is not None else (gap.subject,))
    return frozenset(found)


class _Wired:
    """What is plugged in at each jack, to say why a device gets no power."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._beyond: dict[str, tuple[str, str]] = {}
        for channel in build.channels.values():
            near, far = channel.ends
            self._beyond[near] = (far, channel.id)
            self._beyond[far] = (near, channel.id)
        self._loose = {
            jack: end.jack for end in build.open_ends for piece in end.pieces for jack in build.pieces[piece].ends
        }  # fmt: skip

    def why(self, device: Device) -> str:
        takes = device.part.takes_poe
        if takes is None:
            return f"'{device.name}' needs mains, and no outlet feeds it"
        only = (
            "PoE or mains, and no outlet feeds it; as to PoE, it"
            if device.part.mains.inlet
            else "PoE only and"
        )
        return f"'{device.name}' takes {only} {self._at_jacks(device, takes.jacks)}"

    def _at_jacks(self, device: Device, taking: tuple[str, ...]) -> str:
        jacks = [self._build.jacks[each] for each in self._build.jacks_of[device.id]]
        used = [jack for jack in jacks if jack.id in self._beyond]
        for jack in used:
            if jack.power == "takes":
                far, channel = self._beyond[jack.id]
                blocker, how = self._blocker(channel)
                if blocker:
                    return f"has '{blocker}' in its channel, which {how}"
                end = self._build.jacks[far]
                return f"its channel ends at '{name_of(self._build, far)}/{end.name}', which gives none"
        loose = [self._loose[jack.id] for jack in jacks if jack.id in self._loose]
        if loose:
            end = self._build.jacks[loose[0]]
            return f"its cable ends at '{name_of(self._build, end.id)}/{end.name}' and leads no further"
        if used:
            return f"is plugged in at jack '{used[0].name}', but takes power at '{', '.join(taking)}'"
        return "is plugged into nothing"

    def _blocker(self, channel: str) -> tuple[str, str]:
        """What keeps power from the device, and how. An injector that doesn't feed it stands the wrong way round."""
        hows = {
            "blocks": "lets no power pass",
            "injects": "is the wrong way round and gives power the other way",
        }
        for each in self._build.channels[channel].through:
            device = self._build.devices[each]
            for one in device.part.passes:
                if one.power in hows:
                    return device.name, hows[one.power]
        return "", ""

    def places(self, device: Device) -> tuple[Label, ...]:
        found = []
        for jack in self._build.jacks_of[device.id]:
            if jack in self._beyond:
                far = self._build.jacks[self._beyond[jack][0]].device
                span = self._build.provenance.span(far, "part")
                found.append(Label(span, f"'{self._build.devices[far].name}' is at the other end"))
        return tuple(found)


def _feeding_cures(device: Device) -> tuple[Cure, ...]:
    takes = device.part.takes_poe
    if takes is None:
        return (Cure(f"say where '{device.name}' is plugged in with 'power:', or count a free outlet in its room with 'mains:'"),)  # fmt: skip
    jack = f"'{device.name}/{takes.jacks[0]}'" if takes.jacks else f"'{device.name}'"
    asked = f" of class {int(takes.poe_class.typical)}" if isinstance(takes.poe_class, Fact) else ""
    return (Cure(f"run {jack} to a jack that gives PoE{asked}, or put an injector{asked} in its run"),)


RULES: tuple[Rule, ...] = (poe_class_granted, poe_reach, unpowered)
