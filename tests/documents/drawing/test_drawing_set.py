"""The set: one list of sheets, whose names are apart, whose references hold, and whose feet say whose they are."""

from dataclasses import replace

import pytest

from documents.drawing.reading import everything_said, ids, texts
from documents.drawing.sample_build import estate, farm, school
from firstfix.build.looks import Looks
from firstfix.build.model import Build
from firstfix.documents.drawing import set as drawing_set
from firstfix.documents.drawing.kit.page import page
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing, safe_name
from firstfix.documents.drawing.set import MAKERS, sheets

BUILDS = {build.name: build for build in (farm(), estate(), school())}


@pytest.mark.parametrize("name", BUILDS)
def test_names_are_apart_and_safe_and_references_hold(name: str) -> None:
    drawn = sheets(BUILDS[name])
    names = [drawing.name for drawing in drawn]
    assert len(set(names)) == len(names)
    assert all(each == safe_name(each) for each in names)
    assert {onward for drawing in drawn for onward in drawing.onward} <= set(names)
    found = [id_ for drawing in drawn for id_ in ids(drawing.svg)]
    assert len(set(found)) == len(found)


@pytest.mark.parametrize("name", BUILDS)
def test_it_is_all_that_the_makers_make_in_their_order(name: str) -> None:
    made = [drawing.name for maker in MAKERS for drawing in maker(BUILDS[name])]
    assert [drawing.name for drawing in sheets(BUILDS[name])] == made


def test_each_foot_says_the_plan_the_credit_and_the_sheets_name() -> None:
    build = replace(farm(), looks=Looks(credit="Drawn for the yearbook"))
    for drawing in sheets(build):
        shown = [box.words for box in texts(drawing.svg)]
        assert f"{build.name} · Drawn for the yearbook" in shown
        assert f"sheet {drawing.name}" in shown


def test_the_plans_theme_is_honoured() -> None:
    dark = sheets(replace(farm(), looks=Looks(theme="dark")))
    assert {drawing.theme for drawing in dark} == {"dark"}
    assert {drawing.theme for drawing in sheets(farm())} == {"light"}


def test_the_same_build_gives_the_same_sheets() -> None:
    assert sheets(farm()) == sheets(farm())


def _one(build: Build) -> tuple[Drawing, ...]:
    assert build.name
    return (page("a-2", "", "a-2", "", "", "url(#a-2-x", (Picture("", 10, 10),)),)


def test_two_sheets_of_one_name_are_kept_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(drawing_set, "MAKERS", (_one, _one, _one))
    drawn = sheets(farm())
    assert [drawing.name for drawing in drawn] == ["a-2", "a-2-again-2", "a-2-again-3"]
    for drawing in drawn:
        assert sorted(ids(drawing.svg)) == [f"{drawing.name}-desc", f"{drawing.name}-title"]
        assert f'aria-labelledby="{drawing.name}-title {drawing.name}-desc"' in drawing.svg
        assert "url(#a-2-x" in everything_said(drawing.svg)
