"""The sheets of ways: the graph, over as many sheets as it takes, then the list. Nothing for a plan without ways."""

from collections import Counter
from collections.abc import Callable, Mapping
from itertools import groupby
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.page import fits_sheet, of_group, page, picture_room
from firstfix.documents.drawing.kit.palette import QUIET, SMALL_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.ways.dot import ways_dot
from firstfix.documents.drawing.ways.graph import outward, way_graph
from firstfix.documents.drawing.ways.marks import ways_key
from firstfix.documents.drawing.ways.passages import Passage, passages
from firstfix.documents.drawing.ways.table import in_words, rows, tables
from firstfix.documents.drawing.where import building_label

STEM = "ways"
# Past so many rooms one looks for a way instead of seeing it; our own judgement from looking at sheets.
_MOST_ROOMS = 18
_LEAST_TABLE = 60.0
_KEY_LINES = 2
_SEALED = (
    "Where a way passes a wall or a floor, its hole is sealed again, with a fire stop where local codes ask for one. "
    "What a way is made of stands below it where the plan says so."
)
Rooms = tuple[str, ...]


class _Part(NamedTuple):
    """What one sheet of the graph shows: rooms, and of their ways these."""

    rooms: Rooms
    shown: tuple[Passage, ...]


class _Sheet(NamedTuple):
    under: str
    pictures: tuple[Picture, ...]
    words: str
    onward: tuple[Onward, ...] = ()


def way_drawings(build: Build, prefix: str = "") -> tuple[Drawing, ...]:
    """`ways`, or `ways-1` and so on: first the graph, which has the DOT source too, then the list."""
    shown = passages(build)
    if not shown:
        return ()
    sheets = _sheets(build, shown)
    several = len(sheets) > 1
    return tuple(
        page(
            _name(number, several),
            prefix,
            f"Ways of {build.name}",
            sheet.under,
            of_group(number, len(sheets)),
            sheet.words,
            sheet.pictures,
            ways_dot(build, shown) if number == 1 else "",
            onward=sheet.onward,
        )
        for number, sheet in enumerate(sheets, 1)
    )


def _name(number: int, several: bool) -> str:
    return f"{STEM}-{number}" if several else STEM


def _sheets(build: Build, shown: tuple[Passage, ...]) -> list[_Sheet]:
    parts = _parts(build, shown)
    sheet_of: dict[str, str] = {}
    for number, part in enumerate(parts, 1):
        for room_ in part.rooms:
            sheet_of.setdefault(room_, _name(number, True))
    graphs = [_graph_sheet(build, part, sheet_of) for part in parts]
    last = graphs[-1].pictures[0]
    room = picture_room(key_lines=_KEY_LINES, onward_lines=1)[1]
    beside = room - last.height - 10.0 if len(graphs) == 1 else 0.0
    found = tables(tuple(rows(build, shown)), beside if beside > _LEAST_TABLE else 0.0, room - 12.0)
    first, *others = found
    graphs = [_with_key(sheet, part.shown, first[0]) for sheet, part in zip(graphs, parts, strict=True)]
    unreached = _unreached(build, shown)
    listed = [
        _table_sheet(build, picture, listed, unreached if picture is others[-1][0] else "")
        for picture, listed in others
    ]
    sheets = [*graphs, *listed]
    return [
        sheet._replace(onward=(*sheet.onward, *_list_onward(number, len(graphs), len(sheets))))
        for number, sheet in enumerate(sheets, 1)
    ]


def _list_onward(number: int, graphs: int, of: int) -> tuple[Onward, ...]:
    if number < graphs or number == of:
        return ()
    return (Onward(_name(number + 1, True), "the list of ways"),)


def _graph_sheet(build: Build, part: _Part, sheet_of: Mapping[str, str]) -> _Sheet:
    rooms, drawn = frozenset(part.rooms), part.shown
    beyond = sorted(
        {sheet_of[end] for each in drawn for end in each.ends if end not in rooms and end in sheet_of}
    )
    buildings = sorted(
        {building_label(build, build.rooms[room].building) for room in rooms if room in build.rooms}
    )
    onward = tuple(
        Onward(
            sheet,
            ", ".join(each.name for each in drawn if any(sheet_of.get(end) == sheet for end in each.ends)),
        )
        for sheet in beyond
    )
    picture = way_graph(build, rooms, drawn, sheet_of).picture
    return _Sheet("; ".join(buildings), (picture,), in_words(build, drawn), onward)


def _with_key(sheet: _Sheet, shown: tuple[Passage, ...], table: Picture) -> _Sheet:
    """`table` is the beginning of the list, if it stands below the graph."""
    width = palette.SHEET_INNER if table.height else max(palette.SHEET_INNER / 2, sheet.pictures[0].width)
    below = (_sealed(table),) if table.height else ()
    return sheet._replace(pictures=(*sheet.pictures, *below, ways_key(shown, True, width)))


def _table_sheet(build: Build, picture: Picture, listed: tuple[Passage, ...], unreached: str) -> _Sheet:
    key = ways_key(listed, False, palette.SHEET_INNER)
    table = _sealed(picture, unreached)
    names = f"{listed[0].name} to {listed[-1].name}" if len(listed) > 1 else listed[0].name
    words = " ".join(filter(None, (in_words(build, listed), unreached)))
    return _Sheet(f"the list of ways: {names}", (table, key) if key.height else (table,), words)


