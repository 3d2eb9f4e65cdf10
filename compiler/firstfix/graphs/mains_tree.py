"""The mains as a tree: a site's supply, its circuits, the rooms' outlets, strips and UPSs, and what is plugged into them.

Takes a build; gives its nodes in the order in which one reads them, a node before what hangs on it. A thing with several leads
stands once for each of them.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.power import Circuit, MainsFeed
from firstfix.graphs.consumption import Spread, consumption
from firstfix.graphs.mains_limits import Bound, circuit_bound, strip_bounds
from firstfix.graphs.mains_load import Loads, mains_loads
from firstfix.parts.facts import Fact
from firstfix.parts.part import MAINS_KINDS

SUPPLY, CIRCUIT, ROOM, STRIP, UPS, DEVICE = "supply", "circuit", "room", "strip", "ups", "device"


class MainsNode(NamedTuple):
    """`id` of a site, circuit ("" where the rooms name none), room or device. `load`: watts through it.

    `bounds`: what it carries; none where nothing bounds it or that isn't known. `missing`: facts without which the most is open.
    `outlet` of its source, 0 for none; `lead` of its `leads`. `ups`: id of the UPS that it hangs on, the nearest one, or "".
    """

    kind: str
    id: str
    depth: int
    load: Spread
    bounds: tuple[Bound, ...] = ()
    missing: tuple[str, ...] = ()
    outlet: int = 0
    lead: int = 1
    leads: int = 1
    ups: str = ""

    @property
    def limit(self) -> Spread | None:
        """The smallest of its bounds at each end of the load."""
        if not self.bounds:
            return None
        return Spread(*(min(each) for each in zip(*(bound.watts for bound in self.bounds), strict=True)))

    @property
    def left(self) -> float | None:
        """Watts that are left of it when everything draws its most; below 0 where that is too much."""
        return None if self.limit is None else self.limit.most - self.load.most


@once_per_build
def mains_tree(build: Build) -> tuple[MainsNode, ...]:
    """By site, then by circuit, room and name; what no circuit is said for comes last of its site."""
    return tuple(_Tree(build).nodes())


def unfed(build: Build) -> tuple[Device, ...]:
    """Devices that have a mains inlet and are fed neither by the mains nor by PoE, by name."""
    fed = {feed.device for feed in build.mains_feeds}
    fed |= {build.jacks[run.sink].device for run in build.power_runs.values() if run.sink in build.jacks}
    found = (each for each in build.devices.values() if each.part.mains.inlet and each.id not in fed)
    return tuple(sorted(found, key=lambda device: natural(device.name)))


class _Tree:
    def __init__(self, build: Build) -> None:
        self._build = build
        self._loads = mains_loads(build)
        self._fed: dict[str, list[MainsFeed]] = {}
        self._leads: dict[str, int] = {}
        for feed in build.mains_feeds:
            self._fed.setdefault(feed.source, []).append(feed)
            self._leads[feed.device] = self._leads.get(feed.device, 0) + 1

    def nodes(self) -> Iterator[MainsNode]:
        circuit_of = {room: circuit for circuit in self._build.circuits.values() for room in circuit.rooms}
        rooms = sorted((each for each in self._fed if each in self._build.rooms), key=natural)
        for site in sorted({self._build.rooms[room].site for room in rooms}):
            here = [room for room in rooms if self._build.rooms[room].site == site]
            yield self._node(SUPPLY, site, 0, self._loads.behind(*here))
            circuits = {circuit_of[room].id: circuit_of[room] for room in here if room in circuit_of}
            for circuit in sorted(circuits.values(), key=lambda each: natural(each.name)):
                yield from self._circuit(circuit, [room for room in here if room in circuit.rooms])
            rest = [room for room in here if room not in circuit_of]
            if rest:
                yield from self._circuit(None, rest)

    def _circuit(self, circuit: Circuit | None, rooms: list[str]) -> Iterator[MainsNode]:
        loads = self._loads.of_circuit(circuit) if circuit else self._loads.behind(*rooms)
        bound = circuit_bound(circuit) if circuit else None
        node = self._node(CIRCUIT, circuit.id if circuit else "", 1, loads)
        yield node._replace(bounds=(bound,) if bound else ())
        for room in rooms:
            yield self._node(ROOM, room, 2, self._loads.behind(room))
            yield from self._plugged(room, 3, "", frozenset())

    def _plugged(self, source: str, depth: int, ups: str, above: frozenset[str]) -> Iterator[MainsNode]:
        order = lambda feed: (feed.outlet, natural(feed.device), feed.inlet)  # noqa: E731
        for feed in sorted(self._fed.get(source, ()), key=order):
            device = self._build.devices[feed.device]
            if device.id in above:
                continue
            hands_on = device.part.kind in MAINS_KINDS
            loads = self._loads.behind(device.id) if hands_on else None
            node = (
                self._node(UPS if device.part.kind == "ups" else STRIP, device.id, depth, loads)
                if loads is not None
                else self._device(device, depth)
            )
            yield node._replace(
                bounds=self._bounds(device) if hands_on else (),
                outlet=feed.outlet,
                lead=feed.inlet,
                leads=self._leads[device.id],
                ups=ups,
            )
            if hands_on:
                behind = device.id if device.part.kind == "ups" else ups
                yield from self._plugged(device.id, depth + 1, behind, above | {device.id})

    def _bounds(self, device: Device) -> tuple[Bound, ...]:
        rating = device.part.mains.rating
        return tuple(strip_bounds(self._build, device, rating)) if isinstance(rating, Fact) else ()

    def _device(self, device: Device, depth: int) -> MainsNode:
        """With several leads, all of what it takes may go through any one."""
        found = consumption(self._build, device)
        leads = self._leads[device.id]
        taken = found.taken if leads == 1 else Spread(0.0, found.taken.usual / leads, found.taken.most)
        return MainsNode(DEVICE, device.id, depth, taken, missing=found.missing)

    @staticmethod
    def _node(kind: str, id_: str, depth: int, loads: Loads) -> MainsNode:
        return MainsNode(kind, id_, depth, loads.total, missing=loads.missing)


def own_name(build: Build, node: MainsNode) -> str:
    """As the plan calls it."""
    if node.kind == CIRCUIT:
        return build.circuits[node.id].name if node.id else ""
    known = build.sites.get(node.id) or build.rooms.get(node.id) or build.devices.get(node.id)
    return known.name if known else ids.path(node.id)
