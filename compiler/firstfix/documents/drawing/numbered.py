"""Sheets of one group that are made from pictures: named after the group, and numbered where there are several."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from firstfix.documents.drawing.kit import palette, svg
from firstfix.documents.drawing.kit.page import of_group, page, picture_room
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.kit.svg import Drawing

# Between the pictures of a sheet, as `page` sets them.
GAP = 10.0
WIDEST = palette.SHEET_INNER
# With one flag that says where it continues; sheets that explain themselves do so in pictures of their own.
TALLEST = picture_room(key_lines=0, onward_lines=1)[1]


class Content(NamedTuple):
    """What goes on one sheet: pictures one below the other, and the same in words. `under` stands below the title."""

    pictures: tuple[Picture, ...]
    alt: str
    under: str = ""


def numbered(stem: str, title: str, contents: Sequence[Content], prefix: str = "") -> tuple[Drawing, ...]:
    """One drawing for each: `stem` alone, or `stem-1` and so on, each saying which it is and where it continues."""
    several = len(contents) > 1
    return tuple(
        page(
            f"{stem}-{number}" if several else stem,
            prefix,
            title,
            content.under,
            of_group(number, len(contents)),
            content.alt,
            content.pictures,
            onward=(Onward(f"{stem}-{number + 1}"),) if number < len(contents) else (),
        )
        for number, content in enumerate(contents, 1)
    )


class Block(NamedTuple):
    """A picture that isn't broken, and the same in words."""

    picture: Picture
    words: str


def as_one(blocks: Sequence[Block]) -> Block:
    """One below the other with nothing between them."""
    parts, top = [], 0.0
    for block in blocks:
        parts.append(svg.element("g", block.picture.markup, transform=f"translate(0 {svg.number(top)})"))
        top += block.picture.height
    pictures = [block.picture for block in blocks]
    picture = Picture(
        "".join(parts),
        max(each.width for each in pictures),
        top,
        frozenset(stroke for each in pictures for stroke in each.strokes),
        frozenset(state for each in pictures for state in each.states),
    )
    return Block(picture, " ".join(block.words for block in blocks if block.words))


def flow(blocks: Iterable[Block], tallest: float = TALLEST, gap: float = GAP) -> list[list[Block]]:
    """Blocks in their order on as many sheets as they take."""
    sheets: list[list[Block]] = [[]]
    used = 0.0
    for block in blocks:
        needed = block.picture.height + gap
        if sheets[-1] and used + needed > tallest + gap:
            sheets.append([])
            used = 0.0
        sheets[-1].append(block)
        used += needed
    return [sheet for sheet in sheets if sheet]


def contents_of(sheets: Iterable[Sequence[Block]], under: str) -> list[Content]:
    return [
        Content(
            tuple(block.picture for block in sheet),
            " ".join(block.words for block in sheet if block.words),
            under,
        )
        for sheet in sheets
    ]
