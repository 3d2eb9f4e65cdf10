"""Things that lead nowhere: devices with no way up, jacks wired on one side, outlets nobody patched, runs into the void."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.cabling import OpenEnd
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.graphs.wired import wired_channels, wired_jacks, wired_parts, wired_pieces
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import ACTIVE_KINDS, CAGE_FAMILIES, FIBRE_FAMILIES, CableForm, Part
from firstfix.rules.rule import FineMany, Outcome, Rule, rule

# What others hang on.
_IN_THE_MIDDLE = ("switch", "gateway")


@rule("device-cut-off", Level.ERROR, COMMON_PRACTICE)
def device_cut_off(build: Build) -> Iterator[Outcome]:
    """Every device that has a data jack is wired, and the wiring leads to the network's router.

    Because: a device that is bought and mounted but reaches nothing is found out on the last day.
    Compares: the channels between devices with the part of the network in which the router is (without one, the largest part).
        What hangs together without a way up is one finding.
    Skips: panels, outlets, strips and in-line things, which have rules of their own.
    Cannot tell: a device whose run has a fault of its own.
    Remedy: add a run under `links:`, or `plugs-into:` at the device.
    """
    each = device_cut_off
    active = {device.id: device for device in build.devices.values() if _must_be_wired(device)}
    parts = wired_parts(build)
    home = _home(build, parts)
    fine = home & active.keys()
    yield FineMany(len(fine))
    wired = {device for part in parts for device in part}
    adrift: set[str] = set()
    for device in active.values():
        if device.id in fine:
            continue
        at = build.provenance.span(device.id)
        if device.id in build.unsettled:
            yield each.waits(device.id, at, f"the run that names '{device.name}' has a fault")
        elif device.id not in wired:
            cure = Cure("add a run, such as `plugs-into: NAME` at the device")
            yield each.finding(f"'{device.name}' is wired to nothing", device.id, at, cures=(cure,))
        elif not build.unsettled:
            adrift.add(device.id)
        else:
            yield each.waits(device.id, at, "a run that might join it to the rest has a fault")
    yield from _no_way_up(build, parts, adrift)


def _no_way_up(build: Build, parts: list[list[str]], adrift: set[str]) -> Iterator[Outcome]:
    """One finding for each part of the network that hangs together: it is one run that all of it lacks."""
    order = {device: place for place, device in enumerate(build.devices)}
    for part in parts if adrift else ():
        # A switch first: what is behind it hangs on it.
        ranked = sorted(
            adrift.intersection(part),
            key=lambda id_: (build.devices[id_].part.kind not in _IN_THE_MIDDLE, order[id_]),
        )
        if ranked:
            head, *others = (build.devices[id_] for id_ in ranked)
            names = f"'{head.name}'" if not others else f"'{head.name}' and {_counted(others)}"
            has, its = ("have", "their") if others else ("has", "its")
            yield device_cut_off.finding(
                f"{names} {has} no way up: {its} wiring does not lead to the router",
                head.id,
                build.provenance.span(head.id),
                tuple(Label(build.provenance.span(other.id), f"joined to '{head.name}'") for other in others),
            )


def _counted(others: list[Device]) -> str:
    return f"'{others[0].name}'" if len(others) == 1 else f"{len(others)} devices joined to it"


def _must_be_wired(device: Device) -> bool:
    return device.part.kind in ACTIVE_KINDS and bool(device.part.jacks)


def _home(build: Build, parts: list[list[str]]) -> set[str]:
    """The part with a router in it; of several, or of none, the largest."""
    if not parts:
        return set()
    ranked = [
        (any(build.devices[each].part.routes is True for each in part), len(part), part) for part in parts
    ]
    return set(max(ranked, key=lambda each: each[:2])[2])


def _open(build: Build, kinds: tuple[str, ...]) -> Iterator[tuple[OpenEnd, Device]]:
    for end in build.open_ends:
        device = build.devices[build.jacks[end.jack].device]
        if device.part.kind in kinds:
            yield end, device


def _wired_on_a_side(build: Build, kinds: tuple[str, ...]) -> int:
    """How many jacks of such devices have a cable on at least one side, front and rear as one."""
    wired, jacks = wired_jacks(build), build.jacks
    devices = (id_ for id_, device in build.devices.items() if device.part.kind in kinds)
    return sum(len({jacks[jack].name for jack in build.jacks_of[id_] if jack in wired}) for id_ in devices)


def _half_wired(build: Build, each: Rule, kinds: tuple[str, ...], message: str) -> Iterator[Outcome]:
    faulty: set[str] = set()
    for end, device in _open(build, kinds):
        jack = build.jacks[end.jack]
        subject = f"jack:{device.name}/{jack.name}"
        at = build.provenance.span(build.pieces[end.pieces[0]].link) or build.provenance.span(device.id)
        faulty.add(subject)
        if device.id in build.unsettled:
            yield each.waits(subject, at, f"another run that names '{device.name}' has a fault")
            continue
        other = (
            "front"
            if jack.face == "rear"
            else "rear"
            if device.part.kind in ("panel", "outlet")
            else "other side"
        )
        yield each.finding(
            message.format(jack=f"{device.name}/{jack.name}", wired=jack.face, other=other), subject, at
        )
    yield FineMany(max(0, _wired_on_a_side(build, kinds) - len(faulty)))


@rule("panel-jack-half-wired", Level.WARNING, COMMON_PRACTICE)
def panel_jack_half_wired(build: Build) -> Iterator[Outcome]:
    """A panel's jack that is wired at one side is wired at the other too.

    Because: a run that ends at the panel carries nothing; a cord into an empty opening even less.
    Compares: what is wired at front and rear of each jack.
    Cannot tell: another run that names the panel has a fault.
    Remedy: let the run go on to a switch (`[…, panel, core]`), or leave it as it is if it waits for later.
    """
    yield from _half_wired(
        build,
        panel_jack_half_wired,
        ("panel",),
        "'{jack}' is wired at its {wired}, but nothing is at its {other}",
    )


@rule("outlet-unpatched", Level.NOTE, COMMON_PRACTICE)
def outlet_unpatched(build: Build) -> Iterator[Outcome]:
    """An outlet's jack that is wired has something plugged in, and an outlet has at least one jack wired.

    Because: an outlet without a run behind it is a plate on a wall; one without a cord may be meant for later, so it is a note only.
    Compares: what is wired at front and rear of each jack; an outlet without any wiring is a warning.
    Remedy: begin the run with the device (`[desk, outlet/1, panel, core]`).
    """
    each = outlet_unpatched
    yield from _half_wired(
        build, each, ("outlet",), "'{jack}' is wired at its {wired}, but nothing is plugged into its {other}"
    )
    wired = wired_jacks(build)
    for device in build.devices.values():
        if device.part.kind != "outlet" or device.id in build.unsettled:
            continue
        if wired.isdisjoint(build.jacks_of[device.id]):
            at = build.provenance.span(device.id)
            yield each.finding(
                f"no run comes to the outlet '{device.name}'", device.id, at, level=Level.WARNING
            )


@rule("run-to-nowhere", Level.ERROR, COMMON_PRACTICE)
def run_to_nowhere(build: Build) -> Iterator[Outcome]:
    """A run does not end at a thing that only stands in line: an injector, a surge protector, a coupler.

    Because: such a thing has two sides, and what comes in at one must go on at the other.
    Compares: the ends of each run with the kinds of its devices.
    Cannot tell: another run that names the thing has a fault.
    Remedy: let the run go on (`[camera, injector, core]`).
    """
    kinds = ("injector", "surge-protector", "coupler", "splitter")
    yield from _half_wired(
        build, run_to_nowhere, kinds, "the run ends at '{jack}', whose other side leads nowhere"
    )


@rule("jack-family", Level.ERROR, COMMON_PRACTICE)
def jack_family(build: Build) -> Iterator[Outcome]:
    """A cable's plugs mate with the jacks at both its ends.

    Because: an eight-contact plug (IEC 60603-7) does not enter a transceiver cage, nor a twinax assembly a copper jack.
    Compares: the cable's medium with the family of each jack; a fibre or copper enters a cage through a transceiver for it. A fibre cord's plugs with
        the family of the jack, coupler or transceiver: LC (IEC 61754-20) and SC (IEC 61754-4) do not mate.
    Remedy: another jack, another cable part (`cable:` or `cord:` at the link), or a device with such a jack.
    """
    fine = 0
    mates: dict[str, tuple[str, ...]] = {}
    for piece, near, far in wired_pieces(build):
        form = build.library[piece.part].cable
        if form is None:
            continue
        if piece.part not in mates:
            mates[piece.part] = _mates(build, build.library[piece.part], form)
        good = mates[piece.part]
        if near.family in good and far.family in good:
            fine += 1
            continue
        for jack in (near, far):
            if jack.family in good:
                continue
            name = f"{ids.path(jack.device)}/{jack.name}"
            message = f"the {form.medium} '{piece.part}' does not mate with '{name}', which is of the family {jack.family}"
            yield jack_family.finding(message, piece.id, build.provenance.span(piece.link))
    yield from _unlike_cages(build)
    yield FineMany(fine)


def _mates(build: Build, part: Part, form: CableForm) -> tuple[str, ...]:
    """Families of jacks that take the part's plugs; installed fibre is spliced to whatever its panel has."""
    modules = list(parts_of_kind(build.library, "transceiver"))
    if form.medium == "copper":
        return ("rj45", *(each.fits for each in modules if any(jack.family == "rj45" for jack in each.jacks)))
    if form.medium == "twinax":
        # One for SFP+ runs at 10 Gb/s only, which a cage for SFP does not.
        return (form.family,) if form.family == "sfp-plus" else CAGE_FAMILIES
    if form.medium != "fibre" or part.kind != "cord" or form.family not in FIBRE_FAMILIES:
        return (*CAGE_FAMILIES, *FIBRE_FAMILIES) if form.medium == "fibre" else ()
    cages = {each.fits for each in modules if any(jack.family == form.family for jack in each.jacks)}
    return (form.family, *(cage for cage in CAGE_FAMILIES if cage in cages))


def _unlike_cages(build: Build) -> Iterator[Outcome]:
    """Fibre between an SFP and an SFP+ cage: each gets a module of its own rate, and the two never agree on one."""
    for channel, near, far in wired_channels(build):
        if channel.medium != "fibre" or {near.family, far.family} != set(CAGE_FAMILIES):
            continue
        one, other = (f"'{ids.path(jack.device)}/{jack.name}'" for jack in (near, far))
        message = f"{one} is a cage for {near.family} and {other} for {far.family}: their modules differ in rate, so no light is understood"
        fast = one if near.family == "sfp-plus" else other
        cure = Cure(
            f"if the data sheet of {fast} says that its cage takes SFP modules as well, give it a part of your own "
            "with `family: sfp, rate: 1 Gb/s` at that jack"
        )
        yield jack_family.finding(message, channel.id, build.provenance.span(channel.link), cures=(cure,))


RULES: tuple[Rule, ...] = (
    device_cut_off,
    panel_jack_half_wired,
    outlet_unpatched,
    run_to_nowhere,
    jack_family,
)
