"""One build as a changeover sees it: what stands where, what is plugged into what, how each jack is set, what feeds whom.

Takes a build and the names that its things bear in the other one; gives a Side, in which both call the same thing the same.
VLANs go by their number, which is what devices are set to: one that only changes its name changes nothing.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import CORD, Channel, Piece
from firstfix.build.hardware import Device
from firstfix.build.logical import PortSetup
from firstfix.build.model import Build
from firstfix.build.renames import renamed
from firstfix.graphs.consumption import consumption
from firstfix.parts.facts import Fact, Figure
from firstfix.physics.mains import continuous_power

# The network of jacks that are in no VLAN, as they come from their box; no VLAN has this number (IEEE 802.1Q: 1 to 4094).
PLAIN = 0


class Setting(NamedTuple):
    """How one jack is set: the number of its untagged VLAN or PLAIN, those it takes tagged, and the aggregate it is a lane of."""

    untagged: int = PLAIN
    tagged: frozenset[int] = frozenset()
    group: str = ""


class Laid(NamedTuple):
    """A cord or a run under its new names. `key` tells whether the other side has the same one."""

    key: str
    piece: Piece
    link: str
    ends: tuple[str, str]

    @property
    def is_cord(self) -> bool:
        return self.piece.kind == CORD

    @property
    def cable(self) -> str:
        """What it is and where it lies, wherever it ends."""
        return self.key.removeprefix(" ".join(self.ends))


class Lane(NamedTuple):
    """A channel between two active jacks. `pieces` are keys of Laid; `outside`: it leads to the provider's line."""

    jacks: tuple[str, str]
    devices: tuple[str, str]
    pieces: tuple[str, ...]
    through: tuple[str, ...]
    link: str
    outside: bool


class PoeFeed(NamedTuple):
    """PoE to `sink` from `source`, both devices, over `pieces`; `watts` is what the source counts for it, at its most."""

    source: str
    sink: str
    pieces: tuple[str, ...]
    watts: float
    is_known: bool


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """Everything by ids under the new names. `places`: room, cabinet, units and what carries a device. `feeds`: sources of mains,
    one for each lead. `outlets`: how many a room or strip has, where that is known. `budgets`: watts of PoE. `carries`: watts
    that a strip, UPS or circuit bears. `draws`: watts of each device as usual, without what it hands on. `own_vlan`, `vlans`: numbers.
    `claims`: fixed addresses by VLAN's number, and `networks` subnet and gateway by it. `units`: of what is mounted. `fittings`:
    cabinet, units, part. `names`: what the other side calls otherwise.
    """

    build: Build
    names: Mapping[str, str]
    devices: Mapping[str, Device]
    places: Mapping[str, tuple[str, ...]]
    laid: Mapping[str, Laid]
    lanes: tuple[Lane, ...]
    settings: Mapping[str, Setting]
    feeds: Mapping[str, tuple[str, ...]]
    poe: tuple[PoeFeed, ...]
    outlets: Mapping[str, int]
    budgets: Mapping[str, float]
    carries: Mapping[str, float]
    circuit_of: Mapping[str, str]
    draws: Mapping[str, float]
    own_vlan: Mapping[str, int]
    vlans: Mapping[str, frozenset[int]]
    claims: Mapping[str, Mapping[int, str]]
    networks: Mapping[int, tuple[str, str]]
    units: Mapping[str, tuple[str, int, int, str, str]]
    fittings: frozenset[tuple[str, str, str]]


def side_of(build: Build, names: Mapping[str, str]) -> Side:
    """`names`: ids that the other build calls otherwise; none for the new one."""

    def call(id_: str) -> str:
        return renamed(id_, names)

    number = {vlan.id: vlan.vid for vlan in build.vlans.values()} | {"": PLAIN}
    laid = {piece.id: _laid(piece, names) for piece in build.pieces.values()}
    group_of = _aggregates(build)
    claims: dict[str, dict[int, str]] = {}
    for claim in build.addresses:
        claims.setdefault(call(claim.device), {})[number[claim.vlan]] = f"{claim.address}/{claim.prefix}"
    return Side(
        build,
        names,
        {call(each.id): each for each in build.devices.values()},
        _places(build, names),
        {each.key: each for each in sorted(laid.values())},
        tuple(_lane(build, channel, laid, names) for channel in build.channels.values()),
        {call(jack): _setting(setup, number, call(group_of.get(jack, ""))) for jack, setup in build.port_setups.items()},
        _feeds(build, names),
        tuple(_poe(build, laid, names)),
        _outlets(build, names),
        {call(each.device): each.budget.low for each in build.power_sources.values() if isinstance(each.budget, Fact)},
        _carries(build, names),
        {call(room): circuit.id for circuit in build.circuits.values() for room in circuit.rooms},
        {call(each.id): _draw(build, each) for each in build.devices.values()},
        {call(device): number[vlans[0]] for device, vlans in build.memberships.items() if vlans},
        {
            call(device): frozenset(number[each] for each in vlans if each)
            for device, vlans in build.memberships.items()
        },
        claims,
        {vlan.vid: (vlan.subnet, vlan.gateway) for vlan in build.vlans.values()},
        {
            call(each.item): (call(each.cabinet), each.low, each.high, each.face, each.side)
            for each in build.mounts
            if each.item and not each.is_over
        },
        frozenset(
            (call(each.cabinet), ids.path(each.id).rpartition("/")[2], each.part.name)
            for each in build.fittings.values()
        ),
    )  # fmt: skip


