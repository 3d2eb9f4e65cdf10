"""One geometry for two papers: ISO 216 A4, 210 mm x 297 mm, and ANSI/ASME Y14.1 size A (Letter), 8.5 in x 11 in."""

import pytest

from documents.drawing.reading import everything_said, texts
from firstfix.documents.drawing.bound import PAPERS
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.page import fits_sheet, page, page_size, picture_room
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward, flag, flag_width, words
from firstfix.documents.drawing.kit.svg import Drawing, document
from firstfix.documents.drawing.kit.themes import finish
from firstfix.plan.read_drawings import PAPERS as SAID_PAPERS

_MM = 72 / 25.4
_A4, _LETTER = (297 * _MM, 210 * _MM), (11 * 72, 8.5 * 72)
_EDGES = 2 * 10 * _MM


def _sheet(width: float, height: float, onward: tuple[Onward, ...] = ()) -> Drawing:
    return page("x", "", "title", "under", "note", "alt", (Picture("", width, height),), onward=onward)


@pytest.mark.parametrize("paper", [_A4, _LETTER])
def test_a_sheet_prints_at_full_size_on_either_paper(paper: tuple[float, float]) -> None:
    assert paper[0] + 0.01 >= palette.SHEET_LONG + _EDGES
    assert paper[1] + 0.01 >= palette.SHEET_SHORT + _EDGES


def test_a_sheet_is_as_large_as_both_papers_allow() -> None:
    assert min(_A4[0], _LETTER[0]) - _EDGES == pytest.approx(palette.SHEET_LONG)
    assert min(_A4[1], _LETTER[1]) - _EDGES == pytest.approx(palette.SHEET_SHORT)


def test_the_pdfs_papers_are_those() -> None:
    assert PAPERS["a4"] == pytest.approx(_A4)
    assert PAPERS["letter"] == pytest.approx(_LETTER)
    assert tuple(PAPERS) == SAID_PAPERS


@pytest.mark.parametrize("onward", [(), (Onward("y-2"),)])
def test_what_the_kit_says_has_room_has_room_and_a_point_more_has_not(onward: tuple[Onward, ...]) -> None:
    wide, high = picture_room(key_lines=0, onward_lines=len(onward))
    assert fits_sheet((Picture("", wide, high),), onward)
    assert not fits_sheet((Picture("", wide + 1, high),), onward)
    assert not fits_sheet((Picture("", wide, high + 15),), onward)
    assert "larger" not in everything_said(_sheet(wide, high, onward).svg)


def test_a_sheet_that_stands_has_the_same_room_turned() -> None:
    wide, high = picture_room(is_lying=False, key_lines=0)
    width, height = page_size((Picture("", wide, high),))
    assert width == pytest.approx(palette.SHEET_SHORT)
    assert height == pytest.approx(palette.SHEET_LONG, abs=0.1)


@pytest.mark.parametrize(
    ("width", "height", "said"),
    [
        (720, 400, ""),
        (760, 400, "larger than A4 and Letter: print on A3 or ANSI B"),
        (1100, 650, "larger than A4 and Letter: print on A3 or ANSI B"),
        (1200, 700, "larger than A4 and Letter: print on A2 or ANSI C"),
        (3000, 400, "larger than A4 and Letter: print on A0 or ANSI E"),
        (4000, 400, "larger than A0 and ANSI E"),
    ],
)
def test_a_larger_sheet_says_so_on_its_face(width: float, height: float, said: str) -> None:
    found = next((box.words for box in texts(_sheet(width, height).svg) if "larger" in box.words), "")
    assert found.removeprefix("note · ") == said


def test_flags_say_where_it_goes_on_within_the_sheet() -> None:
    onward = tuple(Onward(f"ways-{number}", "barn loft" * (number % 3)) for number in range(2, 14))
    drawing = _sheet(500, 100, onward)
    shown = [box for box in texts(drawing.svg) if "continues on" in box.words]
    assert [box.words for box in shown] == [words(each) for each in onward]
    assert all(box.right <= drawing.width and box.bottom <= drawing.height for box in shown)
    assert not any(one.overlaps(other) for one in shown for other in shown if one is not other)
    assert drawing.onward == tuple(each.sheet for each in onward)


def test_a_flag_keeps_within_its_room() -> None:
    long = Onward("ways-2", "a way with a name " * 20)
    assert flag_width(long) > 500
    box = texts(finish(document("x-", "t", "d", 100, 20, flag(0, 0, long, 100))))[0]
    assert box.right <= 100
    assert box.words.endswith("…")
