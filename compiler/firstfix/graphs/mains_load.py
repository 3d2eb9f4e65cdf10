"""What hangs on a strip, a UPS or a circuit, and what it takes: from its least to its most, and what leaks to earth.

Takes a build; gives loads by what feeds them. A thing with several leads may draw all of it through any one of them.
"""

from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.power import Circuit, MainsFeed
from firstfix.graphs.consumption import NOTHING, Spread, consumption
from firstfix.parts.facts import Fact, Figure
from firstfix.parts.part import MAINS_KINDS


class Load(NamedTuple):
    """One thing behind a strip, UPS or circuit. `taken`: watts through it. `leads`: how many of its `of` leads hang there."""

    device: Device
    taken: Spread
    leads: int
    of: int
    basis: str


class Loads(NamedTuple):
    """In the natural order of names. `missing`: facts without which the most is a bound only or infinite."""

    loads: tuple[Load, ...]
    total: Spread
    missing: tuple[str, ...]


class MainsLoads:
    """Who is plugged in where, looked up by what feeds."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._fed: defaultdict[str, list[MainsFeed]] = defaultdict(list)
        self._leads: defaultdict[str, int] = defaultdict(int)
        for feed in build.mains_feeds:
            self._fed[feed.source].append(feed)
            self._leads[feed.device] += 1

    def plugged_into(self, source: str) -> tuple[Device, ...]:
        """Those at the outlets of one strip, UPS or room, one for each lead."""
        return tuple(self._build.devices[feed.device] for feed in self._fed.get(source, ()))

    def behind(self, *sources: str) -> Loads:
        """All that hangs on the outlets of these (strips, UPSs, rooms), through further strips and UPSs too."""
        leads = self._downstream(sources)
        loads, missing = [], list[str]()
        for device_id in sorted(leads, key=natural):
            device = self._build.devices[device_id]
            load, doubts = self._load(device, leads[device_id])
            loads.append(load)
            missing += doubts
        total = NOTHING
        for each in loads:
            total = total.plus(each.taken)
        return Loads(tuple(loads), total, tuple(dict.fromkeys(missing)))

    def of_circuit(self, circuit: Circuit) -> Loads:
        return self.behind(*circuit.rooms)

    def _downstream(self, sources: Iterable[str]) -> dict[str, int]:
        """Devices to the count of their leads that hang there."""
        leads: defaultdict[str, int] = defaultdict(int)
        ahead, seen = list(sources), set(sources)
        while ahead:
            for feed in self._fed.get(ahead.pop(), ()):
                leads[feed.device] += 1
                hands_on = self._build.devices[feed.device].part.kind in MAINS_KINDS
                if hands_on and feed.device not in seen:
                    seen.add(feed.device)
                    ahead.append(feed.device)
        return leads

    def _load(self, device: Device, leads: int) -> tuple[Load, tuple[str, ...]]:
        found, of = consumption(self._build, device), self._leads[device.id]
        taken = found.taken
        if leads < of:
            taken = Spread(0.0, taken.usual * leads / of, taken.most)
        return Load(device, taken, leads, of, found.basis), found.missing


mains_loads = once_per_build(MainsLoads)
"""The loads of a build, found once for all that ask."""


def leakage(loads: Loads) -> tuple[float, float, tuple[str, ...]]:
    """Amperes to earth in use, usual and at the most, of those that say it; and whose isn't known."""
    usual = most = 0.0
    unknown = []
    for each in loads.loads:
        figure: Figure = each.device.part.mains.leakage
        if isinstance(figure, Fact):
            usual += figure.typical
            most += figure.high
        else:
            unknown.append(f"what '{each.device.name}' leaks to earth (`mains: {{leakage: …}}` of its part)")
    return usual, most, tuple(unknown)


@once_per_build
def strips(build: Build) -> tuple[Device, ...]:
    """Strips and UPSs into which something is plugged, in order of ids."""
    fed = {feed.source for feed in build.mains_feeds}
    found = (build.devices.get(each) for each in sorted(fed))
    return tuple(each for each in found if each is not None and each.part.kind in MAINS_KINDS)
