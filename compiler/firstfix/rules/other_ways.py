"""Cures for a channel that is too long by where it runs: another route, or a switch in a room between, and what they cost.

Takes a build and the pieces of a channel; gives cures with names, lengths and prices, or None where there is no such cure.
"""

from collections.abc import Callable, Iterator
from itertools import accumulate

from firstfix.algorithms.shortest import Shortest, Step
from firstfix.build.cabling import RUN, Length, Piece
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.finding.model import Cure, Term
from firstfix.parts.facts import Fact
from firstfix.parts.part import Part
from firstfix.physics.channel import temperature_factor
from firstfix.physics.range import at_most
from firstfix.rules.channel_facts import powered_channels
from firstfix.rules.channel_lengths import Pieces, laid
from firstfix.rules.prices import Wanted, cheapest, cost
from firstfix.rules.warmth import warmth_of
from firstfix.standards.cabling import cabling_limits, temperature_deratings
from firstfix.units import metres

# As in finding the routes themselves; this is only for a cure.
_MOST_LOOKED_AT = 1_000_000


class Routes:
    """The routes that lose least, over all ways of known length: each counts as long as cool cable that loses as much."""

    def __init__(self, build: Build) -> None:
        steps: dict[str, list[Step]] = {}
        hottest = max(band.to_c for band in temperature_deratings())
        for way in build.ways.values():
            if isinstance(way.length, Fact):
                warm = temperature_factor(min(warmth_of(build, way).most_c, hottest), screened=False)
                for near, far in (way.ends, way.ends[::-1]):
                    steps.setdefault(near, []).append(Step(way.id, far, warm * way.length.high))

        self._shortest = Shortest(steps)

    def best(self, start: str, end: str) -> tuple[str, ...]:
        """Empty where none leads there, or where so many were looked for that no more are."""
        if self._shortest.looked_at > _MOST_LOOKED_AT:
            return ()
        return self._shortest.route(start, end) or ()


routes = once_per_build(Routes)
"""The routes of a build; they are looked for when a cure asks for them."""


def longest_run(pieces: Pieces) -> Piece | None:
    runs = [piece for piece, _ in pieces if piece.kind == RUN and piece.route]
    return max(runs, key=lambda piece: (laid(piece), piece.id), default=None)


def shorter_way(build: Build, pieces: Pieces, fits: Callable[[Pieces], bool]) -> Cure | None:
    """Another route for the longest run, if with it the channel `fits`: which, how long, and what cable it saves."""
    run = longest_run(pieces)
    if run is None:
        return None
    if not all(isinstance(build.ways[way].length, Fact) for way in run.route):
        return None
    near, far = (build.devices[build.jacks[jack].device].room for jack in run.ends)
    route = routes(build).best(near, far)
    if not route or route == run.route:
        return None
    other = run._replace(route=route, length=_length_by(build, run, route))
    if not fits(tuple((other if piece is run else piece, form) for piece, form in pieces)):
        return None
    names = ", ".join(build.ways[way].name for way in route)
    change = laid(run) - laid(other)
    price = cost(build, [Wanted(run.part, abs(change), by_metre=True)])
    money = f"{metres(abs(change))} {'less' if change > 0 else 'more'} of '{run.part}', {price}"
    return Cure(f"take another way (`along: [{names}]`): {metres(laid(other))} of cable; {money}")


def _length_by(build: Build, run: Piece, route: tuple[str, ...]) -> Length:
    def by(ways: tuple[str, ...]) -> float:
        lengths = (build.ways[way].length for way in ways)
        return sum(length.high for length in lengths if isinstance(length, Fact))

    ways = tuple(Term(f"way '{build.ways[way].name}'", by((way,)), "") for way in route)
    rest = Term("drops, rise and slack as now", round(laid(run) - by(run.route), 6), "")
    return Length((*ways, rest), (), 0.0)


def switch_between(build: Build, channel: str, pieces: Pieces, wanted: float) -> Cure | None:
    """A switch in the room along the longest run that divides it best: which switch, its price, and where."""
    run = longest_run(pieces)
    powered = channel in powered_channels(build)
    switch = cheapest(build, _switches, wanted, powered)
    if run is None or switch is None:
        return None
    what = f"'{switch.name}' ({cost(build, [Wanted(switch.name, 1)])})"
    power = "which hands PoE on and needs mains there" if powered else "which needs mains there"
    halves = min(_halves(build, run), default=None)
    if halves is None:
        title = f"put a switch between, such as {what}, {power}; no indoor room lies on this way, so it needs a box of its own"
    else:
        longer, room, before, after = halves
        if not at_most(longer, cabling_limits().permanent_link.value):
            return Cure(f"put more than one switch between, such as {what}, {power}")
        title = f"put a switch such as {what}, {power}, in '{build.rooms[room].name}': {metres(before)} before it and {metres(after)} after it"
    return Cure(title)


def _halves(build: Build, run: Piece) -> Iterator[tuple[float, str, float, float]]:
    """Each indoor room that the run passes: the longer half, the room, and metres before and after it."""
    here = build.devices[build.jacks[run.ends[0]].device].room
    lengths = [build.ways[way].length for way in run.route]
    if not all(isinstance(each, Fact) for each in lengths):
        return
    so_far = list(accumulate(each.high for each in lengths if isinstance(each, Fact)))
    ends = laid(run) - so_far[-1]
    for way, before in zip(run.route[:-1], so_far, strict=False):
        near, far = build.ways[way].ends
        here = far if here == near else near
        if not build.rooms[here].is_outdoors:
            # Each half has drops and slack of its own, at the most as much as the whole has now.
            halves = before + ends, so_far[-1] - before + ends
            yield max(halves), here, *halves


def _switches(build: Build, wanted: float, powered: bool) -> Iterator[Part]:
    for part in build.library.values():
        fast = [
            spec.name
            for spec in part.jacks
            if spec.family == "rj45" and isinstance(spec.rate, Fact) and spec.rate.low >= wanted
        ]
        gives = part.gives_poe is not None and any(jack in part.gives_poe.jacks for jack in fast)
        if part.kind == "switch" and part.mains.inlet and len(fast) > 1 and (gives or not powered):
            yield part
