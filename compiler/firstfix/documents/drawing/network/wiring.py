"""What a network drawing shows, read out of a build: hubs with a row for each jack in use, and trunks between hubs.

A hub is a device that others hang on: switches, gateways, and whatever else joins two or more channels. All other devices
are named in the row of the jack that they hang on.
"""

from collections import defaultdict, deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import RUN, Channel, Piece
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.parts.facts import Fact, Unknown
from firstfix.units import metres, watts

HUB_KINDS = ("gateway", "switch")


class Wire(NamedTuple):
    """One channel in words. `via` are the passive jacks on the way, from `near` to `far`, both jack ids.

    `powered` are the jacks that give or take its PoE: with an injector in line, the switch's own jack isn't one of them.
    """

    channel: str
    near: str
    far: str
    via: tuple[str, ...]
    length: str
    power: str
    powered: tuple[str, ...]
    medium: str
    cable: str
    is_run: bool
    spare_for: str
    ways: tuple[str, ...]

    def reversed(self) -> "Wire":
        return self._replace(near=self.far, far=self.near, via=self.via[::-1])


class Row(NamedTuple):
    """One jack in use: where the wire goes, `peer` being the device at its far end. `is_trunk`: the peer is a hub too."""

    wire: Wire
    peer: str
    is_trunk: bool


class Hub(NamedTuple):
    """`left_out`: how many more of its jacks are wired, on a drawing of a part of the network."""

    device: str
    rows: tuple[Row, ...]
    free: tuple[str, ...]
    left_out: int = 0


@dataclass(frozen=True, slots=True)
class Wiring:
    """`trunks` run from the hub nearer to the gateway to the farther one. `rest` are the devices that no channel reaches.

    `stem`: what the names of its sheets begin with.
    """

    build: Build
    hubs: Mapping[str, Hub]
    trunks: tuple[Wire, ...]
    rest: tuple[str, ...]
    places: Mapping[str, str]
    stem: str = "network"

    def device(self, jack: str) -> str:
        return device_of(self.build, jack)


def wiring(build: Build) -> Wiring:
    """Read `build` once, in sorted order."""
    ends = {channel.id: _ends(build, channel) for channel in build.channels.values()}
    hubs = _hubs(build, ends)
    powered = {run.channel: run for run in reversed(list(build.power_runs.values()))}
    rows: dict[str, list[Row]] = defaultdict(list)
    trunks: list[Wire] = []
    for channel in build.channels.values():
        wire = _wire(build, channel, powered.get(channel.id))
        near, far = ends[channel.id]
        if near in hubs:
            rows[near].append(Row(wire, far, far in hubs))
        if far in hubs and far != near:
            rows[far].append(Row(wire.reversed(), near, near in hubs))
        if near in hubs and far in hubs:
            trunks.append(wire)
    reached = {end for pair in ends.values() for end in pair} | {
        each for one in build.channels.values() for each in one.through
    }
    return Wiring(
        build,
        {hub: _hub(build, hub, rows[hub]) for hub in sorted(hubs)},
        _outward(build, trunks, hubs),
        tuple(device for device in build.devices if device not in reached and device not in hubs),
        heights(build),
    )


def device_of(build: Build, jack: str) -> str:
    """The id of the device that has `jack`; also for a jack that the build doesn't hold."""
    known = build.jacks.get(jack)
    return known.device if known else "device:" + ids.path(jack).removesuffix("@rear").rpartition("/")[0]


def jack_name(build: Build, jack: str) -> str:
    known = build.jacks.get(jack)
    return known.name if known else ids.path(jack).removesuffix("@rear").rpartition("/")[2]


def device_name(build: Build, device: str) -> str:
    known = build.devices.get(device)
    return known.name if known else ids.path(device)


def shown_jack(build: Build, jack: str) -> str:
    """`panel/3`: as a plan writes it. A device with a single jack goes by its name alone."""
    device = device_of(build, jack)
    is_only = len({build.jacks[each].name for each in build.jacks_of.get(device, ())}) == 1
    name = device_name(build, device)
    return name if is_only else f"{name}/{jack_name(build, jack)}"


def _ends(build: Build, channel: Channel) -> tuple[str, str]:
    near, far = channel.ends
    return device_of(build, near), device_of(build, far)


def _hubs(build: Build, ends: Mapping[str, tuple[str, str]]) -> set[str]:
    """Switches and gateways, other bridging devices with two channels, and one end of any channel left without a hub."""
    count: dict[str, int] = defaultdict(int)
    for pair in ends.values():
        for device in set(pair):
            count[device] += 1
    hubs = {id_ for id_, device in build.devices.items() if _is_hub(device, count[id_])}
    for near, far in ends.values():
        if near not in hubs and far not in hubs:
            hubs.add(min((near, far), key=lambda end: (-count[end], end)))
    return hubs


def _is_hub(device: Device, channels: int) -> bool:
    if device.part.kind in HUB_KINDS:
        return channels > 0
    return device.part.bridges is True and channels > 1


