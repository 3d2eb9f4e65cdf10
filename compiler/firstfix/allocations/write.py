"""Kept choices as text: one line for each, so that two branches that add lines can be merged line by line.

Lines stand in the order of a short digest of what they are about: that spreads what two branches add over the file, and a device added
in one place of the plan does not push others about.
"""

import hashlib
import re
from collections.abc import Iterator

from firstfix.allocations.choices import Choices, KeptFeed, KeptHost, KeptLabel, KeptRoute, KeptRun, KeptStop

_HEADER = """\
# Choices that firstfix made where the plan leaves them open, kept so that the next build makes the same ones.
# Only `firstfix build` writes this file. Keep it beside the plan, also under version control. What the plan says
# comes first; to choose anew: firstfix build PLAN -o DIR --choose-anew NAME
# The lines stand in no order that means anything, on purpose: what two people add then lands in different places and merges.
# To read them: search for a name, or ask `firstfix check PLAN --why NAME`, which says what was chosen for it and why.
"""
# What every YAML reader takes for a text: our names, runs and jacks, but no word that some readers take for true or nothing.
_PLAIN = re.compile(r"[a-z][a-z0-9-]*(?:[/#][a-z0-9-]+|--[a-z0-9-]+)*")
_WORDS = frozenset({"true", "false", "yes", "no", "on", "off", "y", "n", "null"})


def choices_text(choices: Choices) -> str:
    """The whole file. A function of the choices as a set: their order does not matter."""
    lines = sorted(
        (hashlib.sha256(about.encode()).hexdigest()[:8], about, line) for about, line in _lines(choices)
    )
    return _HEADER + "".join(dict.fromkeys(f"- {{{line}}}\n" for _, _, line in lines))


def _lines(choices: Choices) -> Iterator[tuple[str, str]]:
    """What each choice is about, and its line."""
    for run in choices.runs:
        yield f"run {run.run}", _run(run)
    for host in choices.hosts:
        yield f"host {host.device} {host.vlan}", _host(host)
    for feed in choices.feeds:
        yield f"feed {feed.device} {feed.inlet}", _feed(feed)
    for route in choices.routes:
        yield f"route {' '.join(route.rooms)}", _route(route)
    for router in choices.routers:
        yield "router", f"router: {_text(router.device)}"
    for label in choices.labels:
        yield f"label {label.kind} {label.name}", _label(label)


def _run(run: KeptRun) -> str:
    says = f", says: {_quoted(run.says)}" if run.says else ""
    return f"run: {_text(run.run)}, jacks: [{', '.join(map(_stop, run.stops))}]{says}"


def _stop(stop: KeptStop) -> str:
    jacks = [_text(f"{stop.device}/{jack}") for jack in stop.jacks]
    return jacks[0] if len(jacks) == 1 else f"[{', '.join(jacks)}]"


def _host(host: KeptHost) -> str:
    return f"device: {_text(host.device)}, vlan: {_text(host.vlan)}, host: {host.host}"


def _feed(feed: KeptFeed) -> str:
    inlet = f", inlet: {feed.inlet}" if feed.inlet != 1 else ""
    return f"device: {_text(feed.device)}{inlet}, fed-by: {_text(feed.source)}, outlet: {feed.outlet}"


def _route(route: KeptRoute) -> str:
    rooms, ways = (", ".join(map(_text, names)) for names in (route.rooms, route.ways))
    return f"rooms: [{rooms}], ways: [{ways}]"


def _label(label: KeptLabel) -> str:
    return f"{label.kind}: {_text(label.name)}, label: {_quoted(label.label)}"


def _text(text: str) -> str:
    return text if _PLAIN.fullmatch(text) and text not in _WORDS else _quoted(text)


def _quoted(text: str) -> str:
    """In double quotes, with YAML's escapes (YAML 1.2.2, section 5.7) for what isn't printed."""
    return f'"{"".join(map(_escaped, text))}"'


def _escaped(character: str) -> str:
    if character in '"\\':
        return f"\\{character}"
    if character.isprintable() and character != "\ufeff":
        return character
    code = ord(character)
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
