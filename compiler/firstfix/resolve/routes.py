"""Which ways an installed run takes: the shortest, through those that its author asked for."""

from typing import NamedTuple

from firstfix.algorithms.shortest import Shortest, Step
from firstfix.build import ids
from firstfix.build.places import Way
from firstfix.parts.facts import Fact
from firstfix.resolve.kept import Kept
from firstfix.resolve.places import Places


class Route(NamedTuple):
    """Ways in order, and why there is none where it is empty although the rooms differ. `too_much`: because of the plan's size."""

    ways: tuple[str, ...]
    problem: str
    too_much: bool = False


# A way of unknown length is taken only where no way of known length leads there; longer than any real one.
_UNKNOWN_LENGTH = 1.0e6
# Metres: sums of lengths differ in their last digits by order.
_SAME_LENGTH = 1.0e-6
# Ways looked at, of all searches of a plan together: some seconds. A building of 3,000 rooms that are all wired to 100 of them takes a
# fifth of it.
MOST_LOOKED_AT = 3_000_000
_TOO_MUCH = f"finding the routes of this plan takes more than {MOST_LOOKED_AT:,} looks at its ways; this run and what follows get none"


class Router:
    """Shortest paths over rooms and ways, each asked for once. Equal lengths go to the route whose way names sort first."""

    def __init__(self, places: Places, kept: Kept) -> None:
        self._kept = kept
        self._rooms = places.rooms
        self._ways = places.ways
        self._found: dict[tuple[str, str, tuple[str, ...]], Route] = {}
        steps: dict[str, list[Step]] = {room: [] for room in places.rooms}
        for way in places.ways.values():
            for near, far in (way.ends, way.ends[::-1]):
                steps[near].append(Step(way.id, far, _weight(way)))
        self._shortest = Shortest(steps)

    def route(self, start: str, end: str, along: tuple[str, ...]) -> Route:
        if start == end and not along:
            return Route((), "")
        key = (start, end, along)
        known = self._found.get(key)
        if known is None:
            if self._shortest.looked_at > MOST_LOOKED_AT:
                return Route((), _TOO_MUCH, too_much=True)
            known = self._found[key] = self._through(start, end, along)
        return known

    def _through(self, start: str, end: str, along: tuple[str, ...]) -> Route:
        here = start
        taken: list[str] = []
        for way_id in along:
            way = self._ways[way_id]
            legs = [(self._leg(here, near), near, far) for near, far in (way.ends, way.ends[::-1])]
            reachable = [(self._metres(leg), leg, far) for leg, _, far in legs if leg is not None]
            if not reachable:
                return Route((), self._no_way(here, way.ends[0]))
            _, leg, here = min(reachable, key=lambda each: (each[0], each[2]))
            taken.extend((*leg, way_id))
        last = self._leg(here, end)
        return Route((), self._no_way(here, end)) if last is None else Route((*taken, *last), "")

    def _no_way(self, start: str, end: str) -> str:
        return f"no way leads from '{self._rooms[start].name}' to '{self._rooms[end].name}'"

    def _metres(self, leg: tuple[str, ...]) -> float:
        return sum(_weight(self._ways[each]) for each in leg)

    def _leg(self, start: str, end: str) -> tuple[str, ...] | None:
        if start == end:
            return ()
        low, high = sorted((start, end))
        # Always told from the same end, so that a run written the other way round takes the same ways.
        ways = self._shortest.route(low, high)
        if ways is None:
            return None
        if self._kept.has_any:
            ways = self._as_kept(low, high, ways)
        return ways if start == low else ways[::-1]

    def _as_kept(self, low: str, high: str, shortest: tuple[str, ...]) -> tuple[str, ...]:
        """The route that was taken before, as long as it leads there and none is shorter."""
        kept = self._kept.route(ids.path(low), ids.path(high))
        if kept is None:
            return shortest
        ways = tuple([ids.way(name) for name in kept.ways])
        if ways == shortest:
            return shortest
        if self._leads(low, high, ways) and self._metres(ways) <= self._metres(shortest) + _SAME_LENGTH:
            return ways
        shown = ", ".join(kept.ways)
        self._kept.impossible(
            kept, f"the {kept.about} was kept by {shown}, and that is not a shortest one now"
        )
        return shortest

    def _leads(self, start: str, end: str, ways: tuple[str, ...]) -> bool:
        here = start
        if len(set(ways)) < len(ways):
            return False
        for each in ways:
            way = self._ways.get(each)
            if way is None or here not in way.ends:
                return False
            here = way.ends[1] if here == way.ends[0] else way.ends[0]
        return here == end


def _weight(way: Way) -> float:
    return way.length.typical if isinstance(way.length, Fact) else _UNKNOWN_LENGTH