def _hub(build: Build, device: str, rows: Iterable[Row]) -> Hub:
    ordered = sorted(rows, key=lambda row: (_order(build, row.wire.near), row.wire.channel))
    used = {row.wire.near for row in ordered}
    free = tuple(
        jack
        for jack in build.jacks_of.get(device, ())
        if jack not in used and build.jacks[jack].face == "front"
    )
    return Hub(device, tuple(ordered), free)


def _order(build: Build, jack: str) -> tuple[int, str]:
    known = build.jacks.get(jack)
    return (known.order, known.name) if known else (0, jack)


def _wire(build: Build, channel: Channel, run: PowerRun | None) -> Wire:
    pieces = [build.pieces[each] for each in channel.pieces if each in build.pieces]
    link = build.links.get(channel.link)
    longest = max(
        pieces, key=lambda piece: (piece.kind == RUN, _metres(piece) or 0.0, piece.id), default=None
    )
    part = build.library.get(longest.part) if longest else None
    return Wire(
        channel=channel.id,
        near=channel.ends[0],
        far=channel.ends[1],
        via=_via(build, channel, pieces),
        length=_length(pieces),
        power=_power(build, channel, run),
        powered=(run.source, run.sink) if run else (),
        medium=channel.medium,
        cable=_cable(channel.medium, part.cable.category if part and part.cable else ""),
        is_run=any(piece.kind == RUN for piece in pieces),
        spare_for=link.spare_for if link else "",
        ways=tuple(dict.fromkeys(way for piece in pieces for way in piece.route)),
    )


def _via(build: Build, channel: Channel, pieces: list[Piece]) -> tuple[str, ...]:
    """The passive things passed, each by the jack that is passed; an in-line thing has two and goes by its name."""
    shown: list[str] = []
    for device in channel.through:
        names = {
            jack_name(build, jack): jack for piece in pieces for jack in piece.ends if device_of(build, jack) == device
        }  # fmt: skip
        shown.append(
            shown_jack(build, next(iter(names.values()))) if len(names) == 1 else device_name(build, device)
        )
    return tuple(shown)


def _cable(medium: str, category: str) -> str:
    """ "category 6" or "OS2 fibre", by the words of ISO/IEC 11801-1; the medium alone where the category isn't known."""
    if not category:
        return medium
    return f"category {category.upper()}" if medium == "copper" else f"{category.upper()} {medium}"


def _metres(piece: Piece) -> float | None:
    figure = piece.length.figure
    return figure.high if isinstance(figure, Fact) else None


def _length(pieces: list[Piece]) -> str:
    """Of the whole channel, to a tenth of a metre: a drawing is no cutting list."""
    lengths = [_metres(piece) for piece in pieces]
    known = [length for length in lengths if length is not None]
    if not pieces or len(known) < len(lengths):
        return "? m"
    total = sum(known)
    return metres(round(total, 1)) if total >= 0.5 else metres(total)


def _power(build: Build, channel: Channel, run: PowerRun | None) -> str:
    if run is None:
        return ""
    drawn = "? W" if isinstance(run.drawn, Unknown) else watts(round(run.drawn.high, 1))
    giver = device_of(build, run.source)
    return f"PoE {drawn}" + (f" from {device_name(build, giver)}" if giver in channel.through else "")


def _outward(build: Build, trunks: list[Wire], hubs: set[str]) -> tuple[Wire, ...]:
    """Each trunk from the hub nearer to its network's root to the farther one: drawings read from left to right."""
    beside: dict[str, list[str]] = defaultdict(list)
    for wire in trunks:
        near, far = device_of(build, wire.near), device_of(build, wire.far)
        beside[near].append(far)
        beside[far].append(near)
    depth = depths(beside, sorted(hubs, key=lambda hub: root_key(build, hub, len(beside[hub]))))
    return tuple(
        wire
        if (depth[device_of(build, wire.near)], wire.near) <= (depth[device_of(build, wire.far)], wire.far)
        else wire.reversed()
        for wire in trunks
    )


def root_key(build: Build, hub: str, trunks: int) -> tuple[bool, int, str]:
    device = build.devices.get(hub)
    return device is None or device.part.kind != "gateway", -trunks, hub


def depths(beside: Mapping[str, list[str]], roots: list[str]) -> dict[str, int]:
    """How many steps each is from the first of `roots` that reaches it; breadth first, in sorted order."""
    depth: dict[str, int] = {}
    for root in roots:
        if root in depth:
            continue
        depth[root] = 0
        waiting = deque([root])
        while waiting:
            hub = waiting.popleft()
            for other in sorted(beside.get(hub, ())):
                if other not in depth:
                    depth[other] = depth[hub] + 1
                    waiting.append(other)
    return depth


def heights(build: Build) -> dict[str, str]:
    """Item id to where it is mounted: "main U8"."""
    return {
        mount.item: f"{ids.path(mount.cabinet)} U{mount.low}"
        + (f"–{mount.high}" if mount.high > mount.low else "")
        for mount in build.mounts
        if mount.item
    }
