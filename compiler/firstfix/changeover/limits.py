"""What must not be exceeded on the way: budgets of PoE, mains outlets, the load of strips; and loops. All of one look."""

from collections.abc import Iterable, Iterator, Mapping

from firstfix.algorithms.connectivity import Edge
from firstfix.changeover.view import View
from firstfix.graphs.layer2 import Join, Layer2
from firstfix.graphs.loops import loops
from firstfix.physics.range import at_most

# What is limited, and of what: ("poe", source) [W], ("outlets", source), ("load", strip, UPS or circuit) [W].
Limited = tuple[str, str]


def loads(view: View) -> dict[Limited, float]:
    """What is taken of each limit, of all that is plugged in by now."""
    found: dict[Limited, float] = {}
    given: dict[str, float] = {}
    for sink in view.union.poe:
        if view.is_there(sink):
            for feed in view.poe_to(sink):
                given[feed.source] = given.get(feed.source, 0.0) + feed.watts
    found.update((("poe", source), watts) for source, watts in given.items())
    for device in view.union.on_mains:
        if view.is_there(device):
            watts = max(side.draws[device] for side in view.versions_of(device)) + given.get(device, 0.0)
            for source in view.versions_of(device)[-1].feeds.get(device, ()):
                found["outlets", source] = found.get(("outlets", source), 0.0) + 1
                for strip in _upwards(view, source):
                    found["load", strip] = found.get(("load", strip), 0.0) + watts
    return found


def _upwards(view: View, source: str) -> Iterator[str]:
    """A strip, the strips that it hangs on itself, and the circuit of the room where they end."""
    seen: set[str] = set()
    while source in view.union.known_devices and source not in seen:
        seen.add(source)
        yield source
        source = next(iter(view.versions_of(source)[-1].feeds.get(source, ())), "")
    circuits = (side.circuit_of.get(source, "") for side in view.union.sides)
    yield from dict.fromkeys(filter(None, circuits))


def limit(view: View, what: str, source: str) -> float | None:
    """As its data sheet says; None where nobody says it."""
    is_device = source in view.union.known_devices
    found: list[float] = []
    for side in view.versions_of(source) if is_device else view.union.sides:
        tables: Mapping[str, Mapping[str, float]] = {
            "poe": side.budgets,
            "outlets": side.outlets,
            "load": side.carries,
        }
        if source in tables[what]:
            found.append(tables[what][source])
    return max(found) if found else None


def exceeded(view: View, allowed: Mapping[Limited, float]) -> list[Limited]:
    """`allowed`: what the old or the new plan takes itself, which is no fault of the way."""
    found = []
    for key, load in loads(view).items():
        most = limit(view, *key)
        if most is not None and not at_most(load, max(most, allowed.get(key, 0.0))):
            found.append(key)
    return found


def uncut_loops(view: View) -> list[tuple[str, tuple[str, ...]]]:
    """Loops that no spanning tree is sure to cut: ids of their devices in a row, and of their lanes."""
    if not view.union.may_loop:
        return []
    joins: dict[str, Join] = {}
    for path in view.live:
        lane = path.lane
        if lane.outside or not view.union.bridges.issuperset(lane.devices):
            continue
        bits = view.carried(path)
        name = view.group(path) or f"{lane.jacks[0]} {lane.jacks[1]}"
        vlans = frozenset(str(at) for at in range(bits.bit_length()) if bits >> at & 1)
        joins.setdefault(name, Join(Edge(name, *lane.devices), lane.link, (), vlans, False))
    if not _may_loop(view, joins.values()):
        return []
    bridges = tuple(sorted({end for join in joins.values() for end in (join.edge.a, join.edge.b)}))
    layer2 = Layer2(bridges, tuple(joins[name] for name in sorted(joins)), ())
    return [
        (" ".join(sorted(loop.devices)), tuple(sorted(join.edge.id for join in loop.joins)))
        for loop in loops(layer2, lambda _: False)
        if not all(_speaks_tree(view, each) for each in loop.devices)
    ]


def _may_loop(view: View, joins: Iterable[Join]) -> bool:
    """Whether anything that doesn't speak spanning tree has two links to bridges."""
    count: dict[str, int] = {}
    for join in joins:
        for end in (join.edge.a, join.edge.b):
            count[end] = count.get(end, 0) + 1
    return any(links > 1 and not _speaks_tree(view, device) for device, links in count.items())


def _speaks_tree(view: View, device: str) -> bool:
    sides = view.sides_of(device, view.union.swapped.get(device))
    return all(side.devices[device].part.spanning_tree is True for side in sides)
