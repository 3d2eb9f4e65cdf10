"""A build looked up the other way round: what is at this jack, who claims this address, what was decided about this thing."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from firstfix.build.cabling import Channel, Piece
from firstfix.build.hardware import Device, Item, Mount
from firstfix.build.logical import AddressClaim
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.build.reasons import Decision

_Row = TypeVar("_Row")


@dataclass(frozen=True, slots=True)
class Views:
    """Pieces and channels by a jack at their ends, channels also by piece and run; PoE by the jack that gives or takes it, and by
    channel; claims and feeds by device, `fed` by what feeds; mounts by what is mounted; decisions and items by subject."""

    pieces: Mapping[str, tuple[Piece, ...]]
    pieces_of: Mapping[str, tuple[Piece, ...]]
    channels: Mapping[str, tuple[Channel, ...]]
    channels_over: Mapping[str, tuple[Channel, ...]]
    power: Mapping[str, tuple[PowerRun, ...]]
    claims: Mapping[str, tuple[AddressClaim, ...]]
    feeds: Mapping[str, tuple[MainsFeed, ...]]
    fed: Mapping[str, tuple[MainsFeed, ...]]
    mounts: Mapping[str, tuple[Mount, ...]]
    decisions: Mapping[str, tuple[Decision, ...]]
    items: Mapping[str, tuple[Item, ...]]
    in_room: Mapping[str, tuple[Device, ...]]


@once_per_build
def views(build: Build) -> Views:
    pieces, channels = build.pieces.values(), build.channels.values()
    return Views(
        pieces=_grouped(pieces, lambda piece: piece.ends),
        pieces_of=_grouped(pieces, lambda piece: (piece.link,)),
        channels=_grouped(channels, lambda channel: channel.ends),
        channels_over=_grouped(channels, lambda channel: _over(build, channel)),
        power=_grouped(build.power_runs.values(), lambda run: (run.source, run.sink, run.channel)),
        claims=_grouped(build.addresses, lambda claim: (claim.device,)),
        feeds=_grouped(build.mains_feeds, lambda feed: (feed.device,)),
        fed=_grouped(build.mains_feeds, lambda feed: (feed.source,)),
        mounts=_grouped(build.mounts, lambda mount: (mount.item,)),
        decisions=_grouped(build.decisions, lambda decision: (decision.subject,)),
        items=_grouped(build.items, lambda item: (item.for_id,)),
        in_room=_grouped(build.devices.values(), lambda device: (device.room,)),
    )


def _over(build: Build, channel: Channel) -> tuple[str, ...]:
    """Its pieces and the runs that these belong to."""
    return (*channel.pieces, *dict.fromkeys(build.pieces[each].link for each in channel.pieces))


def _grouped(rows: Iterable[_Row], keys: Callable[[_Row], tuple[str, ...]]) -> dict[str, tuple[_Row, ...]]:
    groups: defaultdict[str, list[_Row]] = defaultdict(list)
    for row in rows:
        for key in keys(row):
            groups[key].append(row)
    return {key: tuple(group) for key, group in groups.items()}
