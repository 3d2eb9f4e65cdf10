"""What cures a gap that has more to it than a word to write instead: a room that its cabinet contradicts, a plug without an outlet.

Takes a build and the gap; gives cures.
"""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.reasons import Gap
from firstfix.finding.model import Cure
from firstfix.parts.facts import Fact
from firstfix.parts.part import MAINS_KINDS, Part
from firstfix.rules.prices import Wanted, cheapest, cost
from firstfix.source.node import clip

_LOCAL = "local"
_INDOORS = "indoor"
_ELECTRICIAN = "have outlets added in the wall by a licensed electrician, to local codes"


def room_cures(build: Build, gap: Gap) -> tuple[Cure, ...]:
    """One of the two places goes: the cabinet's, or the room that is written."""
    device = build.devices.get(gap.subject)
    if device is None or not device.cabinet:
        return ()
    name, cabinet = clip(device.name), ids.path(device.cabinet)
    stands = device.carried_by or device.id
    units = sorted({mount.low for mount in build.mounts if mount.item == stands})
    where = f"unit {units[0]} of the layout of '{cabinet}'" if units else f"the layout of '{cabinet}'"
    how = " (from the `carries` of what stands there)" if device.carried_by else ""
    return (
        Cure(f"to move it, take '{name}' out of {where}{how} as well"),
        Cure(f"to leave it in '{cabinet}', take its `room` out"),
    )


def outlet_cures(build: Build, gap: Gap) -> tuple[Cure, ...]:
    """One more strip for all that find no outlet in the room, if an outlet of the room can feed it; else the electrician."""
    device = build.devices.get(gap.subject)
    electrician = Cure(_ELECTRICIAN)
    if device is None or device.part.mains.inlet == "" or device.part.kind in MAINS_KINDS:
        return (electrician,)
    waiting = [each for each in _waiting(build) if each.room == device.room]
    moved = _on_the_wall(build, device.room)
    if moved is None:
        return (electrician,)
    needed = len(waiting) + (1 if moved else 0)
    strip = cheapest(build, _strips, bool(device.cabinet), needed, device.part.mains.shape)
    if strip is None or _is_outdoors(build, device.room):
        return (electrician,)
    takes = (
        f"in the wall outlet of '{clip(moved)}', which goes into it too" if moved else "in a free wall outlet"
    )
    price = cost(build, (Wanted(strip.name, 1),))
    words = f"one more strip in '{ids.path(device.room)}': '{strip.name}', {strip.mains.outlets} outlets, {price}, {takes}"
    return (Cure(words), Cure(f"or {_ELECTRICIAN}"))


def _waiting(build: Build) -> Iterator[Device]:
    subjects = {gap.subject for gap in build.gaps if gap.rule == "mains-outlets"}
    return (build.devices[each] for each in sorted(subjects) if each in build.devices)


def _on_the_wall(build: Build, room: str) -> str | None:
    """Whose outlet of the room a strip could have: "" where one is free, None where there is none to be had."""
    if room not in build.rooms:
        return None
    feeds = [feed for feed in build.mains_feeds if feed.source == room]
    count = build.rooms[room].mains_outlets
    if isinstance(count, Fact) and len(feeds) < count.typical:
        return ""
    plain = (build.devices[feed.device].name for feed in feeds if build.devices[feed.device].part.kind not in MAINS_KINDS)  # fmt: skip
    return min(plain, key=ids.natural, default=None)


def _is_outdoors(build: Build, room: str) -> bool:
    return build.rooms[room].is_outdoors


def _strips(build: Build, in_cabinet: bool, outlets: int, shape: object) -> Iterator[Part]:
    """With a lead for the country's outlets and outlets for its plugs; between rails in a cabinet, else lying free."""
    for part in build.library.values():
        if part.kind != "power-strip" or part.name in build.purchase.sold_out:
            continue
        mains = part.mains
        is_between_rails = part.rack is not None and part.rack.height > 0
        if (
            mains.outlets >= outlets
            and mains.inlet == "plug"
            and mains.shape == _LOCAL
            and mains.sockets in (_LOCAL, shape)
            and is_between_rails == in_cabinet
        ):
            yield part
