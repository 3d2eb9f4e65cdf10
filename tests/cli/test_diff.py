"""Two plans, or two revisions of one: 0 the same, 1 different, 2 trouble."""

import json
from pathlib import Path

import pytest

from cli.running import UNREADABLE_PLAN, firstfix, is_one_sentence

OLD = "name: a\nsites: {home: {rooms: {study: {}}}}\ndevices:\n  core: {part: switch-8, room: study}\n"
SAME = "# a comment\n" + OLD.replace("  core:", "    core:  ")
NEW = OLD + "  desk: {part: computer-desktop, room: study, plugs-into: [core]}\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("old", OLD), ("same", SAME), ("new", NEW), ("unreadable", UNREADABLE_PLAN)):
        (tmp_path / f"{name}.yaml").write_text(text)
    return tmp_path


def test_layout_and_comments_make_no_difference(folder: Path) -> None:
    run = firstfix("diff", "old.yaml", "same.yaml", cwd=folder)
    assert (run.code, run.out) == (0, "nothing changes\n")


def test_a_difference_is_1_and_says_what(folder: Path) -> None:
    run = firstfix("diff", "old.yaml", "new.yaml", cwd=folder)
    assert run.code == 1
    assert "device desk" in run.out
    assert "  1: Desktop computer (computer-desktop), " in run.out
    assert "What is to buy comes to " in run.out


def test_the_same_as_data(folder: Path) -> None:
    run = firstfix("diff", "old.yaml", "new.yaml", "--format", "json", cwd=folder)
    assert run.code == 1
    data = json.loads(run.out)
    assert "device:desk" in data["added"]
    (bought,) = [each for each in data["to_buy"] if each["part"] == "computer-desktop"]
    assert bought["packs"] == [{"number": 1, "size": 1, "price": bought["price"]}]


def test_the_changes_go_into_a_folder_too(folder: Path) -> None:
    run = firstfix("diff", "old.yaml", "new.yaml", "-o", "out", cwd=folder)
    assert run.code == 1
    assert {".firstfix", "changes.json", "changes.md"} <= {path.name for path in (folder / "out").iterdir()}
    data = json.loads((folder / "out" / "changes.json").read_text("utf-8"))
    assert data == json.loads(firstfix("diff", "old.yaml", "new.yaml", "--format", "json", cwd=folder).out)
    page = firstfix("diff", "old.yaml", "new.yaml", "--format", "markdown", cwd=folder).out
    written = (folder / "out" / "changes.md").read_text("utf-8").splitlines()
    assert set(page.splitlines()) <= set(written)
    (picture,) = [line for line in written if line.startswith("![")]
    assert picture.startswith("![New: desk")
    assert picture.endswith("](drawings/change.svg)")
    drawings = folder / "out" / "drawings"
    assert {path.name for path in drawings.iterdir()} == {"change.svg", "change.png", "change.dot"}
    assert (folder / "out" / "change.pdf").read_bytes().startswith(b"%PDF")


def test_no_difference_is_not_drawn(folder: Path) -> None:
    assert firstfix("diff", "old.yaml", "same.yaml", "-o", "out", cwd=folder).code == 0
    assert {path.name for path in (folder / "out").iterdir()} == {".firstfix", "changes.json", "changes.md"}


def test_a_folder_of_others_is_refused_before_anything_is_compared(folder: Path) -> None:
    (folder / "mine").mkdir()
    (folder / "mine" / "letter.txt").write_text("mine")
    run = firstfix("diff", "old.yaml", "new.yaml", "-o", "mine", cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)


def test_where_one_cannot_be_read_the_other_is_still_checked(folder: Path) -> None:
    run = firstfix("diff", "unreadable.yaml", "new.yaml", cwd=folder)
    assert run.code == 2
    assert "firstfix: NEW, new.yaml, was checked by itself: no errors, " in run.err
    assert run.err.endswith("firstfix: unreadable.yaml cannot be read as a plan\n")


def test_a_name_that_begins_with_a_dash_comes_behind_two(folder: Path) -> None:
    (folder / "-p.yaml").write_text(OLD)
    assert firstfix("diff", "--", "-p.yaml", "same.yaml", cwd=folder).code == 0


@pytest.mark.parametrize("other", ["missing.yaml", "HEAD:", ":old.yaml", "--upload-pack=x:old.yaml", "."])
def test_trouble_is_2(folder: Path, other: str) -> None:
    run = firstfix("diff", "old.yaml", other, cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)


def test_an_unreadable_plan_is_2_with_its_findings_on_standard_error(folder: Path) -> None:
    run = firstfix("diff", "unreadable.yaml", "old.yaml", cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert "unreadable.yaml:" in run.err
    assert run.err.endswith("firstfix: unreadable.yaml cannot be read as a plan\n")


def test_a_rename_is_said_as_one(folder: Path) -> None:
    renamed = OLD.replace("  core: {", "  hub: {was: core, ")
    (folder / "renamed.yaml").write_text(renamed)
    run = firstfix("diff", "old.yaml", "renamed.yaml", cwd=folder)
    assert (run.code, run.out) == (1, "1 re-labelled\n\nRe-labelled (1)\n  device core → hub\n")
    data = json.loads(firstfix("diff", "old.yaml", "renamed.yaml", "--format", "json", cwd=folder).out)
    assert data["renamed"] == [{"old": "device:core", "new": "device:hub", "is_guess": False}]
    assert data["added"] == data["removed"] == []


def test_an_old_name_that_never_was_is_said(folder: Path) -> None:
    (folder / "renamed.yaml").write_text(OLD.replace("  core: {", "  hub: {was: coer, "))
    run = firstfix("diff", "old.yaml", "renamed.yaml", cwd=folder)
    assert "Not in the old plan under the name that `was:` gives (1)\n  device hub: coer\n" in run.out
