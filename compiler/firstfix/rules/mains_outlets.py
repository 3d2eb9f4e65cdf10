"""Rules on what is plugged in where: adaptors that cover their neighbours, and UPSs plugged into strips.

Takes a build; yields one outcome for each strip or UPS with anything in it.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level, Measurement, Term
from firstfix.graphs.mains_load import mains_loads, strips
from firstfix.parts.facts import AUTHOR, Fact
from firstfix.parts.part import MAINS_KINDS
from firstfix.physics.mains import TURNING, outlets_needed
from firstfix.rules.mains_loads import ELECTRICIAN
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.typical import rests_on


@rule("outlets-covered", Level.ERROR, COMMON_PRACTICE)
def outlets_covered(build: Build) -> Iterator[Outcome]:
    """Whether all plugs find room on a strip or UPS, with adaptors that cover the outlets beside their own.

    Because: eight outlets take eight plugs, but only four of the adaptors that come with small things.
    Compares: outlets that its plugs take and cover, at the best arrangement in one row <= its outlets. An adaptor takes its own and
        covers as many as its part says (`blocks`); two never cover the same one; at each end of the row an adaptor may stand
        over. Where it fits only if adaptors can be turned either way round, it is a warning; plugs of kind C, F and L can
        (`mains: {plug: F}` of the plan).
    Skips: a room's own outlets, of which nobody says how they lie; adaptors with unknown `blocks` where the rest leaves room.
    Cannot tell: an adaptor that does not say how many outlets it covers.
    Remedy: a short lead between adaptor and strip, a strip with its outlets further apart, or one with more of them.
    """
    loads = None
    for strip in strips(build):
        loads = loads or mains_loads(build)
        yield _covered(build, strip, loads.plugged_into(strip.id))


def _blocks(device: Device) -> int | None:
    """How many outlets its adaptor covers beside its own; None where it is one and doesn't say."""
    mains = device.part.mains
    if mains.inlet != "adaptor":
        return 0
    return int(mains.blocks.high) if isinstance(mains.blocks, Fact) else None


def _basis(device: Device) -> str:
    blocks = device.part.mains.blocks
    return blocks.basis if isinstance(blocks, Fact) else ""


def _covered(build: Build, strip: Device, plugged: tuple[Device, ...]) -> Outcome:
    at = build.provenance.span(strip.id, "part")
    blocks = [_blocks(each) for each in plugged]
    known = [each or 0 for each in blocks]
    outlets = strip.part.mains.outlets
    best = outlets_needed(known, True)
    fixed = best if build.mains.plug in TURNING else outlets_needed(known, False)
    if best <= outlets and None in blocks:
        unknown = (each for each, block in zip(plugged, blocks, strict=True) if block is None)
        return outlets_covered.cannot_tell(strip.id, at, *(f"how many outlets '{each.name}' covers (`mains: {{blocks: …}}`)" for each in unknown))  # fmt: skip
    if fixed <= outlets:
        return Fine(strip.id)
    needed, level = (best, Level.ERROR) if best > outlets else (fixed, Level.WARNING)
    how = "at the best arrangement" if level is Level.ERROR else "unless adaptors can be turned either way round"  # fmt: skip
    adaptors = [pair for pair in zip(plugged, known, strict=True) if pair[1]]
    return outlets_covered.finding(
        f"'{strip.name}' has {outlets} outlets, and what is plugged in takes and covers {needed} {how}",
        strip.id,
        at,
        related=(
            *(Label(build.provenance.span(each.id, "part"), f"its adaptor covers {block} beside its own") for each, block in adaptors),
            ELECTRICIAN, *rests_on(*(each.part.mains.blocks for each, _ in adaptors)),
        ),
        measurement=Measurement(
            f"outlets of '{strip.name}' taken and covered", needed, "at most", outlets, "",
            (
                Term("plugs", len(plugged), AUTHOR),
                *(Term(f"covered by '{each.name}'", block, _basis(each)) for each, block in adaptors),
                Term("stands over the ends of the row", needed - len(plugged) - sum(known), "common practice, no source"),
            ),
            f"outlets of '{strip.part.name}'",
        ),
        cures=(Cure("put a short lead between an adaptor and the strip, or take a strip with more outlets or wider apart"),),
        level=level,
    )  # fmt: skip


@rule("backup-chain", Level.WARNING, COMMON_PRACTICE)
def backup_chain(build: Build) -> Iterator[Outcome]:
    """No UPS is plugged into a power strip or into another UPS.

    Because: a strip between wall and UPS is one more thing that is switched off by a knee, and charging adds to its load; a UPS on
        another's battery sees odd mains and drains it, or both trip.
    Compares: what feeds each UPS: only the wall.
    Skips: strips behind a UPS, which strip-load weighs; strips on strips, which no plan may say.
    Remedy: plug the UPS into the wall (`power: wall`).
    """
    chained = {
        device.id: (device, strip)
        for strip in strips(build)
        for device in mains_loads(build).plugged_into(strip.id)
        if device.part.kind == "ups"
    }
    for device, strip in chained.values():
        yield _chained(build, device, strip)
    for each in strips(build):
        if each.part.kind == "ups" and each.id not in chained:
            yield Fine(each.id)


def _chained(build: Build, device: Device, strip: Device) -> Outcome:
    what = "the UPS" if strip.part.kind == "ups" else "the power strip"
    return backup_chain.finding(
        f"the UPS '{device.name}' is plugged into {what} '{strip.name}'",
        device.id,
        build.provenance.span(device.id, "power") or build.provenance.span(device.id, "part"),
        related=(Label(build.provenance.span(strip.id, "part"), "feeds it"), ELECTRICIAN),
        cures=(Cure("plug it into the wall: 'power: wall'"),),
    )


@rule("feeds-nothing", Level.NOTE, COMMON_PRACTICE)
def feeds_nothing(build: Build) -> Iterator[Outcome]:
    """A power strip or UPS that is bought has something plugged into it.

    Because: it is bought, mounted and earthed for nothing, or what it was meant for hangs on another.
    Compares: the things of the plan that are plugged into it: at least one.
    Skips: strips and UPSs that are there already (`owned: true`).
    Cannot tell: one of which nobody can say where it stands.
    Remedy: say what it feeds (`power:` of the device), or leave it out.
    """
    used = {feed.source for feed in build.mains_feeds}
    for device in build.devices.values():
        if device.part.kind not in MAINS_KINDS or device.is_owned:
            continue
        if device.id in used:
            yield Fine(device.id)
            continue
        if not device.room:
            at = build.provenance.span(device.id)
            yield feeds_nothing.waits(device.id, at, "what is near it: the room it stands in is not known")
            continue
        what = "UPS" if device.part.kind == "ups" else "power strip"
        yield feeds_nothing.finding(
            f"nothing is plugged into the {what} '{device.name}'",
            device.id,
            build.provenance.span(device.id),
            cures=(Cure(f"say what it feeds, 'power: {device.name}' at a device, or leave it out"),),
        )


RULES: tuple[Rule, ...] = (outlets_covered, backup_chain, feeds_nothing)
