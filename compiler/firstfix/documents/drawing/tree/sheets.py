"""The sheets of the predicted tree. Takes a build; gives drawings, none for a build with less than two bridges."""

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import QUIET, SMALL_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.listing import Cell, Column, Row, listing, quiet, split
from firstfix.documents.drawing.numbered import GAP, TALLEST, WIDEST, Block, contents_of, numbered
from firstfix.documents.drawing.tree.picture import ROW, tree_picture
from firstfix.documents.drawing.tree.rows import (
    bridge_rows,
    figures,
    in_words,
    port,
    predicted,
    rest,
    rest_words,
)
from firstfix.graphs.tree_view import STANDING_BY, TreeEdge, TreeView

_COLUMNS = (
    Column("", 24.0),
    Column("One end", 122.0),
    Column("Other end", 122.0),
    Column("Rate and cost", 106.0),
    Column("In the tree", WIDEST - 374.0),
)
_KEY = 16.0
_SOURCE = (
    "Predicted by IEEE Std 802.1D (2004), 17.6, now in 802.1Q: the lowest identifier (priority, then address) is the root; each bridge takes"
    " its cheapest way there, and of equal ones that of the lowest identifier and port. Costs are those of Table 17-3, 20 Tb/s by the rate."
    " Priorities are those that the sheets of settings advise, the root nearest to the gateway: common practice, no source."
)


def tree_drawings(build: Build) -> tuple[Drawing, ...]:
    """`tree`, or `tree-1` and so on: bridges first, then the links that stand by."""
    view = predicted(build)
    rows = bridge_rows(view)
    if len(rows) < 2:
        return ()
    marked = tuple(zip(_letters(len(rest(view))), rest(view), strict=True))
    foot = _foot(view)
    room = TALLEST - foot.picture.height - 2 * GAP - _KEY
    most = max(4, int(room // ROW))
    sheets: list[list[Block]] = []
    for start in range(0, len(rows), most):
        here = rows[start : start + most]
        sheets.append([Block(tree_picture(build, here, marked), " ".join(in_words(build, here)))])
    left = room - sheets[-1][0].picture.height - GAP
    for index, block in enumerate(_standing_by(build, marked, room, left)):
        if index or left < block.picture.height:
            sheets.append([block])
        else:
            sheets[-1].append(block)
    sheets[-1].append(foot)
    return numbered("tree", f"Spanning tree of {build.name}, predicted", contents_of(sheets, _under(view)))


def _letters(count: int) -> list[str]:
    """A, B, … Z, AA, AB, …"""
    alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    return [
        (alphabet[number // 26 - 1] if number >= 26 else "") + alphabet[number % 26]
        for number in range(count)
    ]


def _under(view: TreeView) -> str:
    by = sum(edge.stands_by for edge in view.edges)
    untold = sum(edge.is_untold and not edge.stands_by for edge in view.edges)
    links = f"{len(view.edges)} link{'' if len(view.edges) == 1 else 's'}"
    said = f"{len(view.bridges)} bridges, {links} between them; "
    said += (
        f"{by} stand{'s' if by == 1 else ''} by"
        if by
        else "no link stands by"
        if not untold
        else "none surely stands by"
    )
    return f"{said}; of {untold} it cannot be told" if untold else said


def _standing_by(
    build: Build, marked: tuple[tuple[str, TreeEdge], ...], room: float, left: float
) -> list[Block]:
    """The list of links that are on no way to the root; in its place the words that there are none."""
    if not marked:
        words = "No link stands by: where one breaks, what hangs behind it is cut off."
        return [Block(Picture(svg.text(4, 10, words, palette.TEXT_SIZE), WIDEST, 14), words)]
    rows = [_row(build, letter, edge) for letter, edge in marked]
    lots = split(rows, room, left if left > 60 else room)
    return [Block(listing(_COLUMNS, lot), " ".join(f"{row.hint}." for row in lot)) for lot in lots]


def _row(build: Build, letter: str, edge: TreeEdge) -> Row:
    ends = (Cell(port(build, end)) for end in edge.ends)
    return Row(
        (Cell(letter, is_bold=True), *ends, quiet(figures(edge)), Cell(rest_words(build, edge), is_bold=True))
    )


def _foot(view: TreeView) -> Block:
    lines = [*font.wrap(_SOURCE, WIDEST - 8, SMALL_SIZE, 4)]
    if view.doubts:
        lines += font.wrap(f"Not known: {'; '.join(view.doubts)}.", WIDEST - 8, SMALL_SIZE, 3)
    if any(end.role in STANDING_BY for edge in view.edges for end in edge.ends):
        lines.append("A heavy bar across a link's end: that jack is blocked until the tree changes.")
    parts = [
        svg.text(4, 9 + index * 9.5, line, SMALL_SIZE, colour=QUIET, room=WIDEST - 8)
        for index, line in enumerate(lines)
    ]
    return Block(Picture("".join(parts), WIDEST, len(lines) * 9.5 + 2), " ".join(lines))
