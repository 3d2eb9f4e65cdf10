"""The network half-way, at one look: what is there, what has power, what each VLAN reaches.

A presence over the union of both plans. Bundles may also be left open, done or not; then each thing is seen at its best, which is what
no order can do better than.
"""

from collections.abc import Iterator, Mapping
from functools import cached_property

from firstfix.changeover.ends import carried
from firstfix.changeover.job import Kind
from firstfix.changeover.sides import PLAIN, PoeFeed, Side
from firstfix.changeover.union import Path, Union


class View:
    """When all bundles of `least` are done and none outside `most`, with the devices and cords of `off` in somebody's hands."""

    def __init__(self, union: Union, least: int, most: int, off: frozenset[str]) -> None:
        self.union = union
        self._least, self._most, self._off = least, most, off
        self._powered: dict[str, bool] = {}

    @cached_property
    def live(self) -> list[Path]:
        """All lanes that are there."""
        return [path for path in self.union.paths if self.is_live(path)]

    def is_live(self, path: Path) -> bool:
        return all(map(self.has_piece, path.pieces)) and (
            (not self._off and not self.union.put and not self.union.taken)
            or (all(map(self.is_there, path.lane.devices)) and all(map(self.is_there, path.lane.through)))
        )

    def has_piece(self, key: str) -> bool:
        came, gone = self.union.came.get(key), self.union.gone.get(key)
        return (
            key not in self._off
            and (came is None or bool(self._most >> came & 1))
            and (gone is None or not self._least >> gone & 1)
        )

    def is_there(self, device: str) -> bool:
        put, taken = self.union.put.get(device), self.union.taken.get(device)
        return (
            device not in self._off
            and (put is None or bool(self._most >> put & 1))
            and (taken is None or not self._least >> taken & 1)
        )

    def sides_of(self, device: str, bit: int | None) -> list[Side]:
        """As it may be by now: as in the old plan, as in the new one. Where no bundle turns it, both are."""
        old, new = self.union.sides
        if device not in old.devices or device not in new.devices:
            return [side for side in self.union.sides if device in side.devices]
        if bit is None or bit < 0:
            return [old, new]
        return ([] if self._least >> bit & 1 else [old]) + ([new] if self._most >> bit & 1 else [])

    def versions_of(self, device: str) -> list[Side]:
        return self.sides_of(device, self.union.turned.get(device))

    # Power

    def is_powered(self, device: str) -> bool:
        known = self._powered.get(device)
        if known is None:
            # What would feed itself in a ring has no power.
            self._powered[device] = False
            known = self._powered[device] = self.is_there(device) and self._is_fed(device)
        return known

    def _is_fed(self, device: str) -> bool:
        """Where neither plan says what feeds it, it is taken for fed."""
        mains = [source for side in self.versions_of(device) for source in side.feeds.get(device, ())]
        if any(source not in self.union.known_devices or self.is_powered(source) for source in mains):
            return True
        if any(self.is_powered(feed.source) for feed in self.poe_to(device)):
            return True
        return not mains and device not in self.union.poe

    def poe_to(self, sink: str) -> Iterator[PoeFeed]:
        """The PoE feeds that are plugged in."""
        known = self.union.poe.get(sink)
        if known:
            sides = self.versions_of(sink)
            for feed, of_old, of_new in known:
                valid = (of_old and self.union.old in sides) or (of_new and self.union.new in sides)
                if valid and all(map(self.has_piece, feed.pieces)):
                    yield feed

    # Layer 2

    def carried(self, path: Path) -> int:
        if path.always >= 0:
            return path.always
        near, far = (self.union.ends[jack] for jack in path.lane.jacks)
        ends = near.allowed(self._least, self._most), far.allowed(self._least, self._most)
        key = (path.at, *ends)
        known = self.union.known_carried.get(key)
        if known is None:
            known = 0
            for a in ends[0]:
                for b in ends[1]:
                    known |= carried(near.values[a], far.values[b], self.union.vlan_bit)
            self.union.known_carried[key] = known
        return known

    def group(self, path: Path) -> str:
        """The aggregate that both ends make of this lane by now, or ""."""
        groups = []
        for jack in path.lane.jacks:
            end = self.union.ends[jack]
            setting = end.values[end.allowed(self._least, self._most)[-1]].setting
            groups.append(setting.group if setting else "")
        return groups[0] if groups[0] == groups[1] else ""

    def _spread(self, starts: list[Mapping[str, int]]) -> list[dict[str, int]]:
        """For each of `starts`, what its devices send out: which VLANs get to which device."""
        union = self.union
        # A device in somebody's hands has no power; what only passes through it, or hangs on a drawn cord, is looked at one by one.
        is_whole = union.passive.isdisjoint(self._off) and union.steady.isdisjoint(self._off)
        fixed = union.fixed if is_whole else {}
        lanes: dict[str, list[tuple[str, int]]] = {}
        for path in union.loose if is_whole else union.paths:
            if self.is_live(path):
                bits = self.carried(path)
                near, far = path.lane.devices
                lanes.setdefault(near, []).append((far, bits))
                lanes.setdefault(far, []).append((near, bits))
        return [self._reach(start, fixed, lanes) for start in starts]

    def _reach(
        self,
        start: Mapping[str, int],
        fixed: Mapping[str, list[tuple[str, int]]],
        lanes: Mapping[str, list[tuple[str, int]]],
    ) -> dict[str, int]:
        reach = {device: bits for device, bits in start.items() if self.is_powered(device)}
        waiting = list(reach)
        while waiting:
            device = waiting.pop()
            sent = reach[device]
            for other, bits in (*fixed.get(device, ()), *lanes.get(device, ())):
                more = sent & bits & ~reach.get(other, 0)
                if more and self.is_powered(other):
                    reach[other] = reach.get(other, 0) | more
                    if other in self.union.bridges and other not in waiting:
                        waiting.append(other)
        return reach

    # What comes of it

    def outcome(self) -> tuple[frozenset[str], frozenset[str]]:
        """Devices that are served by their VLANs' routers, and those that can be set from the station, which can be in any VLAN."""
        union = self.union
        from_station = {union.station: union.every_vlan} if union.station else {}
        if union.hearts == from_station:
            (reach,) = self._spread([union.hearts])
            managing = reach
        else:
            reach, managing = self._spread([union.hearts, from_station])
        return (
            frozenset(each for each in union.counted if self._is_served(each, reach)),
            frozenset(each for each in union.manageable if self._is_managed(each, managing)),
        )

    def _is_managed(self, device: str, reach: Mapping[str, int]) -> bool:
        return self.is_powered(device) and (device == self.union.station or self._reaches_own(device, reach))

    def _is_served(self, device: str, reach: Mapping[str, int]) -> bool:
        """Of a bridge that serves other VLANs than its own, as an access point does, these count: its own is for managing it."""
        needed = self.union.needed[device]
        if not self.is_powered(device) or reach.get(device, 0) & needed != needed:
            return False
        return (bool(needed) and device in self.union.manageable) or self._reaches_own(device, reach)

    def _reaches_own(self, device: str, reach: Mapping[str, int]) -> bool:
        """In the VLAN of its own address, as it is set by now. One that asks for an address takes what it gets."""
        got = reach.get(device, 0)
        if not got:
            return False
        for side in self.sides_of(device, self.union.addressed.get(device)):
            vid = side.own_vlan.get(device, PLAIN)
            if (vid == PLAIN or got & self.union.vlan_bit[vid]) and self._fits(side, device, vid):
                return True
        return False

    def _fits(self, side: Side, device: str, vid: int) -> bool:
        """Whether its router has an address in this VLAN by now; and for a fixed address, one of the same subnet."""
        old, new = self.union.sides
        if old.networks.get(vid) == new.networks.get(vid) or device in self.union.hearts:
            return True
        valid = self._subnet_sides(vid)
        return side in valid if vid in side.claims.get(device, {}) else bool(valid)

    def _subnet_sides(self, vid: int) -> list[Side]:
        """A VLAN has its new subnet once its router is set so."""
        for device in self.union.hearts:
            sides = [side for side in self.union.sides if vid in side.vlans.get(device, ())]
            if len(sides) == 2:
                return self.sides_of(device, self.union.addressed.get(device))
            if sides == [self.union.new]:
                return [each for each in self._of_net(Kind.NEW_NET, device) if each is self.union.new]
            if sides:
                return [each for each in self._of_net(Kind.OLD_NET, device) if each is self.union.old]
        return list(self.union.sides)

    def _of_net(self, kind: Kind, router: str) -> list[Side]:
        bit = self.union.bit_of(kind, router)
        return self.sides_of(router, bit if bit >= 0 else self.union.swapped.get(router))
