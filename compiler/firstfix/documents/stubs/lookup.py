"""A build, looked up the way a settings sheet asks: what is at this jack, what does this device claim. Made
once a build.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from firstfix.build.cabling import Channel, Piece
from firstfix.build.hardware import Device, Mount
from firstfix.build.logical import AddressClaim, PortSetup, Vlan
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.build.reasons import Gap
from firstfix.standards.layer2 import number_ranges

RowT = TypeVar("RowT")


@dataclass(frozen=True, slots=True)
class Lookup:
    """`channels` and `pieces` are by a jack that they end at; `powering` and `powered` are PoE runs by the
    jack that gives or takes, `power_over` by channel; the others are by device, mounts by what is mounted,
    gaps by their subject.
    """

    build: Build
    channels: Mapping[str, tuple[Channel, ...]]
    pieces: Mapping[str, tuple[Piece, ...]]
    lanes: Mapping[str, tuple[Channel, ...]]
    powering: Mapping[str, tuple[PowerRun, ...]]
    powered: Mapping[str, tuple[PowerRun, ...]]
    power_over: Mapping[str, tuple[PowerRun, ...]]
    claims: Mapping[str, tuple[AddressClaim, ...]]
    feeds: Mapping[str, tuple[MainsFeed, ...]]
    mounts: Mapping[str, tuple[Mount, ...]]
    gaps: Mapping[str, tuple[Gap, ...]]
    usable_numbers: frozenset[int]

    def owner(self, jack: str) -> Device:
        return self.build.devices[self.build.jacks[jack].device]

    def wired_jacks(self, device: str) -> tuple[str, ...]:
        """The jacks of a device that a piece ends at, in their order."""
        return tuple(jack for jack in self.build.jacks_of.get(device, ()) if jack in self.pieces)

    def channel(self, jack: str) -> Channel | None:
        """The channel at a jack; a jack wired twice is a fault that a rule reports, and shows the first."""
        return next(iter(self.channels.get(jack, ())), None)

    def far_jack(self, jack: str) -> str:
        """The active jack at the other end of the channel, or "" where none is reached."""
        channel = self.channel(jack)
        if channel is None:
            return ""
        near, far = channel.ends
        return far if near == jack else near

    def setup(self, jack: str) -> PortSetup | None:
        return self.build.port_setups.get(jack)

    def vlan(self, id_: str) -> Vlan | None:
        """The VLAN, where it can be set up: its number is allowed (IEEE Std 802.1Q) and no other VLAN's."""
        found = self.build.vlans.get(id_)
        return found if found is not None and found.vid in self.usable_numbers else None


def lookup(build: Build) -> Lookup:
    channels, runs = build.channels.values(), build.power_runs.values()
    return Lookup(
        build,
        channels=_grouped(channels, lambda channel: channel.ends),
        pieces=_grouped(build.pieces.values(), lambda piece: piece.ends),
        lanes=_grouped(channels, lambda channel: (channel.link,)),
        powering=_grouped(runs, lambda run: (run.source,)),
        powered=_grouped(runs, lambda run: (run.sink,)),
        power_over=_grouped(runs, lambda run: (run.channel,)),
        claims=_grouped(build.addresses, lambda claim: (claim.device,)),
        feeds=_grouped(build.mains_feeds, lambda feed: (feed.device,)),
        mounts=_grouped(build.mounts, lambda mount: (mount.item,)),
        gaps=_grouped(build.gaps, lambda gap: (gap.subject,)),
        usable_numbers=_usable_numbers(build),
    )


def _usable_numbers(build: Build) -> frozenset[int]:
    counted = Counter(vlan.vid for vlan in build.vlans.values())
    allowed = number_ranges()["vlan-id"]
    return frozenset(vid for vid, count in counted.items() if count == 1 and allowed.admits(vid))


def _grouped(rows: Iterable[RowT], keys: Callable[[RowT], tuple[str, ...]]) -> dict[str, tuple[RowT, ...]]:
    groups: defaultdict[str, list[RowT]] = defaultdict(list)
    for row in rows:
        for key in keys(row):
            groups[key].append(row)
    return {key: tuple(group) for key, group in groups.items()}
