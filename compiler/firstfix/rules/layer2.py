"""Loops between bridges."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Finding, Label, Level
from firstfix.graphs.layer2 import PLAIN, whole_layer2
from firstfix.graphs.loops import Loop, loops
from firstfix.parts.facts import Unknown
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.wording import listed

_BASIS = Basis("IEEE Std 802.1Q", "spanning tree")


@rule("layer2-loop", Level.ERROR, _BASIS)
def layer2_loop(build: Build) -> Iterator[Outcome]:
    """Whether frames can go round for ever between bridges: cords back to the same one, links side by side, rings.

    Because: a broadcast that goes round multiplies until nothing else gets through; the whole network stands still.
    Compares: each loop that a VLAN, or everything, can go all the way round, with who of its bridges speaks spanning tree. All: it
    is cut, and a note asks whether it is meant. Some: a warning, for it is cut only if the others pass spanning tree's frames, which is
    common but not by the standard. None: an error. Lanes of one link at a bridge without settings are links side by side.
    Skips: rings that no VLAN goes all the way round; loops with a link that is spare-for something, where all bridges speak spanning tree
    Cannot tell: whether a device in a loop bridges at all, or speaks spanning tree, where its part does not say
    Remedy: take the closing link away; or make links side by side one with lanes: 2, where both ends can do it; or use bridges that
    speak spanning tree and say with spare-for what the link backs up
    """
    view = whole_layer2(build)
    found = loops(view, lambda join: bool(build.links[join.link].spare_for))
    looped = {loop.closing.link for loop in found}
    for link in sorted({join.link for join in view.joins} - looped):
        yield Fine(link)
    for loop in found:
        yield _judge(build, loop)


def _judge(build: Build, loop: Loop) -> Outcome:
    link = loop.closing.link
    unknown = _unknown(build, loop)
    if unknown:
        return layer2_loop.cannot_tell(link, build.provenance.span(link), *unknown)
    silent = [each for each in loop.devices if build.devices[each].part.spanning_tree is False]
    if not silent:
        meant = any(build.links[join.link].spare_for for join in loop.joins)
        why = "spanning tree will cut it, and no link says that it is meant"
        return Fine(link) if meant else _finding(build, loop, why, Level.NOTE, _BASIS)
    if len(silent) < len(loop.devices):
        names = listed(ids.path(each) for each in silent)
        why = f"it is cut only if {names} {_passes(silent)} on the spanning-tree frames of the others"
        return _finding(build, loop, why, Level.WARNING, COMMON_PRACTICE)
    why = "none of its bridges speaks spanning tree" if len(silent) > 1 else "it doesn't speak spanning tree"
    return _finding(build, loop, why, Level.ERROR, _BASIS)


def _passes(bridges: list[str]) -> str:
    return "passes" if len(bridges) == 1 else "pass"


def _unknown(build: Build, loop: Loop) -> list[str]:
    missing: list[str] = []
    for each in loop.devices:
        part = build.devices[each].part
        if isinstance(part.bridges, Unknown):
            missing.append(f"whether '{ids.path(each)}' bridges between its jacks")
        elif isinstance(part.spanning_tree, Unknown):
            missing.append(f"whether '{ids.path(each)}' speaks spanning tree")
    return missing


def _finding(build: Build, loop: Loop, why: str, level: Level, basis: Basis) -> Finding:
    link = loop.closing.link
    others = dict.fromkeys(join.link for join in loop.joins if join.link != link)
    related = tuple(Label(build.provenance.span(each), "part of the loop") for each in others)
    message = f"{_shape(loop)}{_what_loops(build, loop)}; {why}"
    return layer2_loop.finding(
        message, link, build.provenance.span(link), related, cures=_cures(loop), level=level, basis=basis
    )


def _shape(loop: Loop) -> str:
    names = [ids.path(each) for each in loop.devices]
    if len(names) == 1:
        return f"a cord joins '{names[0]}' to itself"
    if len(names) == 2:
        split = " (one link's lanes, but an end without settings can't make one of them)"
        return f"'{names[0]}' and '{names[1]}' are joined {_times(len(loop.joins))}{split if loop.closing.split else ''}"
    return f"{listed(names)} form a ring"


def _times(count: int) -> str:
    return "twice" if count == 2 else f"{count} times"


def _what_loops(build: Build, loop: Loop) -> str:
    named = [build.vlans[each].name for each in loop.vlans if each != PLAIN]
    if not named:
        return ""
    return f", and the VLAN{'s' if len(named) > 1 else ''} {listed(named)} go{'' if len(named) > 1 else 'es'} all the way round"


def _cures(loop: Loop) -> tuple[Cure, ...]:
    cures = [Cure("take this link away")]
    if len(loop.devices) == 2 and not loop.closing.split:
        cures.append(Cure(f"make one link of them: 'lanes: {len(loop.joins)}', where both ends can do it"))
    if len(loop.devices) > 1:
        cures.append(
            Cure(
                "if the loop is meant, use bridges that speak spanning tree, and say 'spare-for' on this link"
            )
        )
    return tuple(cures)


RULES: tuple[Rule, ...] = (layer2_loop,)
