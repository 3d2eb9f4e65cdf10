"""The page on the visual language leaves nothing out, and the sheet of signs keeps the rules that it tells of."""

import pytest

from documents.drawing.reading import overlapping, texts
from firstfix.documents.drawing.kit import marks, palette
from firstfix.documents.drawing.kit.key import MEANINGS
from firstfix.documents.drawing.kit.page import page
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.themes import THEMES, theme
from firstfix.documents.drawing.language import language_page, language_sample

SIGNS = (
    "Changed",
    "Device", "Panel", "Cord", "Installed run", "Fibre", "Twinax", "Mains", "PoE", "VLAN", "Kept free", "Gap", "In line", "Rear, behind",
    "Continues", "New", "Gone", "Moved", "How full", "Tree", "Stands by", "Jack", "Spare", "Building", "Clash", "Empty", "Themes", "Way", "Power",
    "Cord colour", "There already",
)  # fmt: skip


@pytest.mark.parametrize("sign", SIGNS)
def test_each_sign_is_described(sign: str) -> None:
    assert f"| **{sign}** | " in language_page()


def test_each_role_and_line_is_listed_with_its_figures() -> None:
    said = language_page()
    for role, name, _ in palette.ROLES:
        row = next(line for line in said.split("\n") if line.startswith(f"| {name} |"))
        assert all(theme(each).colours[role] in row for each in THEMES)
    for stroke, words in MEANINGS:
        assert any(
            f"{stroke.weight:g}" in line for line in said.split("\n") if line.startswith(f"| {words} |")
        )


def test_the_sheet_of_signs_prints_on_both_papers_with_no_text_on_another() -> None:
    drawing = language_sample()
    assert drawing.width <= palette.SHEET_LONG
    assert drawing.height <= palette.SHEET_SHORT
    boxes = texts(drawing.svg)
    assert overlapping(boxes) == []
    assert {words for _, words in MEANINGS} <= {box.words for box in boxes}


@pytest.mark.parametrize(
    "name", ["till", "a name of a device that goes on for much longer than there is room"]
)
def test_changed_things_bear_their_word_and_their_name_within_the_box(name: str) -> None:
    drawn = [
        marks.new_box(0, 0, 120, 20, name),
        marks.gone_box(0, 0, 120, 20, name),
        marks.changed_box(0, 0, 120, 20, name),
        marks.moved_boxes((0, 0), (200, 0), 120, 20, name),
    ]
    for markup, words in zip(drawn, (("new",), ("gone",), ("changed",), ("was here", "moved")), strict=True):
        boxes = texts(page("x", "", "", "", "", "", (Picture(markup, 320, 20),)).svg)
        assert set(words) <= {box.words for box in boxes}
        assert len(boxes) == 2 * len(words)
        assert overlapping(boxes) == []
        assert all(box.right - palette.MARGIN <= (120 if len(words) == 1 else 320) for box in boxes)


def test_cords_of_different_media_are_told_apart_in_black_and_white() -> None:
    cords = [palette.wire_stroke(medium, False, False) for medium in ("copper", "fibre", "twinax")]
    assert len({stroke.dash for stroke in cords}) == len(cords)