def _laid(piece: Piece, names: Mapping[str, str]) -> Laid:
    low, high = sorted(renamed(end, names) for end in piece.ends)
    how = f"{piece.colour} {piece.length.sold:g}" if piece.kind == CORD else _route(piece, names)
    key = f"{low} {high} {piece.kind} {piece.part} {how}"
    return Laid(key, piece, renamed(piece.link, names), (low, high))


def _route(piece: Piece, names: Mapping[str, str]) -> str:
    ways = [renamed(way, names) for way in piece.route]
    return " ".join(min(ways, ways[::-1]))


def _lane(build: Build, channel: Channel, laid: Mapping[str, Laid], names: Mapping[str, str]) -> Lane:
    """The two ends in order of their names, so that both sides write the same lane the same."""
    ends = sorted((renamed(end, names), end) for end in channel.ends)
    jacks = [build.jacks[end] for _, end in ends]
    return Lane(
        (ends[0][0], ends[1][0]),
        (renamed(jacks[0].device, names), renamed(jacks[1].device, names)),
        tuple(sorted(laid[each].key for each in channel.pieces)),
        tuple(sorted(renamed(each, names) for each in channel.through)),
        renamed(channel.link, names),
        any(jack.side != "inside" for jack in jacks),
    )


def _setting(setup: PortSetup, number: Mapping[str, int], group: str) -> Setting:
    return Setting(number[setup.untagged], frozenset(number[each] for each in setup.tagged), group)


def _aggregates(build: Build) -> Mapping[str, str]:
    """Jack to the link that it is one of several lanes of, at ends that can make one of them."""
    return {
        end: channel.link
        for channel in build.channels.values()
        if build.links[channel.link].lanes > 1
        for end in channel.ends
        if build.devices[build.jacks[end].device].part.vlan_aware is not False
    }


def _places(build: Build, names: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    mounts = {mount.item: mount for mount in build.mounts if mount.item}
    found = {}
    for device in build.devices.values():
        mount = mounts.get(device.id)
        units = (f"{mount.low}-{mount.high}", mount.face, mount.side) if mount else ()
        carried = _shelf(build, device.carried_by, mounts.get(device.carried_by))
        where = (device.room, device.cabinet)
        found[renamed(device.id, names)] = (*(renamed(each, names) for each in where), carried, *units)
    return found


def _shelf(build: Build, carried_by: str, mount: object) -> str:
    """A shelf is told by its units: its id says them."""
    return ids.path(carried_by).rpartition("/")[2] if carried_by in build.fittings or mount else ""


def _feeds(build: Build, names: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    """Which outlet of its source a lead is in makes no difference."""
    found: dict[str, list[str]] = {}
    for feed in build.mains_feeds:
        found.setdefault(renamed(feed.device, names), []).append(renamed(feed.source, names))
    return {device: tuple(sorted(sources)) for device, sources in found.items()}


def _poe(build: Build, laid: Mapping[str, Laid], names: Mapping[str, str]) -> list[PoeFeed]:
    found = []
    for run in build.power_runs.values():
        sink = run.feeds or build.jacks[run.sink].device
        source = build.jacks[run.source].device
        watts = run.reserved.high if isinstance(run.reserved, Fact) else 0.0
        pieces = tuple(sorted(laid[each].key for each in run.pieces))
        known = isinstance(run.reserved, Fact)
        found.append(PoeFeed(renamed(source, names), renamed(sink, names), pieces, watts, known))
    return sorted(found)


def _outlets(build: Build, names: Mapping[str, str]) -> dict[str, int]:
    rooms = {each.id: _count(each.mains_outlets) for each in build.rooms.values()}
    strips = {each.id: each.part.mains.outlets or None for each in build.devices.values()}
    return {renamed(id_, names): count for id_, count in (rooms | strips).items() if count is not None}


def _count(figure: Figure) -> int | None:
    return int(figure.low) if isinstance(figure, Fact) else None


def _carries(build: Build, names: Mapping[str, str]) -> dict[str, float]:
    """Of a strip or UPS its rating, of a circuit what it may carry for hours."""
    found = {
        renamed(each.id, names): rating.low
        for each in build.devices.values()
        if isinstance(rating := each.part.mains.rating, Fact)
    }
    for circuit in build.circuits.values():
        if isinstance(circuit.volts, Fact) and isinstance(circuit.rating, Fact):
            found[circuit.id] = float(continuous_power(circuit.volts.low, circuit.rating.low))
    return found


def _draw(build: Build, device: Device) -> float:
    found = consumption(build, device)
    return found.own.usual + found.lost.usual
