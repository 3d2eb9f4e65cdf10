"""A device and its neighbourhood: what is reached from it over so many channels, and all that joins those."""

from collections import defaultdict

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.kit.svg import Drawing, safe_name
from firstfix.documents.drawing.network.drawings import drawings_of
from firstfix.documents.drawing.network.wiring import Hub, Wiring, device_name, device_of, wiring


def around_drawings(build: Build, device: str, hops: int, prefix: str = "") -> tuple[Drawing, ...]:
    """The network within `hops` channels of `device`, at least one; none where no channel reaches it or passes it."""
    found = _part(wiring(build), device, hops)
    if not found.hubs:
        return ()
    name = device_name(build, device)
    far = f"within {hops} channel{'' if hops == 1 else 's'}"
    return drawings_of(found, f"Around {name}{BETWEEN}{far}", prefix)


def _part(found: Wiring, device: str, hops: int) -> Wiring:
    """Hubs and their rows as far as they are reached; every hub says how many more of its jacks are wired."""
    build = found.build
    chosen = _channels(build, device, hops)
    hubs: dict[str, Hub] = {}
    for id_, hub in found.hubs.items():
        rows = tuple(row for row in hub.rows if row.wire.channel in chosen)
        if rows:
            hubs[id_] = Hub(id_, rows, hub.free, len(hub.rows) - len(rows))
    # A hub that nothing else is seen of is a device in another one's row: it needs no table of its own.
    hubs = _folded(hubs, device)
    hubs = {
        id_: hub._replace(rows=tuple(row._replace(is_trunk=row.peer in hubs) for row in hub.rows))
        for id_, hub in hubs.items()
    }
    trunks = tuple(
        wire
        for wire in found.trunks
        if wire.channel in chosen and {found.device(wire.near), found.device(wire.far)} <= hubs.keys()
    )
    stem = f"around-{safe_name(device_name(build, device))}"
    return Wiring(build, hubs, trunks, (), found.places, stem)


def _folded(hubs: dict[str, Hub], device: str) -> dict[str, Hub]:
    kept = dict(hubs)
    for id_ in sorted(hubs):
        rows = kept[id_].rows
        if id_ != device and len(rows) == 1 and rows[0].peer in kept and rows[0].peer != id_:
            del kept[id_]
    return kept


def _channels(build: Build, device: str, hops: int) -> frozenset[str]:
    """Ids of the channels; from a passive device, those that pass it are the first."""
    at: dict[str, list[str]] = defaultdict(list)
    for channel in build.channels.values():
        for place in {*(device_of(build, end) for end in channel.ends), *channel.through}:
            at[place].append(channel.id)
    chosen: set[str] = set()
    reached, new = {device}, {device}
    for _ in range(hops):
        fresh = {channel for place in new for channel in at.get(place, ())} - chosen
        chosen |= fresh
        ends = {device_of(build, end) for channel in fresh for end in build.channels[channel].ends}
        new = ends - reached
        reached |= ends
    return frozenset(chosen)
