"""The list of a change: every value that is another one, by the sort of the change, and what came or went that no sheet draws.

Takes both sides; gives rows of a listing. What is long goes on in the next row, so that nothing is cut off.
"""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.compare.categories import ADDED, CATEGORIES, RELABELLED, REMOVED
from firstfix.compare.changes import Changed
from firstfix.documents.changes_words import came_and_went, renamed_words, thing, value_words
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.kit import font, palette
from firstfix.documents.drawing.kit.palette import TEXT_SIZE
from firstfix.documents.drawing.listing import Cell, Column, Row, group, quiet

COLUMNS = (
    Column("What", 186.0),
    Column("of it", 92.0),
    Column("before", 222.0),
    Column("after", palette.SHEET_INNER - 500.0),
)
_PAD = 8.0
_MOST_LINES = 6
# Of what came or went, these are on the sheets before.
_DRAWN = frozenset({"device", "fitting", "cabinet", "units"})


def list_rows(sides: Sides) -> list[Row]:
    """Empty if all that changes is drawn."""
    rows: list[Row] = []
    for sort in CATEGORIES:
        inside = list(_of_sort(sides, sort))
        if inside:
            rows += [group(sort[0].upper() + sort[1:]), *(row for each in inside for row in _broken(*each))]
    return rows


_Words = tuple[str, str, str, str]


def _of_sort(sides: Sides, sort: str) -> Iterator[_Words]:
    changes = sides.changes
    if sort in (ADDED, REMOVED):
        for id_, words in came_and_went(changes.delta.new if sort == ADDED else changes.delta.gone):
            if ids.kind(id_) not in _DRAWN:
                said = words.removeprefix(thing(id_)).removeprefix(": ")
                there = said or "there"
                turn = ("not there", there) if sort == ADDED else (there, "not there")
                yield thing(id_), "", *turn
    elif sort == RELABELLED:
        for each in changes.renamed:
            yield thing(each.old), "name", ids.path(each.old), renamed_words(each).partition(" → ")[2]
    else:
        order = sorted(changes.of(sort), key=lambda each: ids.natural(each.id))
        yield from (_changed(sides, each) for each in order)


def _changed(sides: Sides, each: Changed) -> _Words:
    """A fitting has no name of its own: it goes by its part."""
    fitting = sides.new.fittings.get(each.id)
    name = f"{fitting.part.title}, {ids.path(each.id)}" if fitting else thing(each.id)
    return name, each.attribute, value_words(each.old), value_words(each.new)


def _broken(*words: str) -> Iterator[Row]:
    columns = [
        font.wrap(said, column.width - _PAD, TEXT_SIZE, _MOST_LINES) or ("",)
        for said, column in zip(words, COLUMNS, strict=True)
    ]
    for number in range(max(map(len, columns))):
        cells = [lines[number] if number < len(lines) else "" for lines in columns]
        yield Row(
            (
                Cell(cells[0], is_bold=True, size=palette.SMALL_SIZE if number else TEXT_SIZE),
                quiet(cells[1]),
                Cell(cells[2]),
                Cell(cells[3]),
            ),
            is_more=number > 0,
        )


def rows_in_words(rows: list[Row]) -> str:
    """For who can't see them: one sentence for each group."""
    said: list[str] = []
    for row in rows:
        if row.is_group:
            said.append(f"{row.cells[0].words}:")
        else:
            what, of_it, before, after = (cell.words for cell in row.cells)
            joined = f"{what} {of_it} {before} → {after};" if what else f"{of_it} {before} {after};"
            said.append(" ".join(joined.split()))
    return " ".join(said)
