"""How the network hangs on the provider's line."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Level
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


RULES: tuple[Rule, ...] = (double_translation,)
