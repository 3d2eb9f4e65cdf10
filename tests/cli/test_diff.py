"""Two plans, or two revisions of one: 0 the same, 1 different, 2 trouble."""

import json
import os
import shutil
import subprocess
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


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """Two plans in a git repository, one of them with an include, committed once."""
    if shutil.which("git") is None:
        pytest.skip("there is no git")
    (tmp_path / "plans" / "more").mkdir(parents=True)
    (tmp_path / "plans" / "p.yaml").write_text(
        "include: more/rooms.yaml\n" + OLD.replace("sites:", "x-sites:")
    )
    (tmp_path / "plans" / "more" / "rooms.yaml").write_text("sites: {home: {rooms: {study: {}}}}\n")
    (tmp_path / "root.yaml").write_text(OLD)
    (tmp_path / "link.yaml").symlink_to("/etc/hostname")
    who = {
        "GIT_AUTHOR_NAME": "n",
        "GIT_AUTHOR_EMAIL": "e",
        "GIT_COMMITTER_NAME": "n",
        "GIT_COMMITTER_EMAIL": "e",
    }
    for given in (["init", "-q"], ["add", "."], ["commit", "-q", "-m", "first"]):
        subprocess.run(["git", *given], cwd=tmp_path, env={**os.environ, **who}, check=True)
    return tmp_path


@pytest.mark.parametrize(
    ("old", "new", "below"),
    [
        ("HEAD:root.yaml", "root.yaml", ""),
        ("HEAD:plans/p.yaml", "plans/p.yaml", ""),
        ("HEAD:./p.yaml", "p.yaml", "plans"),
        ("HEAD:plans/p.yaml", "p.yaml", "plans"),
    ],
)
def test_a_revision_is_compared_like_a_file(repository: Path, old: str, new: str, below: str) -> None:
    folder = repository / below
    assert firstfix("diff", old, new, cwd=folder).code == 0
    (folder / new).write_text((folder / new).read_text() + "  more: {part: switch-5, room: study}\n")
    run = firstfix("diff", old, new, cwd=folder)
    assert run.code == 1
    assert "device more" in run.out


@pytest.mark.parametrize("other", ["HEAD:nothing.yaml", "NOWHERE:root.yaml", "HEAD:link.yaml"])
def test_what_a_revision_does_not_hold_is_2(repository: Path, other: str) -> None:
    run = firstfix("diff", other, "root.yaml", cwd=repository)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)


def test_a_rename_is_said_as_one(folder: Path) -> None:
    renamed = OLD.replace("  core: {", "  hub: {was: core, ")
    (folder / "renamed.yaml").write_text(renamed)
    run = firstfix("diff", "old.yaml", "renamed.yaml", cwd=folder)
    assert (run.code, run.out) == (1, "Renamed (1)\n  device core → hub\n")
    data = json.loads(firstfix("diff", "old.yaml", "renamed.yaml", "--format", "json", cwd=folder).out)
    assert data["renamed"] == [{"old": "device:core", "new": "device:hub"}]
    assert data["added"] == data["removed"] == []


def test_an_old_name_that_never_was_is_said(folder: Path) -> None:
    (folder / "renamed.yaml").write_text(OLD.replace("  core: {", "  hub: {was: coer, "))
    run = firstfix("diff", "old.yaml", "renamed.yaml", cwd=folder)
    assert "Not in the old plan under the name that `was:` gives (1)\n  device hub: coer\n" in run.out
