"""Drawings as figures of the page: inline SVG with its caption in words, so that the page needs no other file."""

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup

from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.set import on_light
from firstfix.documents.report.made import Made

# HTML knows inline SVG by its tag; without the name of the name space the page names no address at all.
_NAME_SPACE = ' xmlns="http://www.w3.org/2000/svg"'
_NETWORK, _CABINET = "network", "cabinet-"


class Figure(NamedTuple):
    """`svg` is markup of ours. `caption` says in words what it shows; `file` is the same drawing as a file of its own."""

    anchor: str
    title: str
    svg: Markup
    caption: str
    file: str
    is_wide: bool


def network_figures(made: Made) -> tuple[Figure, ...]:
    sheets = [each for each in made.sheets if each.name.startswith(_NETWORK)]
    several = len(sheets)
    return tuple(
        figure._replace(title=f"{figure.title}, sheet {number} of {several}") if several > 1 else figure
        for number, figure in enumerate(_figures(sheets), 1)
    )


def cabinet_figures(made: Made) -> tuple[Figure, ...]:
    return _figures(each for each in made.sheets if each.name.startswith(_CABINET))


def other_figures(made: Made) -> tuple[Figure, ...]:
    return _figures(each for each in made.sheets if not each.name.startswith((_NETWORK, _CABINET)))


def _figures(drawings: Iterable[Drawing]) -> tuple[Figure, ...]:
    return tuple(
        Figure(
            f"sheet-{drawing.name}",
            drawing.title,
            Markup(on_light(drawing).svg.replace(_NAME_SPACE, "", 1)),  # noqa: S704  # made by drawing/kit, which escapes each text
            drawing.alt,
            f"drawings/{drawing.name}.svg",
            drawing.width > drawing.height,
        )
        for drawing in drawings
    )
