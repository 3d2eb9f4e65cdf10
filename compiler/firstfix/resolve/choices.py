"""What a build chose where its plan left it open, for the next build to keep. Read off the finished build; asked for by `build` alone."""

from collections import Counter
from collections.abc import Iterator
from ipaddress import ip_address, ip_network

from firstfix.allocations.choices import (
    Choices,
    KeptFeed,
    KeptHost,
    KeptLabel,
    KeptRoute,
    KeptRouter,
    KeptRun,
    KeptStop,
)
from firstfix.build import ids
from firstfix.build.cabling import RUN, Link
from firstfix.build.model import Build
from firstfix.build.reasons import WRITTEN, Decision
from firstfix.plan.model import Plan
from firstfix.resolve.chains import Identified, is_in_line, one_way, with_ids
from firstfix.resolve.kept import Kept
from firstfix.resolve.kept_runs import says
from firstfix.resolve.labels import BY as LABELS
from firstfix.resolve.notes import Notes


def choices_made(plan: Plan, build: Build, choices: Choices) -> Choices:
    """The choices of `build`, which was made from `plan` and `choices`. What the plan says itself is none."""
    named = with_ids(plan.links, Kept(choices, plan.renames, Notes()))
    return Choices(
        tuple(_runs(named, build)),
        tuple(_hosts(build)),
        tuple(_feeds(build)),
        tuple(_routes({each.id for each in named if each.spec.along}, build)),
        tuple(_routers(build)),
        tuple(_labels(build)),
    )


def _chosen(build: Build, by: str) -> Iterator[Decision]:
    """What one pass chose itself."""
    return (each for each in build.decisions if each.by == by and each.origin != WRITTEN)


def _runs(named: list[Identified], build: Build) -> Iterator[KeptRun]:
    open_ = {
        each.subject
        for each in _chosen(build, "ends")
        # A device with one jack leaves no choice.
        if len(build.devices[ids.device(each.value.partition("/")[0])].part.jacks) > 1
    }
    alike = Counter([each.id.partition("#")[0] for each in named])
    for each in named:
        link = build.links.get(each.id)
        # One of several runs between the same two ends is told from the others by its number, which is a choice too.
        if link is not None and (each.id in open_ or alike[each.id.partition("#")[0]] > 1 or "#" in each.id):
            run = _run(each, link, build)
            if all(stop.jacks for stop in run.stops):
                yield run


def _run(named: Identified, link: Link, build: Build) -> KeptRun:
    stops = [_stop(place, link, build) for place in range(len(link.hops))]
    if tuple([hop.shown for hop in named.spec.hops]) != one_way(named.spec):
        stops = [_stop(place, link, build, is_backwards=True) for place in reversed(range(len(link.hops)))]
    return KeptRun(ids.path(link.id), tuple(stops), says(named.spec))


def _stop(place: int, link: Link, build: Build, is_backwards: bool = False) -> KeptStop:
    """The jacks at one place of a link, lane after lane, as seen from the end where the choices begin."""
    device = build.devices[link.hops[place]]
    last = len(link.hops) - 1
    sides = [side for side in (0, 1) if 0 <= place - 1 + side < last]
    if is_backwards:
        sides.reverse()
    if len(sides) == 2 and is_in_line(device):
        sides = sides[:1]
    found: list[str] = []
    for lane in range(1, link.lanes + 1):
        for side in sides:
            piece = build.pieces.get(ids.piece(link.id, place + side, lane))
            if piece is not None:
                found.append(build.jacks[piece.ends[1 - side]].name)
    return KeptStop(device.name, tuple(found))


def _hosts(build: Build) -> Iterator[KeptHost]:
    chosen = {each.subject for each in _chosen(build, "addresses")}
    first = {
        vlan.id: int(ip_network(vlan.subnet).network_address) for vlan in build.vlans.values() if vlan.subnet
    }
    for claim in build.addresses:
        if claim.device in chosen:
            number = int(ip_address(claim.address)) - first[claim.vlan]
            yield KeptHost(ids.path(claim.device), ids.path(claim.vlan), number)


def _feeds(build: Build) -> Iterator[KeptFeed]:
    """All of them: also where the plan says what feeds a device, which of the outlets is ours to choose."""
    for feed in build.mains_feeds:
        yield KeptFeed(ids.path(feed.device), feed.inlet, ids.path(feed.source), feed.outlet)


def _routes(along: set[str], build: Build) -> Iterator[KeptRoute]:
    """One for each two rooms that a run joins, but for the links in `along`, of which the plan names ways itself."""
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for piece in build.pieces.values():
        if piece.kind != RUN or not piece.route or piece.link in along:
            continue
        near, far = (build.devices[build.jacks[end].device].room for end in piece.ends)
        ways = tuple([ids.path(way) for way in piece.route])
        low, high = sorted((near, far))
        found.setdefault((ids.path(low), ids.path(high)), ways if low == near else ways[::-1])
    for rooms, ways in found.items():
        yield KeptRoute(rooms, ways)


def _routers(build: Build) -> Iterator[KeptRouter]:
    holders = {claim.device for claim in build.addresses if build.devices[claim.device].part.routes is True}
    for device in sorted(holders):
        yield KeptRouter(ids.path(device))


def _labels(build: Build) -> Iterator[KeptLabel]:
    for each in _chosen(build, LABELS):
        yield KeptLabel(ids.kind(each.subject), ids.path(each.subject), each.value)
