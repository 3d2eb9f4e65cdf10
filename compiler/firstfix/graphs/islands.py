"""The parts that each VLAN falls into: which of its members are joined by links that carry it, and where the others are cut off."""

from collections import defaultdict, deque
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from firstfix.algorithms.connectivity import components
from firstfix.build.model import Build
from firstfix.graphs.layer2 import Join, Layer2, joins_by_vlan


class Island(NamedTuple):
    """`members` of the VLAN in one part, sorted; `devices`: its bridges. `broken`: the first link towards the main part that does
    not carry the VLAN; None for the main part itself, and where no link leads there."""

    members: tuple[str, ...]
    devices: tuple[str, ...]
    broken: Join | None


class Islands(NamedTuple):
    """One VLAN. `main` is the part with the router, else the one with most members; None for a VLAN without members.

    `router` is "" where none is among the members. `unplugged`: members without a link at layer 2; they're in no part.
    """

    vlan: str
    router: str
    main: Island | None
    others: tuple[Island, ...]
    unplugged: tuple[str, ...]


def islands(build: Build, view: Layer2) -> Iterator[Islands]:
    """For each VLAN, in order of ids."""
    by_vlan = joins_by_vlan(view.joins)
    plugged = joins_by_vlan(view.plugs)
    linked = frozenset(end for join in (*view.joins, *view.plugs) for end in (join.edge.a, join.edge.b))
    members: defaultdict[str, list[str]] = defaultdict(list)
    for device, vlans in build.memberships.items():
        for vlan in dict.fromkeys(vlans):
            members[vlan].append(device)
    places: dict[tuple[str, ...], tuple[Mapping[str, int], list[list[str]]]] = {}
    for vlan in build.vlans:
        joins = by_vlan.get(vlan, ())
        same = tuple(join.edge.id for join in joins)
        if same not in places:
            parts = components(view.bridges, [join.edge for join in joins])
            places[same] = ({device: number for number, part in enumerate(parts) for device in part}, parts)
        inside = [each for each in members[vlan] if each in linked]
        loose = tuple(each for each in members[vlan] if each not in linked)
        grouped = _grouped(inside, places[same][0], plugged.get(vlan, ()))
        yield _of_vlan(build, view, vlan, grouped, places[same][1], loose)


def _grouped(
    members: Sequence[str], part_of: Mapping[str, int], plugs: Sequence[Join]
) -> list[tuple[int, list[str]]]:
    """Members by part, the fullest part first. A device that is no bridge joins none: with a foot in two it is counted in the
    fuller one, and with none, -1, it is by itself."""
    feet: defaultdict[str, set[int]] = defaultdict(set)
    for plug in plugs:
        feet[plug.edge.b].add(part_of[plug.edge.a])
    found: defaultdict[int, list[str]] = defaultdict(list)
    for member in members:
        for part in (part_of[member],) if member in part_of else feet[member]:
            found[part].append(member)
    taken: set[str] = set()
    grouped: list[tuple[int, list[str]]] = []
    for part, some in sorted(found.items(), key=lambda item: (-len(item[1]), min(item[1]))):
        left = sorted(set(some) - taken)
        taken.update(left)
        if left:
            grouped.append((part, left))
    return grouped + [(-1, [member]) for member in sorted(set(members) - taken)]


def _of_vlan(
    build: Build,
    view: Layer2,
    vlan: str,
    grouped: list[tuple[int, list[str]]],
    parts: list[list[str]],
    loose: tuple[str, ...],
) -> Islands:
    routers = [each for _, some in grouped for each in some if build.devices[each].part.routes is True]
    router = min(routers, default="")
    if not grouped:
        return Islands(vlan, router, None, (), loose)
    grouped.sort(key=lambda group: (router not in group[1], -len(group[1]), group[1]))
    made = [Island(tuple(some), tuple(parts[part]) if part >= 0 else (), None) for part, some in grouped]
    main, others = made[0], made[1:]
    if others:
        towards = _towards(main, view)
        others = [island._replace(broken=_broken(island, vlan, towards)) for island in others]
    return Islands(vlan, router, main, tuple(others), loose)


def _towards(main: Island, view: Layer2) -> Mapping[str, Join | None]:
    """For each device that any links join to the main part: the first of them on a shortest way there."""
    near: defaultdict[str, list[tuple[Join, str]]] = defaultdict(list)
    for join in view.joins:
        near[join.edge.a].append((join, join.edge.b))
        near[join.edge.b].append((join, join.edge.a))
    for join in view.plugs:
        near[join.edge.a].append((join, join.edge.b))
    start = main.devices or main.members
    came: dict[str, Join | None] = dict.fromkeys(start)
    waiting = deque(start)
    while waiting:
        for join, other in near[waiting.popleft()]:
            if other not in came:
                came[other] = join
                waiting.append(other)
    return came


def _broken(island: Island, vlan: str, towards: Mapping[str, Join | None]) -> Join | None:
    """From the island on, towards the main part, the first link that does not carry the VLAN."""
    device = next((each for each in (*island.devices, *island.members) if each in towards), None)
    while device is not None and (join := towards[device]) is not None:
        if vlan not in join.carried:
            return join
        device = join.edge.b if join.edge.a == device else join.edge.a
    return None
