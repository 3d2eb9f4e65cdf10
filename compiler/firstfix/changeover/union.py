"""Both sides laid over each other: all devices, cords and lanes there are before, meanwhile or after, and which bundle brings what."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.changeover.bundles import Bundle
from firstfix.changeover.ends import LINE_BIT, PLAIN_BIT, all_ends, carried, numbered
from firstfix.changeover.job import Kind
from firstfix.changeover.sides import Lane, PoeFeed, Side
from firstfix.parts.part import ACTIVE_KINDS

_TURNS = (Kind.SWAP, Kind.MOVE, Kind.FEED)


class OfSides(NamedTuple):
    """A PoE feed, and which plans have it."""

    feed: PoeFeed
    of_old: bool
    of_new: bool


class Path(NamedTuple):
    """A lane with what may be missing of it: `pieces` and `devices` that are not always there. `always`: VLANs that it carries, or -1
    where that depends on what is set by then."""

    at: int
    lane: Lane
    pieces: tuple[str, ...]
    always: int


class Union:
    """`came`, `gone`: piece to the bundle that brings or removes it; `put`, `taken`: the same of devices; `turned`: device to the
    bundle after which it is as the new plan has it, `swapped` if it is another part then, `addressed` for its address.
    `hearts`: what each VLAN's router sends out. `counted`: devices of both plans that serve somebody themselves; `manageable`: those
    with settings.
    """

    def __init__(self, old: Side, new: Side, bundles: Sequence[Bundle], station: str) -> None:
        self.old, self.new, self.sides, self.station = old, new, (old, new), station
        self.devices = tuple(sorted(old.devices.keys() | new.devices.keys()))
        jobs = [(bit, job) for bit, bundle in enumerate(bundles) for job in bundle.jobs]
        self._bit_of = {job.id: bit for bit, job in jobs}
        self.all_done = (1 << len(bundles)) - 1
        self.came = {key: bit for bit, job in jobs for key in job.adds}
        self.gone = {key: bit for bit, job in jobs for key in job.drops}
        self.put = {job.subject: bit for bit, job in jobs if job.kind is Kind.PUT_IN}
        self.taken = {job.subject: bit for bit, job in jobs if job.kind is Kind.TAKE_OUT}
        self.turned = {job.subject: bit for bit, job in jobs if job.kind in _TURNS}
        self.swapped = {job.subject: bit for bit, job in jobs if job.kind is Kind.SWAP}
        self.addressed = self.swapped | {job.subject: bit for bit, job in jobs if job.kind is Kind.ADDRESS}
        self.vlan_bit = numbered(old, new)
        self.every_vlan = LINE_BIT | sum(self.vlan_bit.values())
        self.ends = all_ends(old, new, bundles, self.swapped)
        self.paths = tuple(self._path(at, lane) for at, lane in enumerate(sorted({*old.lanes, *new.lanes})))
        self.fixed, self.loose = self._by_whether_fixed()
        self.known_carried: dict[tuple[int, tuple[int, ...], tuple[int, ...]], int] = {}
        self.bridges = {device for device in self.devices if self.may_bridge(device)}
        self.known_devices = frozenset(self.devices)
        self.on_mains = sorted(old.feeds.keys() | new.feeds.keys())
        self.poe = self._poe_by_sink()
        self.may_loop = self._may_loop()
        self.passive = frozenset(each for path in self.paths for each in path.lane.through)
        self.steady = frozenset(key for path in self.paths if not path.pieces for key in path.lane.pieces)
        # The bundles on which it depends what is taken of which budget.
        powered = {key for feeds in self.poe.values() for each in feeds for key in each.feed.pieces}
        bearing = [*self.put.values(), *self.taken.values(), *self.turned.values()]
        bearing += [bit for keys in (self.came, self.gone) for key, bit in keys.items() if key in powered]
        self.bears_load = sum(1 << bit for bit in set(bearing))
        self.hearts = self._hearts()
        self.counted = tuple(device for device in self.devices if self._is_counted(device))
        self.needed = {device: self._needed(device) for device in self.counted}
        self.manageable = frozenset(device for device in self.devices if self._is_manageable(device))

    def _by_whether_fixed(self) -> tuple[dict[str, list[tuple[str, int]]], tuple[Path, ...]]:
        """Lanes that are always there and carry always the same, by the devices at their ends; and the others."""
        fixed: dict[str, list[tuple[str, int]]] = {}
        loose = []
        for path in self.paths:
            touched = {*path.lane.devices, *path.lane.through}
            if path.pieces or path.always < 0 or not touched.isdisjoint({*self.put, *self.taken}):
                loose.append(path)
            else:
                near, far = path.lane.devices
                fixed.setdefault(near, []).append((far, path.always))
                fixed.setdefault(far, []).append((near, path.always))
        return fixed, tuple(loose)

    def bit_of(self, kind: Kind, subject: str) -> int:
        """The bundle that does it, or -1."""
        return self._bit_of.get(f"{kind.name}:{subject}", -1)

    def may_bridge(self, device: str) -> bool:
        return any(
            device in side.devices and side.devices[device].part.bridges is not False for side in self.sides
        )

    def _path(self, at: int, lane: Lane) -> Path:
        pieces = tuple(key for key in lane.pieces if key in self.came or key in self.gone)
        if lane.outside:
            return Path(at, lane, pieces, LINE_BIT)
        near, far = (self.ends[jack] for jack in lane.jacks)
        fixed = not near.bits and not far.bits
        return Path(at, lane, pieces, carried(near.values[0], far.values[0], self.vlan_bit) if fixed else -1)

    def _poe_by_sink(self) -> dict[str, tuple[OfSides, ...]]:
        """One that both have counts by the greater figure."""
        found: dict[tuple[str, str, tuple[str, ...]], OfSides] = {}
        for side in self.sides:
            for feed in side.poe:
                before = found.get(feed[:3])
                most = feed._replace(watts=max(feed.watts, before.feed.watts)) if before else feed
                of_old = side is self.old or (before is not None and before.of_old)
                found[feed[:3]] = OfSides(most, of_old, side is self.new)
        by_sink: dict[str, list[OfSides]] = {}
        for each in sorted(found.values()):
            by_sink.setdefault(each.feed.sink, []).append(each)
        return {sink: tuple(feeds) for sink, feeds in by_sink.items()}

    def _hearts(self) -> dict[str, int]:
        """What each VLAN's routers send out; the station stands for those of a VLAN that has none."""
        found: dict[str, int] = {}
        for side in self.sides:
            for device, thing in side.devices.items():
                if thing.part.routes is True:
                    vlans = sum(self.vlan_bit[vid] for vid in side.vlans.get(device, ()))
                    found[device] = found.get(device, 0) | LINE_BIT | PLAIN_BIT | vlans
        left = self.every_vlan
        for bits in found.values():
            left &= ~bits
        if left and self.station:
            found[self.station] = found.get(self.station, 0) | left
        return dict(sorted(found.items()))

    def _is_counted(self, device: str) -> bool:
        """It serves somebody itself, and is in both: a switch is missed by what hangs on it."""
        kinds = [side.devices[device].part.kind if device in side.devices else "" for side in self.sides]
        return all(kind in ACTIVE_KINDS and kind != "switch" for kind in kinds)

    def depths(self) -> dict[str, int]:
        """How many lanes each device is from the station."""
        near: dict[str, list[str]] = {}
        for path in self.paths:
            for at in (0, 1):
                near.setdefault(path.lane.devices[at], []).append(path.lane.devices[1 - at])
        found = {self.station: 0}
        waiting = [self.station]
        for device in waiting:
            for other in near.get(device, ()):
                if other not in found:
                    found[other] = found[device] + 1
                    waiting.append(other)
        return found

    def _may_loop(self) -> bool:
        """Whether anything that doesn't speak spanning tree ever has two links to bridges."""
        count: dict[str, int] = {}
        for path in self.paths:
            if not path.lane.outside and self.bridges.issuperset(path.lane.devices):
                for device in path.lane.devices:
                    count[device] = count.get(device, 0) + 1
        return any(
            count.get(device, 0) > 1 and side.devices[device].part.spanning_tree is not True
            for side in self.sides
            for device in side.devices
        )

    def _needed(self, device: str) -> int:
        """The VLANs besides its own that it serves in both plans, as an access point does."""
        shared = self.old.vlans.get(device, frozenset()) & self.new.vlans.get(device, frozenset())
        own = {side.own_vlan.get(device) for side in self.sides}
        return sum(self.vlan_bit[vid] for vid in shared - own)

    def _is_manageable(self, device: str) -> bool:
        parts = [side.devices[device].part if device in side.devices else None for side in self.sides]
        return all(
            part is not None and part.bridges is not False and part.vlan_aware is not False for part in parts
        )
