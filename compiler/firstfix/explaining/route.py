"""Why a run takes the ways that it does, and the next best ones."""

from collections.abc import Iterator

from firstfix.algorithms.shortest import Shortest, Step
from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.reasons import WORKED_OUT
from firstfix.explaining.lines import room_name
from firstfix.explaining.model import Line
from firstfix.parts.facts import Fact
from firstfix.units import metres

_MOST_TRIED = 12


def route_lines(build: Build, piece: Piece) -> Iterator[Line]:
    if not piece.route:
        return
    names = ", ".join(build.ways[each].name for each in piece.route)
    asked = build.provenance.written(piece.link, "along")
    why = "the shortest that its run asks to go along" if asked is not None else "the shortest there is"
    yield Line("ways", names, WORKED_OUT, why, asked, tuple(_others(build, piece)))
    for each in piece.route:
        way = build.ways[each]
        ends = " and ".join(room_name(build, end) for end in way.ends)
        yield Line(f"  {way.name}", f"{way.kind} between {ends}, {_long(build, each)}", "", "", build.provenance.span(each))  # fmt: skip


def _long(build: Build, way: str) -> str:
    length = build.ways[way].length
    return metres(length.typical) if isinstance(length, Fact) else "length not known"


def _others(build: Build, piece: Piece) -> Iterator[str]:
    """Without each of its ways in turn: what the run would take then, and by how much that is longer."""
    start, end = (build.devices[build.jacks[each].device].room for each in piece.ends)
    own = _total(build, piece.route)
    found: dict[tuple[str, ...], float] = {}
    for closed in piece.route[:_MOST_TRIED]:
        route = Shortest(_steps(build, closed)).route(start, end)
        total = None if route is None else _total(build, route)
        if route is not None and total is not None:
            found[tuple(route)] = total
    for route, total in sorted(found.items(), key=lambda each: (each[1], each[0])):
        names = ", ".join(build.ways[each].name for each in route)
        yield f"{names} ({metres(total)}{'' if own is None else _compared(total - own)})"


def _compared(more: float) -> str:
    return f", {metres(abs(more))} {'shorter' if more < 0 else 'longer'}" if more else ", as long"


def _total(build: Build, route: tuple[str, ...]) -> float | None:
    lengths = [build.ways[each].length for each in route]
    known = [each.typical for each in lengths if isinstance(each, Fact)]
    return sum(known) if len(known) == len(lengths) else None


def _steps(build: Build, closed: str) -> dict[str, list[Step]]:
    steps: dict[str, list[Step]] = {room: [] for room in build.rooms}
    for way in build.ways.values():
        if way.id != closed and isinstance(way.length, Fact):
            for near, far in (way.ends, way.ends[::-1]):
                steps[near].append(Step(way.id, far, way.length.typical))
    return steps
