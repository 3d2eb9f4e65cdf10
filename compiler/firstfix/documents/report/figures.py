"""Drawings as figures of the page: inline SVG with its caption in words, so that the page needs no other file."""

from collections.abc import Iterable
from typing import NamedTuple

from markupsafe import Markup

from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.report.made import Made

# HTML knows inline SVG by its tag; without the name of the name space the page names no address at all.
_NAME_SPACE = ' xmlns="http://www.w3.org/2000/svg"'


class Figure(NamedTuple):
    """`svg` is markup of ours. `caption` says in words what it shows; `file` is the same drawing as a file of its own."""

    anchor: str
    title: str
    svg: Markup
    caption: str
    file: str
    is_wide: bool


def network_figures(made: Made) -> tuple[Figure, ...]:
    return _figures("network", ((drawing.name, drawing) for drawing in made.network))


def cabinet_figures(made: Made) -> tuple[Figure, ...]:
    return _figures("elevation", made.cabinets)


def _figures(kind: str, drawings: Iterable[tuple[str, Drawing]]) -> tuple[Figure, ...]:
    several = list(drawings)
    return tuple(
        Figure(
            f"{kind}-{number}",
            _title(drawing, number, len(several) if kind == "network" else 1),
            Markup(drawing.svg.replace(_NAME_SPACE, "", 1)),  # noqa: S704  # made by drawing/kit, which escapes each text
            drawing.alt,
            f"drawings/{stem}.svg",
            drawing.width > drawing.height,
        )
        for number, (stem, drawing) in enumerate(several, 1)
    )


def _title(drawing: Drawing, number: int, of: int) -> str:
    return f"{drawing.title}, sheet {number} of {of}" if of > 1 else drawing.title
