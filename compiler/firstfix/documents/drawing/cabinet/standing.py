"""What stands where in one cabinet, read out of a build: faces to draw, side by side where they want the same units."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.documents.drawing.kit.squares import CABLED_BEHIND, FREE, POWERED, WIRED, Square
from firstfix.documents.drawing.network.entries import ranges
from firstfix.graphs.cabinet_view import carried_by
from firstfix.parts.facts import Fact
from firstfix.parts.part import ACTIVE_KINDS, Part
from firstfix.units import millimetres

FRONT, REAR = "front", "rear"
CLASH, BACK = "clash", "back"


class Face(NamedTuple):
    """A thing as one sees it from one side: a device, or a fitting under its part's title (then `title` is "").

    `colours`: of the cable in each square, a word or "". `is_back`: one sees its back, and its jacks mirrored. `change`: on a sheet of
    changes, what becomes of it, in words that begin with one of marks.py's; else "".
    """

    id: str
    name: str
    title: str
    part: Part | None
    is_active: bool
    squares: tuple[Square, ...]
    colours: tuple[str, ...] = ()
    is_back: bool = False
    change: str = ""


class Standing(NamedTuple):
    """One mount. `lane` of `lanes` from the left of the drawing: more than one where several want the same units.

    `mark`: "in front", "behind", "rear", "clash", "back" (of a thing at the front, seen from the rear) or "". `carried`: what stands
    on it, if it is a shelf. `is_seen`: from this side; else something stands before it.
    """

    mount: Mount
    face: Face | None
    carried: tuple[Face, ...]
    lane: int
    lanes: int
    mark: str
    is_seen: bool = True


def standings(build: Build, cabinet: Cabinet, side: str = FRONT) -> tuple[Standing, ...]:
    """As seen from `side`, from the top down; in the same units what is in front comes first, what is at the far side last."""
    mounts = sorted(
        (mount for mount in build.mounts if mount.cabinet == cabinet.id),
        key=lambda mount: (
            -mount.high,
            not mount.is_over,
            mount.face != side,
            mount.low,
            mount.side,
            mount.item,
        ),
    )
    made: list[Standing] = []
    for cluster in _clusters(mounts):
        seen = [mount for mount in cluster if _is_seen(mount, cluster, side)]
        for mount in cluster:
            lane, lanes = _lane(mount, seen, cluster, side)
            is_back = mount.face != side
            face = face_of(build, mount.item, is_back) if mount.item else None
            carried = tuple(
                face_of(build, device.id, is_back)
                for device in (carried_by(build).get(mount.item, ()) if mount.item else ())
            )
            mark = _mark(mount, cluster, side)
            made.append(Standing(mount, face, carried, lane, lanes, mark, mount in seen))
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


def _is_seen(mount: Mount, cluster: list[Mount], side: str) -> bool:
    """What is mounted at the far side shows where nothing is mounted at the near one; a hinged panel has no back of its own."""
    if mount.face == side:
        return True
    return not mount.is_over and not any(
        other.face == side and _overlap(other, mount) for other in cluster if other is not mount
    )


def _lane(mount: Mount, seen: list[Mount], cluster: list[Mount], side: str) -> tuple[int, int]:
    """Two of half the width keep to their sides; what clashes, or stands over others, is drawn side by side."""
    rivals = [each for each in seen if _overlap(each, mount)]
    halves = all(each.side or each.face != mount.face for each in rivals)
    if mount.side and halves and not _clashes(mount, cluster):
        is_right = (mount.side == "right") == (mount.face == side)
        return int(is_right), 2
    lanes = _lanes(seen)
    return (lanes[seen.index(mount)], max(lanes) + 1) if mount in seen else (0, 1)


def _lanes(cluster: list[Mount]) -> list[int]:
    lanes: list[int] = []
    for index, mount in enumerate(cluster):
        taken = {lanes[other] for other in range(index) if _overlap(cluster[other], mount)}
        lanes.append(next(lane for lane in range(len(cluster)) if lane not in taken))
    return lanes


def _overlap(one: Mount, other: Mount) -> bool:
    return one.low <= other.high and other.low <= one.high


def _clashes(mount: Mount, cluster: list[Mount]) -> bool:
    return not mount.is_over and any(
        other is not mount
        and _overlap(mount, other)
        and other.face == mount.face
        and not other.is_over
        and not _are_a_pair(mount, other)
        for other in cluster
    )


def _mark(mount: Mount, cluster: list[Mount], side: str) -> str:
    if mount.is_over:
        return "in front"
    if _clashes(mount, cluster):
        return CLASH
    if mount.face != side:
        return REAR if side == FRONT else BACK
    is_covered = any(
        other is not mount and other.is_over and other.face == side and _overlap(mount, other)
        for other in cluster
    )
    return "behind" if is_covered else ""


def _are_a_pair(one: Mount, other: Mount) -> bool:
    """Two of half the width, said to stand side by side."""
    return {one.side, other.side} == {"left", "right"}


class _Wired(NamedTuple):
    """Jacks with a cable, with the colour of it; jacks that give or take PoE."""

    colours: dict[str, str]
    powered: frozenset[str]


@once_per_build
def _wired(build: Build) -> _Wired:
    colours = {end: piece.colour for piece in build.pieces.values() for end in piece.ends}
    powered = frozenset(end for run in build.power_runs.values() for end in (run.source, run.sink))
    return _Wired(colours, powered)


@once_per_build
def feeds(build: Build) -> dict[str, list[str]]:
    """What feeds each device at its mains inlets, in words: "strip, outlet 3"."""
    found: dict[str, list[str]] = {}
    for feed in build.mains_feeds:
        room, source = build.rooms.get(feed.source), build.devices.get(feed.source)
        outlet = f", outlet {feed.outlet}" if feed.outlet else ""
        words = (
            f"an outlet of {room.name}"
            if room
            else f"{source.name if source else ids.path(feed.source)}{outlet}"
        )
        found.setdefault(feed.device, []).append(words)
    return found


def face_of(build: Build, item: str, is_back: bool = False) -> Face:
    """The face or the back of a device or a fitting; of an id that is neither, its own words.

    What is mounted at the rear turns its face there. Jacks at a thing's back are seen mirrored.
    """
    device = build.devices.get(item)
    side = REAR if is_back else FRONT
    if device is None:
        fitting = build.fittings.get(item)
        part = fitting.part if fitting else None
        return Face(item, part.title if part else ids.path(item), "", part, False, (), (), is_back)
    wired = _wired(build)
    shown = [jack for each in build.jacks_of.get(item, ()) if (jack := build.jacks[each]).face == side]
    squares = tuple(Square(jack.name, _state(jack.id, wired)) for jack in shown)
    colours = tuple(wired.colours.get(jack.id, "") for jack in shown)
    fed = "; ".join(f"mains from {each}" for each in feeds(build).get(item, ())) if is_back else ""
    title = "; ".join(filter(None, (_back(device.part), fed))) if is_back else device.part.title
    return Face(
        item, device.name, title, device.part, device.part.kind in ACTIVE_KINDS, squares, colours, is_back
    )


def reach(part: Part) -> float | None:
    """Metres behind the rails, without plugs; None where that isn't known."""
    depth = part.rack.depth if part.rack else None
    return depth.high if isinstance(depth, Fact) else None


def _back(part: Part) -> str:
    deep = reach(part)
    return "depth not known" if deep is None else f"{millimetres(deep)} deep"


def _state(jack: str, wired: _Wired) -> str:
    if jack in wired.powered:
        return POWERED
    if jack in wired.colours:
        return WIRED
    return CABLED_BEHIND if f"{jack}@rear" in wired.colours else FREE


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
