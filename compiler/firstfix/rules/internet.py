"""How the network hangs on the provider's line."""

from collections.abc import Iterator

from firstfix.build.hardware import Jack
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Level
from firstfix.parts.facts import Unknown
from firstfix.rules.rule import Fine, Outcome, Rule, rule


@rule("double-translation", Level.NOTE, Basis("RFC 2993", "from memory"))
def double_translation(build: Build) -> Iterator[Outcome]:
    """The provider's box and the plan's router do not both translate addresses.

    Because: what is to be reached from outside must then be let in at both, and some calls and games fail.
    Compares: `translates:` under `internet` with the routers of the plan behind the box, each of which translates.
    Skips: plans that say nothing of `internet`.
    Cannot tell: a plan that does not say whether the box translates.
    Remedy: have the provider set the box to pass everything on, and let the plan's router translate alone.
    """
    line = build.internet
    if line is None or line.through not in build.devices:
        return
    routers = [
        each for each in build.devices.values() if each.part.routes is True and each.id != line.through
    ]
    if not routers:
        yield Fine(line.through)
        return
    at = build.provenance.span("internet:", "translates")
    if isinstance(line.translates, Unknown):
        yield double_translation.cannot_tell(line.through, at, line.translates.why)
    elif line.translates:
        names = " and ".join(f"'{each.name}'" for each in routers)
        box = build.devices[line.through].name
        yield double_translation.finding(
            f"'{box}' translates addresses, and behind it so does {names}: what is to come in from outside passes two translations",
            line.through,
            at,
            cures=(Cure(f"have '{box}' set to pass everything on to {names} (the provider can tell how)"),),
        )
    else:
        yield Fine(line.through)


@rule("line-inside", Level.ERROR, COMMON_PRACTICE)
def line_inside(build: Build) -> Iterator[Outcome]:
    """The provider's line comes in at the router's outside.

    Because: plugged in at one of its inside jacks, the line is one more thing of the house: nothing routes, no firewall stands before
        it, and two boxes lend addresses at once.
    Compares: for each channel from a jack that faces the line: that it doesn't end at an inside jack of a router (an error), nor at a
        switch while no router has anything at its outside (a warning).
    Skips: plans without a router of their own, where the provider's box is the router.
    Remedy: plug it in at the router's outside jack.
    """
    routers = {device.id for device in build.devices.values() if device.part.routes is True}
    outer = _at_outsides(build)
    guarded = not routers or any(line.device in routers for line, _ in outer)
    for line, inner in outer:
        if line.device in routers or inner.side == "outside":
            yield Fine(inner.device)
        elif inner.device in routers:
            yield _inside(build, line, inner, "an inside jack of the router", Level.ERROR)
        elif not guarded:
            yield _inside(build, line, inner, "and no router has anything at its outside", Level.WARNING)
        else:
            yield Fine(inner.device)


def _at_outsides(build: Build) -> list[tuple[Jack, Jack]]:
    """The two ends of each channel with one at a jack that faces the line, that one first."""
    facing: dict[str, bool] = {}
    outside: set[str] = set()
    for device in build.devices.values():
        part = device.part
        if part.name not in facing:
            facing[part.name] = any(spec.side == "outside" for spec in part.jacks)
        if facing[part.name]:
            jacks = (build.jacks[each] for each in build.jacks_of[device.id])
            outside.update(jack.id for jack in jacks if jack.side == "outside")
    return [
        (build.jacks[end], build.jacks[other])
        for channel in build.channels.values()
        for end, other in (channel.ends, channel.ends[::-1])
        if end in outside
    ]


def _inside(build: Build, line: Jack, inner: Jack, what: str, level: Level) -> Outcome:
    box, device = build.devices[line.device].name, build.devices[inner.device]
    return line_inside.finding(
        f"the line of '{box}' comes in at '{device.name}/{inner.name}', {what}",
        device.id,
        build.provenance.span(line.device),
        cures=(Cure("plug it in at the router's outside jack"),),
        level=level,
    )


RULES: tuple[Rule, ...] = (double_translation, line_inside)
