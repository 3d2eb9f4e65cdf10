"""What stands where in one cabinet, read out of a build: faces to draw, side by side where they want the same units."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.squares import CABLED_BEHIND, FREE, POWERED, WIRED, Square
from firstfix.documents.drawing.network.entries import ranges
from firstfix.parts.part import ACTIVE_KINDS, Part


class Face(NamedTuple):
    """A thing as one sees it from the front: a device, or a fitting under its part's title (then `title` is "")."""

    id: str
    name: str
    title: str
    part: Part | None
    is_active: bool
    squares: tuple[Square, ...]


class Standing(NamedTuple):
    """One mount. `lane` of `lanes` from the left: more than one where several want the same units.

    `mark`: "in front", "behind", "rear", "clash" or "". `carried`: what stands on it, if it is a shelf.
    """

    mount: Mount
    face: Face | None
    carried: tuple[Face, ...]
    lane: int
    lanes: int
    mark: str


def standings(build: Build, cabinet: Cabinet) -> tuple[Standing, ...]:
    """From the top down; in the same units what is in front comes first, what is at the rear last."""
    mounts = sorted(
        (mount for mount in build.mounts if mount.cabinet == cabinet.id),
        key=lambda mount: (
            -mount.high,
            not mount.is_over,
            mount.face != "front",
            mount.low,
            mount.side,
            mount.item,
        ),
    )
    wired, powered = _jack_states(build)
    made: list[Standing] = []
    for cluster in _clusters(mounts):
        lanes = _lanes(cluster)
        for mount, lane in zip(cluster, lanes, strict=True):
            face = face_of(build, mount.item, wired, powered) if mount.item else None
            carried = tuple(
                face_of(build, device.id, wired, powered)
                for device in build.devices.values()
                if device.carried_by and device.carried_by == mount.item
            )
            made.append(Standing(mount, face, carried, lane, max(lanes) + 1, _mark(mount, cluster)))
    return tuple(made)


def _clusters(mounts: list[Mount]) -> list[list[Mount]]:
    """Mounts sorted from the top down, cut where no unit is wanted on both sides of the cut."""
    clusters: list[list[Mount]] = []
    lowest = 0
    for mount in mounts:
        if clusters and mount.high >= lowest:
            clusters[-1].append(mount)
            lowest = min(lowest, mount.low)
        else:
            clusters.append([mount])
            lowest = mount.low
    return clusters


def _lanes(cluster: list[Mount]) -> list[int]:
    lanes: list[int] = []
    for index, mount in enumerate(cluster):
        taken = {lanes[other] for other in range(index) if _overlap(cluster[other], mount)}
        lanes.append(next(lane for lane in range(len(cluster)) if lane not in taken))
    return lanes


def _overlap(one: Mount, other: Mount) -> bool:
    return one.low <= other.high and other.low <= one.high


def _mark(mount: Mount, cluster: list[Mount]) -> str:
    others = [other for other in cluster if other is not mount and _overlap(mount, other)]
    if mount.is_over:
        return "in front"
    if any(
        other.face == mount.face and not other.is_over and not _are_a_pair(mount, other) for other in others
    ):
        return "clash"
    if mount.face != "front":
        return "rear"
    return "behind" if any(other.is_over for other in others) else ""


def _are_a_pair(one: Mount, other: Mount) -> bool:
    """Two of half the width, said to stand side by side."""
    return {one.side, other.side} == {"left", "right"}


def _jack_states(build: Build) -> tuple[frozenset[str], frozenset[str]]:
    wired = frozenset(end for piece in build.pieces.values() for end in piece.ends)
    return wired, frozenset(end for run in build.power_runs.values() for end in (run.source, run.sink))


def face_of(build: Build, item: str, wired: frozenset[str], powered: frozenset[str]) -> Face:
    """The face of a device or a fitting; of an id that is neither, its own words."""
    device = build.devices.get(item)
    if device is None:
        fitting = build.fittings.get(item)
        return Face(
            item,
            fitting.part.title if fitting else ids.path(item),
            "",
            fitting.part if fitting else None,
            False,
            (),
        )
    fronts = [jack for each in build.jacks_of.get(item, ()) if (jack := build.jacks[each]).face == "front"]
    squares = tuple(Square(jack.name, _state(jack.id, wired, powered)) for jack in fronts)
    return Face(item, device.name, device.part.title, device.part, device.part.kind in ACTIVE_KINDS, squares)


def _state(jack: str, wired: frozenset[str], powered: frozenset[str]) -> str:
    if jack in powered:
        return POWERED
    if jack in wired:
        return WIRED
    return CABLED_BEHIND if f"{jack}@rear" in wired else FREE


def wired_words(face: Face) -> str:
    """ "wired: 1–5, 9", or "" for a thing without jacks."""
    if not face.squares:
        return ""
    names = [square.name for square in face.squares if square.state in (WIRED, POWERED)]
    return f"wired: {', '.join(ranges(names))}" if names else "no jack wired"


def empty_units(build: Build, cabinet: Cabinet) -> tuple[tuple[int, int], ...]:
    """Ranges (low, high) of units that nothing wants, from the top down."""
    taken = {
        unit
        for mount in build.mounts
        if mount.cabinet == cabinet.id
        for unit in range(max(1, mount.low), min(cabinet.units, mount.high) + 1)
    }
    found: list[tuple[int, int]] = []
    for unit in range(cabinet.units, 0, -1):
        if unit in taken:
            continue
        if found and found[-1][0] == unit + 1:
            found[-1] = (unit, found[-1][1])
        else:
            found.append((unit, unit))
    return tuple(found)
