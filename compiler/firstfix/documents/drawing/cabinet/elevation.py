"""The elevation of one cabinet: its front to scale, and beside it the list of what stands where."""

from firstfix.build.hardware import Cabinet
from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet.faces import Scale
from firstfix.documents.drawing.cabinet.front import front_picture, front_size
from firstfix.documents.drawing.cabinet.listing import NARROWEST, in_words, lines, schedule_picture
from firstfix.documents.drawing.cabinet.standing import standings
from firstfix.documents.drawing.kit import palette, svg
from firstfix.documents.drawing.kit.page import HEAD, page
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.where import building_label
from firstfix.parts.facts import Fact
from firstfix.units import millimetres, rack_units

# Scales that a ruler or a calculator copes with, the largest first.
SCALES = tuple(Scale(denominator) for denominator in (3, 4, 5, 6, 8, 10, 12.5, 15, 20))
_BETWEEN = 18.0
_KEY = 46.0
_WIDEST_LIST = 370.0


def cabinet_elevation(build: Build, cabinet_id: str, prefix: str = "") -> Drawing:
    """The drawing of cabinet `cabinet_id`; `prefix` starts every id in the SVG. KeyError for an id that is no cabinet's."""
    cabinet = build.cabinets[cabinet_id]
    names = svg.distinct_names({id_: each.name for id_, each in build.cabinets.items()})
    name = f"cabinet-{names[cabinet_id]}"
    stands = standings(build, cabinet)
    found = lines(build, cabinet, stands)
    scale, (width, height) = _choose(cabinet)
    front = front_picture(cabinet, stands, scale, f"{prefix}{name}-kept-free")
    list_width = min(_WIDEST_LIST, width - 2 * palette.MARGIN - front.width - _BETWEEN)
    listed = schedule_picture(
        found, cabinet.usable_depth, list_width, height - 2 * palette.MARGIN - HEAD - _KEY
    )
    whole = Picture(
        front.markup
        + svg.element("g", listed.markup, transform=f"translate({svg.number(front.width + _BETWEEN)} 0)"),
        front.width + _BETWEEN + list_width,
        max(front.height, listed.height),
        frozenset(),
        front.states,
    )
    title, note = f"Cabinet {cabinet.name}", f"front, scale {scale.words} on A4"
    words = f"Front of cabinet {cabinet.name}, from the top down: {in_words(found)}."
    return page(name, prefix, title, _under(build, cabinet), note, words, (whole,))


def _choose(cabinet: Cabinet) -> tuple[Scale, tuple[float, float]]:
    """The largest scale at which front and list fit on A4, lying or standing, and that sheet's size in points."""
    papers = ((palette.A4_LONG, palette.A4_SHORT), (palette.A4_SHORT, palette.A4_LONG))
    for scale in SCALES:
        wide, high = front_size(cabinet, scale)
        for width, height in papers:
            if (
                wide + _BETWEEN + NARROWEST + 2 * palette.MARGIN <= width
                and high + HEAD + _KEY + 2 * palette.MARGIN <= height
            ):
                return scale, (width, height)
    return SCALES[-1], papers[-1]


def _under(build: Build, cabinet: Cabinet) -> str:
    room = build.rooms.get(cabinet.room)
    place = f"{building_label(build, room.building)} / {room.name}" if room else "room not known"
    depth = cabinet.usable_depth
    usable = f"usable depth {millimetres(depth.low)}" if isinstance(depth, Fact) else "usable depth not known"
    return BETWEEN.join((place, cabinet.part.title, rack_units(cabinet.units), usable))
