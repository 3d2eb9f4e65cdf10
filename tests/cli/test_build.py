"""What `build` writes and when. The documents are stood in for: here it matters only that they arrive, or don't."""

import json
from pathlib import Path

import pytest

from cli.running import BROKEN_PLAN, UNREADABLE_PLAN, Run, firstfix, is_one_sentence, python

PROGRAM = """
import sys
import firstfix.pipeline
firstfix.pipeline.results = lambda compiled: {"a.md": b"a", "drawings/b.svg": b"b"}
from firstfix.cli.entry import main
sys.exit(main(["build", *sys.argv[1:]]))
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "broken.yaml").write_text(BROKEN_PLAN)
    (tmp_path / "unreadable.yaml").write_text(UNREADABLE_PLAN)
    firstfix("new", "-o", "good.yaml", cwd=tmp_path)
    return tmp_path


def build(folder: Path, *given: str) -> Run:
    return python("-c", PROGRAM, *given, cwd=folder)


def names(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_a_good_plan_gets_its_documents(folder: Path) -> None:
    run = build(folder, "good.yaml", "-o", "out")
    assert run.code == 0
    assert run.err == (
        "firstfix: 2 files stand in out\nfirstfix: what was chosen is kept in good.allocations.yaml\n"
    )
    assert names(folder / "out") == [".firstfix", "a.md", "drawings/b.svg"]


def test_with_errors_only_the_findings_are_written_and_that_is_said(folder: Path) -> None:
    build(folder, "good.yaml", "-o", "out")
    run = build(folder, "broken.yaml", "-o", "out")
    assert run.code == 1
    assert "only the findings are written" in run.err
    assert names(folder / "out") == [".firstfix", "findings.sarif"]
    log = json.loads((folder / "out" / "findings.sarif").read_text())
    assert log["runs"][0]["results"][0]["ruleId"] == "key-unknown"


def test_a_draft_is_written_in_spite_of_errors(folder: Path) -> None:
    run = build(folder, "broken.yaml", "-o", "out", "--draft")
    assert run.code == 1
    assert names(folder / "out") == [".firstfix", "a.md", "drawings/b.svg"]


def test_a_plan_that_cannot_be_read_touches_nothing(folder: Path) -> None:
    build(folder, "good.yaml", "-o", "out")
    run = build(folder, "unreadable.yaml", "-o", "out", "--draft")
    assert (run.code, run.err) == (2, "")
    assert names(folder / "out") == [".firstfix", "a.md", "drawings/b.svg"]


def test_a_folder_of_somebody_else_is_refused_before_any_work(folder: Path) -> None:
    (folder / "thesis").mkdir()
    (folder / "thesis" / "chapter.txt").write_text("mine")
    run = build(folder, "good.yaml", "-o", "thesis")
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert names(folder / "thesis") == ["chapter.txt"]


def test_what_was_changed_by_hand_is_kept_and_said(folder: Path) -> None:
    build(folder, "good.yaml", "-o", "out")
    (folder / "out" / "a.md").write_text("ticked")
    run = build(folder, "good.yaml", "-o", "out")
    assert "a.md had been changed by hand; that text is now a.md.yours\n" in run.err
    assert (folder / "out" / "a.md.yours").read_text() == "ticked"


def test_json_stays_json_while_the_folder_is_written(folder: Path) -> None:
    run = build(folder, "good.yaml", "-o", "out", "--format", "json")
    assert json.loads(run.out)["format"] == "firstfix findings"


FULL_DISK = """
import pathlib
def write_bytes(self, content):
    raise OSError(28, "No space left on device")
pathlib.Path.write_bytes = write_bytes
"""


def test_a_full_disk_is_2_and_leaves_the_old_documents(folder: Path) -> None:
    build(folder, "good.yaml", "-o", "out")
    run = python("-c", FULL_DISK + PROGRAM, "good.yaml", "-o", "out", cwd=folder)
    assert run.code == 2
    assert is_one_sentence(run.err)
    assert "No space left on device" in run.err
    assert names(folder / "out") == [".firstfix", "a.md", "drawings/b.svg"]
    assert sorted(path.name for path in folder.iterdir()) == [
        "broken.yaml",
        "good.allocations.yaml",
        "good.yaml",
        "out",
        "unreadable.yaml",
    ]
