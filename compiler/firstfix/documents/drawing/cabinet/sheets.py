"""All sheets of the cabinets: each from the front and from behind, with what is in every jack."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfix.build.hardware import Cabinet
from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet.columns import (
    Poured,
    Space,
    Strip,
    jack_group,
    pour,
    rest_of,
    strips_of,
    swatches,
)
from firstfix.documents.drawing.cabinet.cords import blocks
from firstfix.documents.drawing.cabinet.front import View, side_picture
from firstfix.documents.drawing.cabinet.listing import height_words, in_words, lines, schedule_picture
from firstfix.documents.drawing.cabinet.rear_list import entering, rear_rails, there
from firstfix.documents.drawing.cabinet.standing import FRONT, REAR, Face, Standing, standings
from firstfix.documents.drawing.cabinet.stretches import scale_for, stretches
from firstfix.documents.drawing.kit import palette, svg
from firstfix.documents.drawing.kit.page import of_group, page, picture_room
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.where import building_label, labelled
from firstfix.parts.facts import Fact
from firstfix.units import millimetres, rack_units

_GAP = 16.0
_SWATCHES = 22.0
_COLUMNS = 2
_LEAST = 60.0


class _Sheet(NamedTuple):
    """One sheet before it has a name. `onward`: what goes on with the next, in words. `rest_on`: the place of the sheet where its
    list goes on, -1 where all of it is here."""

    under: str
    picture: Picture
    words: str
    onward: str
    rest_on: int = -1


def cabinet_drawings(build: Build, prefix: str = "") -> tuple[Drawing, ...]:
    """Of each cabinet its front and then its rear, in as many sheets as each takes. `prefix` starts every id in the SVG."""
    taken: set[str] = set()
    return tuple(drawing for id_ in build.cabinets for drawing in _both_sides(build, id_, prefix, taken))


def one_cabinet(build: Build, cabinet_id: str) -> tuple[Drawing, ...]:
    """The sheets of one cabinet, front first; KeyError for an id that is no cabinet's."""
    return tuple(_both_sides(build, cabinet_id, "", set()))


def _both_sides(build: Build, cabinet_id: str, prefix: str, taken: set[str]) -> list[Drawing]:
    names = svg.distinct_names({id_: each.name for id_, each in build.cabinets.items()})
    stem, cabinet = f"cabinet-{names[cabinet_id]}", build.cabinets[cabinet_id]
    return [
        *side_drawings(build, cabinet, FRONT, stem, prefix, taken),
        *side_drawings(build, cabinet, REAR, f"{stem}-rear", prefix, taken),
    ]


def side_drawings(
    build: Build, cabinet: Cabinet, side: str, stem: str, prefix: str, taken: set[str]
) -> list[Drawing]:
    """The sheets of one side; their names are added to `taken`, and keep clear of what was in it."""
    stands = standings(build, cabinet, side)
    colours = _colours(build, cabinet)
    room = picture_room(key_lines=2, onward_lines=1)[1] - (_SWATCHES if colours else 0.0)
    scale = scale_for(cabinet, standings(build, cabinet), room)
    views = stretches(cabinet, stands, scale, room, side)
    pattern = f"{prefix}{stem}-kept-free"
    pictures = [side_picture(cabinet, view, stands, scale, f"{pattern}-{view.high}") for view in views]
    sheets = _sheets(build, cabinet, stands, views, pictures, room)
    names = _names(stem, len(sheets), taken)
    made = []
    for number, (name, sheet) in enumerate(zip(names, sheets, strict=True), 1):
        shown = swatches([each for each in colours if each in _drawn_colours(sheet)], palette.SHEET_INNER)
        pictures_ = (sheet.picture, shown) if shown.height else (sheet.picture,)
        at_scale = "" if number > len(views) else f"scale {scale.words} at full size"
        note = BETWEEN.join(filter(None, (at_scale, of_group(number, len(sheets)))))
        onward = [Onward(names[number], sheet.onward)] if number < len(names) else []
        if sheet.rest_on > number:
            onward.append(Onward(names[sheet.rest_on], "the list"))
        title = f"Cabinet {cabinet.name}, {'from behind' if side == REAR else 'front'}"
        is_list = number > len(views)
        where = _place(build, cabinet, is_list)
        swapped = "left and right are swapped" if side == REAR and not is_list else ""
        under = BETWEEN.join(filter(None, (sheet.under, swapped, where)))
        made.append(page(name, prefix, title, under, note, sheet.words, pictures_, onward=onward))
    return made


