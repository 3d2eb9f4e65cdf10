"""SVG of ours on pages, for `pdf` and `raster`: set by one library, with the shipped font and nothing of the machine's own.

Whatever comes from a plan goes in as a value, never as source; nothing is read from the machine or the network, and there is no clock.
"""

from collections.abc import Iterator, Sequence
from functools import cache
from typing import TYPE_CHECKING, Literal, NamedTuple

from firstfix.documents.drawing.kit import font

if TYPE_CHECKING:
    from typst import Fonts


class Leaf(NamedTuple):
    """`svg` is `width` by `height` points. It fills its page, or lies in the middle of a page of size `paper`, if that is given.

    `alt` is read to who can't see the page; `title` stands in the list of pages beside it, "" for none.
    """

    svg: str
    width: float
    height: float
    alt: str = ""
    title: str = ""
    paper: tuple[float, float] | None = None


def typeset(
    leaves: Sequence[Leaf], form: Literal["pdf", "png"], title: str = "", dots: float = 72.0
) -> list[bytes]:
    """One PDF of all leaves, at least one, or a PNG of each, `dots` per inch. Raises ValueError for what is no SVG."""
    if not leaves:
        raise ValueError("at least one page is needed")
    import typst

    try:
        made = typst.Compiler(font_paths=_fonts(), ignore_system_fonts=True).compile(
            input="".join(_source(leaves)).encode(),
            format=form,
            ppi=dots,
            sys_inputs=_said(leaves, title),
            timestamp=0,
        )
    except typst.TypstError as problem:
        raise ValueError(f"no {form} can be made of this: {problem}") from problem
    assert made is not None
    return made if isinstance(made, list) else [made]


@cache
def _fonts() -> "Fonts":
    import typst

    return typst.Fonts(False, False, [str(font.REGULAR.parent)])


def _said(leaves: Sequence[Leaf], title: str) -> dict[str, str]:
    said = {"title": font.clean(title)}
    for number, leaf in enumerate(leaves):
        said |= {
            f"svg-{number}": leaf.svg,
            f"alt-{number}": leaf.alt,
            f"title-{number}": font.clean(leaf.title),
        }
    return said


def _source(leaves: Sequence[Leaf]) -> Iterator[str]:
    """`date` is none: a document doesn't know when it was made. A hidden heading makes a page's entry in the list of pages."""
    yield '#set document(title: sys.inputs.at("title"), date: none)\n'
    yield f'#set text(font: "{font.FAMILY}", lang: "en")\n'
    for number, leaf in enumerate(leaves):
        wide, high = leaf.paper or (leaf.width, leaf.height)
        picture = (
            f'image(bytes(sys.inputs.at("svg-{number}")), format: "svg", width: {leaf.width:.4f}pt,'
            f' height: {leaf.height:.4f}pt, alt: sys.inputs.at("alt-{number}"))'
        )
        heading = f'#place(hide(heading(sys.inputs.at("title-{number}"))))' if leaf.title else ""
        yield (
            f"#page(width: {wide:.4f}pt, height: {high:.4f}pt, margin: 0pt, fill: none)"
            f"[{heading}#place(center + horizon, {picture})]\n"
        )
