"""The set: every sheet that a build is drawn on, in order. The files, the PDF, the report and `draw` all ask here."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from firstfix.build.model import Build
from firstfix.documents.drawing.addresses import address_drawings
from firstfix.documents.drawing.cabinet import cabinet_drawings
from firstfix.documents.drawing.kit.foot import with_foot
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.kit.themes import DARK, LIGHT
from firstfix.documents.drawing.network.drawings import network_drawings
from firstfix.documents.drawing.power import mains_drawings, poe_drawings
from firstfix.documents.drawing.rooms import room_drawings
from firstfix.documents.drawing.tree import tree_drawings
from firstfix.documents.drawing.vlans import vlan_drawings
from firstfix.documents.drawing.ways import way_drawings

Maker = Callable[[Build], tuple[Drawing, ...]]

DRAFT = "draft: the plan has errors"
# One for each group of sheets; a group with nothing to show gives none.
MAKERS: tuple[Maker, ...] = (
    network_drawings,
    cabinet_drawings,
    way_drawings,
    room_drawings,
    mains_drawings,
    poe_drawings,
    vlan_drawings,
    tree_drawings,
    address_drawings,
)


def sheets(build: Build, is_draft: bool = False) -> tuple[Drawing, ...]:
    """All sheets in the plan's theme, each with its foot. Names, and so the ids within, are apart from each other's."""
    return dressed(build, undressed(build), is_draft=is_draft)


def undressed(build: Build, makers: Iterable[Maker] = ()) -> Iterable[Drawing]:
    """What those makers draw, or all of them, one after the other, without theme and foot."""
    return _apart(drawing for maker in makers or MAKERS for drawing in maker(build))


def dressed(
    build: Build, drawn: Iterable[Drawing], theme: str = "", is_draft: bool = False
) -> tuple[Drawing, ...]:
    """In `theme`, or else in the plan's; at the foot whose plan it is, the credit, and the name that other sheets call it by.

    A draft says so there.
    """
    words = BETWEEN.join(filter(None, (DRAFT if is_draft else "", build.name, build.looks.credit)))
    chosen = theme or build.looks.theme
    return tuple(
        with_foot(replace(drawing, theme=chosen), words, f"sheet {drawing.name}") for drawing in drawn
    )


def on_light(drawing: Drawing) -> Drawing:
    """As it stands on a page that is light whatever the plan says."""
    return replace(drawing, theme=LIGHT) if drawing.theme == DARK else drawing


def _apart(drawn: Iterable[Drawing]) -> Iterable[Drawing]:
    """A sheet whose name is taken, such as the second of "a" and the first one of "a-2", gets another."""
    taken: set[str] = set()
    for drawing in drawn:
        name, ordinal = drawing.name, 1
        while name in taken:
            ordinal += 1
            name = f"{drawing.name}-again-{ordinal}"
        taken.add(name)
        yield drawing if name == drawing.name else _renamed(drawing, name)


def _renamed(drawing: Drawing, name: str) -> Drawing:
    """Every id in a sheet begins with its name, and stands in an attribute."""
    markup = drawing.markup
    for before in ('="', '="url(#'):
        markup = markup.replace(f"{before}{drawing.name}-", f"{before}{name}-")
    markup = markup.replace(f"title {drawing.name}-desc", f"title {name}-desc", 1)
    return replace(drawing, name=name, markup=markup)