def _names(stem: str, count: int, taken: set[str]) -> list[str]:
    """STEM, STEM-2 and so on; another cabinet's name may have led to the same."""
    base = stem
    while True:
        found = [base if number == 1 else f"{base}-{number}" for number in range(1, count + 1)]
        if not taken & set(found):
            taken |= set(found)
            return found
        base += "-x"


def _sheets(
    build: Build,
    cabinet: Cabinet,
    stands: tuple[Standing, ...],
    views: tuple[View, ...],
    pictures: Sequence[Picture],
    room: float,
) -> list[_Sheet]:
    """A sheet for each stretch with its list beside it; then what found no room there."""
    sheets: list[_Sheet] = []
    rest: list[list[Strip]] = []
    begins: dict[int, int] = {}
    for view, picture in zip(views, pictures, strict=True):
        beside = palette.SHEET_INNER - picture.width - _GAP
        head, said, groups = _beside(build, cabinet, stands, view, beside, room, view is views[-1])
        strips = strips_of(groups)
        top = head.height + (6.0 if head.height else 0.0)
        poured = pour(strips, 0, Space(beside, max(0.0, room - top)))
        left = rest_of(strips, poured.following)
        if left:
            begins[len(sheets)] = sum(map(len, rest))
        rest += left
        column = _stacked(head, poured.picture, top)
        whole = _side_by_side([(picture, 0.0), (column, picture.width + _GAP)])
        units = (
            "" if len(views) == 1 else f"{height_words(view.low, view.high)} of {rack_units(cabinet.units)}"
        )
        words = " ".join(filter(None, (said, *poured.words)))
        lower = height_words(1, view.low - 1) if view.low > 1 else "the list"
        sheets.append(_Sheet(units, whole, f"{_side_words(cabinet, view)} {words}", lower))
    before = len(sheets)
    starts: list[int] = []
    for start, sheet in _continued(strips_of(rest), room):
        starts.append(start)
        sheets.append(sheet)
    for place, begin in begins.items():
        on = before + max(number for number, start in enumerate(starts) if start <= begin)
        sheets[place] = sheets[place]._replace(rest_on=on)
    return sheets


def _continued(strips: Sequence[Strip], room: float) -> Iterator[tuple[int, _Sheet]]:
    """Each sheet with the first strip on it; the last sheet's columns are as level as they can be."""
    index = 0
    while index < len(strips):
        columns = _columns(strips, index, room)
        lower = room * 0.1
        while columns[-1].following == len(strips) and lower < room:
            level = _columns(strips, index, lower)
            if level[-1].following == len(strips):
                columns = level
                break
            lower += 6.0
        width = columns[0].picture.width
        placed = [(each.picture, number * (width + _GAP)) for number, each in enumerate(columns)]
        words = [said for each in columns for said in each.words]
        names = ", ".join(dict.fromkeys(name for each in columns for name in each.names))
        yield (
            index,
            _Sheet(f"the list continued: {names}", _side_by_side(placed), " ".join(words), "the list"),
        )
        index = columns[-1].following


def _columns(strips: Sequence[Strip], start: int, height: float) -> list[Poured]:
    width = (palette.SHEET_INNER - _GAP * (_COLUMNS - 1)) / _COLUMNS
    found: list[Poured] = []
    for _ in range(_COLUMNS):
        poured = pour(strips, start, Space(width, height), is_rest_kept=False)
        found.append(poured)
        start = poured.following
    return found


