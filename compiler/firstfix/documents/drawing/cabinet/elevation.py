"""The front of one cabinet, for who wants a single drawing: its first sheet."""

from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet.sheets import side_drawings
from firstfix.documents.drawing.cabinet.standing import FRONT
from firstfix.documents.drawing.kit import svg
from firstfix.documents.drawing.kit.svg import Drawing


def cabinet_elevation(build: Build, cabinet_id: str, prefix: str = "") -> Drawing:
    """The first sheet of the front of cabinet `cabinet_id`; `prefix` starts every id in the SVG. KeyError for an id that is no cabinet's."""
    names = svg.distinct_names({id_: each.name for id_, each in build.cabinets.items()})
    stem = f"cabinet-{names[cabinet_id]}"
    return side_drawings(build, build.cabinets[cabinet_id], FRONT, stem, prefix, set())[0]
