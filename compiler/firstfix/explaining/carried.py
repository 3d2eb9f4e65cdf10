"""Why a jack carries a VLAN tagged: who needs it there, or beyond the link that the jack begins."""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Jack
from firstfix.build.model import Build
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.explaining.far_end import other_end
from firstfix.explaining.views import views
from firstfix.graphs.layer2 import whole_layer2
from firstfix.source.node import Mapping
from firstfix.span import Span

_MOST_NAMES = 4


class Why(NamedTuple):
    """The last fields of a line."""

    origin: str
    why: str
    at: Span | None


def why_carried(build: Build, jack: Jack, vlan: str) -> Why:
    channel = next(iter(views(build).channels.get(jack.id, ())), None)
    if channel is None:
        return Why(WORKED_OUT, "", None)
    written = build.provenance.written(channel.link, "tagged")
    if written is not None and "run" in _keys(build, channel.link):
        return Why(WRITTEN, "", written)
    far = build.jacks[other_end(channel.ends, jack.id)].device
    bridges = whole_layer2(build).bridges
    for own in (jack.device, far):
        if own not in bridges:
            at = build.provenance.written(own, "tagged")
            return Why(WORKED_OUT, f"'{build.devices[own].name}' takes it tagged", at)
    return Why(WORKED_OUT, _both_sides(build, channel.id, channel.link, jack.device, far, vlan), None)


def _keys(build: Build, link: str) -> tuple[str, ...]:
    node = build.provenance.node(link)
    return tuple(node.entries) if isinstance(node, Mapping) else ()


def _both_sides(build: Build, channel: str, link: str, near: str, far: str, vlan: str) -> str:
    """Who is in the VLAN on either side of the link; within a ring there are no sides."""
    beyond = _reached(build, {channel, link}, far)
    who = _members(build, beyond, vlan)
    if near in beyond:
        return f"{_named(build, who)} need it round this ring, also after any one of its links fails"
    here = _members(build, _reached(build, {channel, link}, near), vlan)
    return f"beyond it {_named(build, who)}, on this side {_named(build, here)}"


def _reached(build: Build, cut: set[str], start: str) -> frozenset[str]:
    """All devices that are joined to `start` at layer 2 without the link that is cut."""
    beside: defaultdict[str, list[str]] = defaultdict(list)
    for join in (*whole_layer2(build).joins, *whole_layer2(build).plugs):
        if join.edge.id not in cut:
            beside[join.edge.a].append(join.edge.b)
            beside[join.edge.b].append(join.edge.a)
    bridges = frozenset(whole_layer2(build).bridges)
    seen, stack = {start}, [start]
    while stack:
        here = stack.pop()
        # What is plugged into two bridges doesn't join them.
        for each in beside[here] if here in bridges else ():
            if each not in seen:
                seen.add(each)
                stack.append(each)
    return frozenset(seen)


def _members(build: Build, devices: frozenset[str], vlan: str) -> list[str]:
    return [each for each in build.devices if each in devices and vlan in build.memberships.get(each, ())]


def _named(build: Build, devices: list[str]) -> str:
    names = sorted((build.devices[each].name for each in devices), key=ids.natural)
    if not names:
        return "nobody"
    shown = ", ".join(names[:_MOST_NAMES])
    return shown if len(names) <= _MOST_NAMES else f"{shown} and {len(names) - _MOST_NAMES} more"