def _beside(
    build: Build,
    cabinet: Cabinet,
    stands: tuple[Standing, ...],
    view: View,
    width: float,
    room: float,
    is_last: bool,
) -> tuple[Picture, str, list[list[Strip]]]:
    """What stands beside a stretch: a picture at the top, that in words, and groups of strips below it."""
    jacks = [jack_group(block) for block in blocks(build, cabinet, _faces(stands, view))]
    if view.side == REAR:
        about = [rear_rails(cabinet, stands), entering(build, cabinet)] if is_last else []
        return Picture("", width, 0), "", [there(build, cabinet, stands, view), *jacks, *about]
    found = lines(build, cabinet, stands, view)
    head = schedule_picture(found, cabinet.usable_depth, width, room - (_LEAST if jacks else 0.0))
    return head, f"{in_words(found)}.", jacks


def _faces(stands: tuple[Standing, ...], view: View) -> list[tuple[str, Face]]:
    """What may have jacks, each with its height in words."""
    found: list[tuple[str, Face]] = []
    for stand in filter(view.shows, stands):
        height = height_words(stand.mount.low, stand.mount.high)
        if stand.face is not None:
            found.append((height, stand.face))
        found += [(f"on the shelf at {height}", face) for face in stand.carried]
    return found


def _side_words(cabinet: Cabinet, view: View) -> str:
    side = "Rear, as seen from behind," if view.side == REAR else "Front"
    units = "" if view.units == cabinet.units else f", {height_words(view.low, view.high)}"
    return f"{side} of cabinet {cabinet.name}{units}, from the top down:"


def _stacked(head: Picture, below: Picture, top: float) -> Picture:
    moved = (
        svg.element("g", below.markup, transform=f"translate(0 {svg.number(top)})") if below.markup else ""
    )
    height = top + below.height if below.markup else head.height
    return Picture(head.markup + moved, max(head.width, below.width), height, below.strokes, below.states)


def _side_by_side(placed: Sequence[tuple[Picture, float]]) -> Picture:
    markup = "".join(
        svg.element("g", picture.markup, transform=f"translate({svg.number(x)} 0)") for picture, x in placed if picture.markup
    )  # fmt: skip
    return Picture(
        markup,
        max(x + picture.width for picture, x in placed),
        max(picture.height for picture, _ in placed),
        frozenset(stroke for picture, _ in placed for stroke in picture.strokes),
        frozenset(state for picture, _ in placed for state in picture.states),
    )


def _colours(build: Build, cabinet: Cabinet) -> list[str]:
    """Of all cables that end in this cabinet, in order of their words."""
    inside = {id_ for id_, device in build.devices.items() if device.cabinet == cabinet.id}
    found = {
        piece.colour
        for piece in build.pieces.values()
        for end in piece.ends
        if piece.colour and end in build.jacks and build.jacks[end].device in inside
    }
    return sorted(found)


def _drawn_colours(sheet: _Sheet) -> frozenset[str]:
    from firstfix.documents.drawing.kit.paints import PAINTS

    return frozenset(paint.word for paint in PAINTS if paint.role in sheet.picture.markup)


def _place(build: Build, cabinet: Cabinet, is_list: bool) -> str:
    room = build.rooms.get(cabinet.room)
    place = f"{building_label(build, room.building)} / {room.name}" if room else "room not known"
    if is_list:
        return place
    depth = cabinet.usable_depth
    usable = f"usable depth {millimetres(depth.low)}" if isinstance(depth, Fact) else "usable depth not known"
    title = cabinet.part.title
    high = "" if f"{cabinet.units} units" in title else rack_units(cabinet.units)
    is_said = isinstance(depth, Fact) and f"{millimetres(depth.low)} usable depth" in title
    return BETWEEN.join(
        filter(None, (place, labelled(build, cabinet.id), title, high, "" if is_said else usable))
    )
