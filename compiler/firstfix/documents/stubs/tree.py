"""Which bridge should be the root of the spanning tree, and which is to follow it, for each part of the
network without a router in between.

Common practice, no source: the root is the bridge nearest to the gateway, where most traffic goes (a bridge
before a gateway that bridges too); at a tie the one with the fewest hops to all others, then the one with
more links to bridges, then by name. Left to the factory settings the lowest address wins, often the oldest
bridge's (equal priorities are decided by the address: IEEE Std 802.1D (2004), 9.2.5).
"""

from collections import deque
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.neighbours import may_loop
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.standards.layer2 import number_ranges

Neighbours = Mapping[str, tuple[str, ...]]


class TreeAdvice(NamedTuple):
    """`root` and `second` are device names, `second` "" where no other bridge speaks spanning tree."""

    priority: int
    root: str
    second: str
    bridges: int


def tree_advice(look: Lookup) -> dict[str, TreeAdvice]:
    """By device, for each bridge that speaks spanning tree."""
    near = _bridge_neighbours(look)
    found: dict[str, TreeAdvice] = {}
    for domain in _domains(near):
        order = _by_fitness(look, domain, near)
        names = [look.build.devices[each].name for each in order]
        for place, device in enumerate(order):
            found[device] = TreeAdvice(
                _priority(place), names[0], names[1] if len(names) > 1 else "", len(domain)
            )
    return found


def _priority(place: int) -> int:
    """The root takes one step, the next two, the others what is usual (IEEE Std 802.1D (2004), 9.2.5)."""
    allowed = number_ranges()["tree-priority"]
    return allowed.step * (place + 1) if place < 2 else allowed.usual


def _bridge_neighbours(look: Lookup) -> Neighbours:
    bridges = {
        device.id: set[str]()
        for device in look.build.devices.values()
        if device.part.kind in ACTIVE_KINDS and may_loop(look, device)
    }
    for channel in look.build.channels.values():
        one, other = (look.owner(end).id for end in channel.ends)
        if one != other and one in bridges and other in bridges:
            bridges[one].add(other)
            bridges[other].add(one)
    return {each: tuple(sorted(others)) for each, others in sorted(bridges.items())}


def _domains(near: Neighbours) -> Iterable[tuple[str, ...]]:
    seen: set[str] = set()
    for start in near:
        if start not in seen:
            domain = tuple(sorted(_hops({start}, near)))
            seen.update(domain)
            yield domain


def _by_fitness(look: Lookup, domain: tuple[str, ...], near: Neighbours) -> list[str]:
    """The domain's bridges that speak spanning tree, the one that should be root first."""
    to_gateway = _hops(_at_gateways(look, domain), near)
    speakers = [each for each in domain if look.build.devices[each].part.spanning_tree is True]

    def unfitness(device: str) -> tuple[bool, int, int, int, str]:
        hops = sum(_hops({device}, near).values())
        itself_routes = _routes(look.build.devices[device])
        return (itself_routes, to_gateway.get(device, len(domain)), hops, -len(near[device]), device)

    return sorted(speakers, key=unfitness)


def _at_gateways(look: Lookup, domain: tuple[str, ...]) -> set[str]:
    """The bridges of the domain that route, or that a router is plugged into."""
    return {
        each
        for each in domain
        if _routes(look.build.devices[each])
        or any(
            _routes(look.owner(far)) for jack in look.wired_jacks(each) if (far := look.far_jack(jack))
        )
    }  # fmt: skip


def _routes(device: Device) -> bool:
    return device.part.routes is True


def _hops(starts: set[str], near: Neighbours) -> dict[str, int]:
    """Hops from the nearest of `starts` to every bridge that is reached."""
    hops = dict.fromkeys(sorted(starts), 0)
    queue = deque(hops)
    while queue:
        here = queue.popleft()
        for other in near[here]:
            if other not in hops:
                hops[other] = hops[here] + 1
                queue.append(other)
    return hops
