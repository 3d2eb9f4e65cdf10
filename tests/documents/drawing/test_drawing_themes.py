"""Roles become colours when a sheet is finished, and nothing that a plan says can pass for a role."""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.drawing.reading import everything_said, ids, parse, texts
from documents.drawing.sample_build import farm
from firstfix.documents.drawing.kit import font, paints, palette, svg
from firstfix.documents.drawing.kit.foot import with_foot
from firstfix.documents.drawing.kit.key import TINTS
from firstfix.documents.drawing.kit.page import page
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.themes import DARK, FOOT_SLOT, LIGHT, PRINT, THEMES, finish, theme
from firstfix.documents.drawing.set import sheets
from firstfix.plan.read_drawings import THEMES as SAID_THEMES

_MARKS = {role for role, _, _ in palette.ROLES} | {FOOT_SLOT} | {paint.role for paint in paints.PAINTS}
_PRIVATE = re.compile("[\ue000-\uf8ff]")


def _sheet(words: str) -> svg.Drawing:
    tint = svg.rect(0, 0, 90, 20, fill=palette.PASSIVE_BAND)
    drawn = svg.group(words, tint, svg.text(4, 12, words, 9, room=300), svg.text(4, 22, words, 9))
    return page("x", "", words, words, words, words, (Picture(drawn, 90, 20),))


def test_the_marks_are_apart_and_no_letters() -> None:
    assert len(_MARKS) == len(palette.ROLES) + 1 + len(paints.PAINTS)
    assert all(len(mark) == 1 and _PRIVATE.fullmatch(mark) for mark in _MARKS)


def test_a_plans_words_cannot_forge_a_mark() -> None:
    words = f"a{''.join(sorted(_MARKS))}b"
    assert font.clean(words) == "ab"
    assert _sheet(words).markup == _sheet("ab").markup
    assert with_foot(_sheet("ab"), words, words).svg == with_foot(_sheet("ab"), "ab", "ab").svg


@given(st.text(st.sampled_from(sorted(_MARKS)) | st.characters(), max_size=30))
@settings(derandomize=True, deadline=None, max_examples=60)
def test_whatever_a_plan_says_the_colours_are_the_same(words: str) -> None:
    def colours(drawing: svg.Drawing) -> set[str | None]:
        return {element.get("fill") for element in parse(drawing.svg).iter()}

    assert colours(_sheet(words)) <= colours(_sheet("plain"))
    assert not _PRIVATE.search(_sheet(words).svg)


@pytest.mark.parametrize("name", THEMES)
def test_a_finished_sheet_has_colours_and_no_roles(name: str) -> None:
    drawn = [replace(drawing, theme=name) for drawing in sheets(farm())]
    assert len(drawn) > 3
    for drawing in drawn:
        assert _PRIVATE.search(drawing.markup)
        assert not _PRIVATE.search(drawing.svg)
        assert everything_said(drawing.svg)
        assert all(id_.startswith(f"{drawing.name}-") for id_ in ids(drawing.svg))


def test_themes_change_no_more_than_colours() -> None:
    def shapes(name: str) -> list[tuple[str, ...]]:
        boxes = texts(replace(_sheet("one"), theme=name).svg)
        return [(box.words, str(box.left), str(box.top)) for box in boxes]

    assert shapes(LIGHT) == shapes(DARK) == shapes(PRINT)


def test_print_has_nothing_but_black_white_and_dots() -> None:
    for drawing in sheets(farm()):
        root = parse(replace(drawing, theme=PRINT).svg)
        painted = {element.get(kind) for element in root.iter() for kind in ("fill", "stroke")} - {None}
        fills = {each for each in painted if each and not each.startswith("url(#")}
        assert fills <= {"#000000", "#ffffff", "none"}, drawing.name


def test_dots_are_defined_where_they_are_used_and_nowhere_else() -> None:
    with_tint, without = replace(_sheet("x"), theme=PRINT), replace(_sheet("x"), theme=LIGHT)
    assert ids(with_tint.svg).count("x-dots") == 1
    assert "url(#x-dots)" in with_tint.svg
    assert "dots" not in without.svg


def test_without_a_background_only_the_ground_is_left_out() -> None:
    solid, bare = _sheet("x"), replace(_sheet("x"), is_transparent=True)
    assert solid.svg.replace(f'fill="{theme(LIGHT).colours[palette.GROUND]}"', 'fill="none"', 1) == bare.svg


def test_the_foot_stands_where_the_sheet_keeps_room() -> None:
    drawing = with_foot(_sheet("x"), "left " * 200, "right")
    found = {box.words: box for box in texts(drawing.svg)}
    right, left = found["right"], next(box for words, box in found.items() if words.startswith("left"))
    assert left.right < right.left
    assert right.right <= drawing.width
    assert max(left.bottom, right.bottom) <= drawing.height
    above = [box.bottom for box in texts(_sheet("x").svg)]
    assert max(above) <= min(left.top, right.top)


def test_finishing_twice_changes_nothing_more() -> None:
    once = finish(_sheet("x").markup)
    assert finish(once) == once


def test_the_plan_can_ask_for_each_theme() -> None:
    assert SAID_THEMES == THEMES


def test_the_keys_tints_are_roles() -> None:
    assert {tint for tint, _ in TINTS} <= _MARKS