def _unreached(build: Build, shown: tuple[Passage, ...]) -> str:
    reached = {end for passage in shown for end in passage.ends}
    names = [room.name for id_, room in build.rooms.items() if id_ not in reached]
    return f"Rooms that no way reaches: {', '.join(names)}." if names else ""


def _sealed(table: Picture, more: str = "") -> Picture:
    """With the word on holes below."""
    words = (_SEALED, *font.wrap(more, table.width, SMALL_SIZE, 3)) if more else (_SEALED,)
    drawn = "".join(
        svg.text(0, table.height + 11 + 9.4 * number, line, SMALL_SIZE, colour=QUIET, room=table.width)
        for number, line in enumerate(words)
    )
    return table._replace(markup=table.markup + drawn, height=table.height + 4.6 + 9.4 * len(words))


def _parts(build: Build, shown: tuple[Passage, ...]) -> list[_Part]:
    """Rooms sheet by sheet: all on one if that fits, else by site, then by building, then a few at a time from room to room."""
    order = outward(shown, build)
    rooms = tuple(sorted(order, key=lambda room: (order[room], room)))

    def site(room: str) -> str:
        return build.rooms[room].site if room in build.rooms else ""

    def building(room: str) -> str:
        return build.rooms[room].building if room in build.rooms else ""

    return _split(build, _part(shown, rooms), (site, building))


def _part(shown: tuple[Passage, ...], rooms: Rooms) -> _Part:
    within = set(rooms)
    return _Part(rooms, tuple(passage for passage in shown if within & set(passage.ends)))


def _split(build: Build, part: _Part, levels: tuple[Callable[[str], str], ...]) -> list[_Part]:
    if _fits(build, part):
        return [part]
    if not levels:
        return _few_at_a_time(build, part)
    level, *deeper = levels
    found: list[_Part] = []
    ordered = sorted(part.rooms, key=lambda room: (level(room), part.rooms.index(room)))
    for _, of_level in groupby(ordered, level):
        found += _split(build, _part(part.shown, tuple(of_level)), tuple(deeper))
    return found


def _few_at_a_time(build: Build, whole: _Part) -> list[_Part]:
    """Rooms as long as they fit; a room with more ways than a sheet can show has several sheets."""
    found: list[_Part] = []
    can_grow = False
    for rooms in _with_leaves(whole):
        more = _part(whole.shown, (*found[-1].rooms, *rooms)) if can_grow else None
        if more and _fits(build, more):
            found[-1] = more
            continue
        alone = _part(whole.shown, rooms)
        can_grow = _fits(build, alone)
        found += [alone] if can_grow else _in_pieces(build, alone)
    return found


def _with_leaves(whole: _Part) -> list[Rooms]:
    """Each room together with those that only a way from it reaches."""
    count = Counter(end for passage in whole.shown for end in passage.ends)
    home = {
        leaf: other
        for passage in whole.shown
        for leaf, other in (passage.ends, passage.ends[::-1])
        if count[leaf] == 1 and count[other] > 1 and {leaf, other} <= set(whole.rooms)
    }
    order = _side_by_side(whole)
    return [(room, *(leaf for leaf in order if home.get(leaf) == room)) for room in order if room not in home]


def _in_pieces(build: Build, part: _Part) -> list[_Part]:
    """The ways of one room in the fewest level lots that fit, each with the rooms that only they reach."""
    ways = part.shown
    for count in range(2, len(ways) + 1):
        size = -(-len(ways) // count)
        lots = [_lot(part, ways[start : start + size]) for start in range(0, len(ways), size)]
        if all(_fits(build, lot) for lot in lots):
            return lots
    return [_lot(part, (way,)) for way in ways]


def _lot(part: _Part, ways: tuple[Passage, ...]) -> _Part:
    ends = {end for way in ways for end in way.ends}
    return _Part(tuple(room for room in part.rooms if room in ends), ways)


def _side_by_side(part: _Part) -> list[str]:
    """Rooms so that one follows what it hangs on: depth first, in the order given."""
    beside: dict[str, list[str]] = {room: [] for room in part.rooms}
    for passage in part.shown:
        one, other = passage.ends
        if one in beside and other in beside:
            beside[one].append(other)
            beside[other].append(one)
    seen: dict[str, None] = {}
    waiting = list(reversed(part.rooms))
    while waiting:
        room = waiting.pop()
        if room not in seen:
            seen[room] = None
            waiting += sorted(set(beside[room]) - seen.keys(), reverse=True)
    return list(seen)


def _fits(build: Build, part: _Part) -> bool:
    if len(part.rooms) > _MOST_ROOMS:
        return False
    rooms = frozenset(part.rooms)
    elsewhere = dict.fromkeys(build.rooms, f"{STEM}-99")
    picture = way_graph(build, rooms, part.shown, elsewhere).outline
    key = ways_key(part.shown, True, max(palette.SHEET_INNER / 2, picture.width))
    beyond = [passage for passage in part.shown if not rooms.issuperset(passage.ends)]
    onward = [Onward(f"{STEM}-99", passage.name) for passage in beyond]
    return fits_sheet((picture, key), onward or [Onward(f"{STEM}-99")])
