"""A room as lines: its cabinets with what is in them, its devices, its outlets with their openings, its cords, its mains outlets.

Takes a build and a view of a room; gives a card, which is split over columns where it is long.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.kit.squares import CABLED_BEHIND, FREE, WIRED, Square
from firstfix.documents.drawing.network.entries import phase
from firstfix.documents.drawing.network.wiring import shown_jack
from firstfix.documents.drawing.rooms import lines
from firstfix.documents.drawing.rooms.lines import Line, Plugged, Said
from firstfix.documents.drawing.rooms.signs import WORDS
from firstfix.documents.drawing.where import NOWHERE, labelled
from firstfix.graphs.room_view import CabinetStanding, Opening, RoomView, Standing
from firstfix.parts.facts import Fact
from firstfix.units import metres, number

_NOT_KNOWN = "? m"
# Openings of an outlet that stay in one column, and free ones on a line.
_TOGETHER = 12
_IN_A_ROW = 4
# Rooms without anything that are named on a line.
_EMPTY_ROOMS = 6


class Card(NamedTuple):
    """`again`: its head where it goes on. `building`: its site's and its own name."""

    head: Line
    again: Line
    lines: tuple[Line, ...]
    building: str


def card(build: Build, view: RoomView) -> Card:
    name, beside = _name(build, view)
    return Card(
        lines.head(name, beside),
        lines.head(name, beside, is_again=True),
        tuple(_lines(build, view)),
        building(build, view),
    )


def building(build: Build, view: RoomView) -> str:
    """With its site where there are several."""
    known = build.buildings.get(view.room.building) if view.room else None
    if known is None:
        return NOWHERE
    site = build.sites.get(known.site)
    return f"{site.name} / {known.name}" if site and len(build.sites) > 1 else known.name


def _name(build: Build, view: RoomView) -> tuple[str, str]:
    if view.room is None:
        return NOWHERE, "no room is known for it"
    where = "outdoors" if view.room.is_outdoors else "indoors"
    floor = "" if view.room.is_outdoors and not view.room.floor else f"floor {view.room.floor}"
    return view.room.name, BETWEEN.join(filter(None, (building(build, view), floor, where)))


def _lines(build: Build, view: RoomView) -> Iterator[Line]:
    for cabinet in view.cabinets:
        yield _cabinet(build, cabinet)
        for thing in cabinet.things:
            yield lines.in_cabinet(said(build, thing), cabinet.cabinet.name)
            yield from _openings(build, thing, cabinet.cabinet.name)
    for thing in view.devices:
        yield lines.thing(said(build, thing))
    for outlet in view.outlets:
        yield lines.thing(said(build, outlet), is_kept=bool(outlet.openings))
        yield from _openings(build, outlet)
    mains = _mains(view)
    for place, cords in enumerate(view.cords, 1):
        part = build.library.get(cords.part)
        length = _NOT_KNOWN if cords.length is None else metres(cords.length)
        title = part.title if part else cords.part
        line = lines.cords(cords.standing, cords.count, cords.colour, length, title)
        yield line._replace(is_kept=bool(mains) and place == len(view.cords))
    if mains:
        yield lines.remark("Mains outlets", mains)


def _cabinet(build: Build, found: CabinetStanding) -> Line:
    cabinet = found.cabinet
    title = BETWEEN.join(filter(None, (labelled(build, cabinet.id), cabinet.part.title)))
    line = lines.cabinet(Said(found.standing, "", cabinet.name, title, phase(cabinet.phase)))
    return line._replace(is_kept=bool(found.things))


def said(build: Build, thing: Standing) -> Said:
    """What stands on the thing above it has no units of its own. An outlet tells what it is set into."""
    box = f"in: {thing.box.title}" if thing.box else ""
    units = thing.units or ("on it" if thing.carrier else "")
    return Said(
        thing.standing,
        units,
        thing.name,
        BETWEEN.join(filter(None, (labelled(build, thing.id), thing.part.title, box))),
        phase(thing.phase),
    )


def _openings(build: Build, outlet: Standing, inside: str = "") -> Iterator[Line]:
    """A line each, with the outlet as long as there aren't too many; of those that are free, one for all that follow each other."""
    found = list(_opening_lines(build, outlet))
    for place, line in enumerate(found, 1):
        is_lot_full = place % _TOGETHER == 0
        yield line._replace(is_kept=place < len(found) and not is_lot_full, inside=inside)
        if is_lot_full and place < len(found):
            yield lines.remark(outlet.name, "its further openings")._replace(is_kept=True, inside=inside)


def _opening_lines(build: Build, outlet: Standing) -> Iterator[Line]:
    for is_free, found in groupby(outlet.openings, lambda each: each.is_free):
        if is_free:
            names = [each.jack.name for each in found]
            for start in range(0, len(names), _IN_A_ROW):
                squares = [Square(name, FREE) for name in names[start : start + _IN_A_ROW]]
                yield lines.opening(squares, "", None, "free, no run behind")
        else:
            yield from (_in_use(build, each) for each in found)


def _in_use(build: Build, found: Opening) -> Line:
    run = found.run
    behind = f"run from {shown_jack(build, found.run_from)}, {_length(run)}" if run else "no run behind"
    behind += ", there already" if run is not None and run.is_owned else ""
    if found.cord is None:
        return lines.opening([Square(found.jack.name, CABLED_BEHIND)], behind, None, "nothing plugged in")
    plugged = Plugged(shown_jack(build, found.cord_to), found.cord.colour, _length(found.cord))
    return lines.opening([Square(found.jack.name, WIRED)], behind, plugged, "")


def _length(piece: Piece) -> str:
    """To a tenth of a metre: a drawing is no cutting list."""
    figure = piece.length.figure
    return metres(round(figure.high, 1) or figure.high) if isinstance(figure, Fact) else _NOT_KNOWN


def _mains(view: RoomView) -> str:
    """How many are taken, and by what; "" where the plan says nothing of any."""
    there = view.room.mains_outlets if view.room else None
    used = len(view.fed)
    if isinstance(there, Fact):
        count = f"{used} of {number(there.low)} used"
    elif used:
        count = f"{used} used, how many there are is not known"
    else:
        return ""
    return f"{count}: {', '.join(view.fed)}" if view.fed else count


def nothing_there(build: Build, views: Iterable[RoomView]) -> Card | None:
    """The rooms in which nothing of the plan stands, by building; None where there are none."""
    rooms = dict[str, list[str]]()
    for view in views:
        if view.room is not None and view.is_empty:
            rooms.setdefault(building(build, view), []).append(view.room.name)
    if not rooms:
        return None
    title = "Nothing of this plan stands in"
    found = tuple(
        lines.remark(name, ", ".join(named[start : start + _EMPTY_ROOMS]))
        for name, named in rooms.items()
        for start in range(0, len(named), _EMPTY_ROOMS)
    )
    return Card(lines.head(title, ""), lines.head(title, "", is_again=True), found, "")


def totals(views: Iterable[RoomView]) -> str:
    """How many devices, cabinets and fittings there are in all, by whether they are there already."""
    standings = [thing.standing for view in views for thing in view.things]
    standings += [each.standing for view in views for each in view.cabinets]
    said = [f"{standings.count(each)} {words}" for each, words in WORDS.items() if each in standings]
    return f"{len(standings)} devices, cabinets and fittings in all: {', '.join(said)}"
