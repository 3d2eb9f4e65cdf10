"""`build` and the choices it keeps beside the plan: when they are written, when they are left alone, and how they are made anew."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from cli.running import Run, firstfix, is_one_sentence, python

PLAN = """\
name: kept
sites: {home: {rooms: {study: {mains: 9}}}}
devices:
  core: {part: switch-8}
  gateway: {part: gateway-1u}
  desk-1: {part: computer-desktop, plugs-into: core}
  desk-2: {part: computer-desktop, plugs-into: core}
links:
  - {run: [gateway/1, core/8]}
"""
BROKEN = PLAN.replace("plugs-into: core}", "plugs-into: cor}", 1)
# The one document is the build itself: faster than all of them, and it shows every choice.
PROGRAM = """
import sys
import firstfix.pipeline
def results(compiled):
    from firstfix.documents.build_json import build_json
    return {"build.json": build_json(compiled.build).encode()}
firstfix.pipeline.results = results
from firstfix.cli.entry import main
sys.exit(main(["build", *sys.argv[1:]]))
"""
KEPT = "kept.allocations.yaml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "kept.yaml").write_text(PLAN)
    return tmp_path


def build(folder: Path, *given: str, before: str = "") -> Run:
    return python("-c", before + PROGRAM, "kept.yaml", "-o", "out", *given, cwd=folder)


def line_of(folder: Path, run: str) -> str:
    return next(line for line in (folder / KEPT).read_text().splitlines() if f"run: {run}," in line)


def pin(folder: Path, old: str, new: str) -> None:
    """As if an earlier build had chosen otherwise."""
    text = (folder / KEPT).read_text()
    assert old in text
    (folder / KEPT).write_text(text.replace(old, new))


def test_the_first_build_writes_them_and_the_second_has_nothing_to_write(folder: Path) -> None:
    first = build(folder)
    assert first.code == 0
    assert first.err.endswith(f"firstfix: what was chosen is kept in {KEPT}\n")
    before, document = (folder / KEPT).stat(), (folder / "out" / "build.json").read_bytes()
    second = build(folder)
    assert "kept" not in second.err
    assert (folder / KEPT).stat().st_mtime_ns == before.st_mtime_ns
    assert (folder / "out" / "build.json").read_bytes() == document


def test_they_stay_and_why_says_so(folder: Path) -> None:
    build(folder)
    pin(folder, "core/1, desk-1", "core/5, desk-1")
    assert "core/5" in line_of(folder, "core--desk-1")
    assert build(folder).code == 0
    assert "core/5" in line_of(folder, "core--desk-1")
    assert "kept" in firstfix("check", "kept.yaml", "--why", "core--desk-1", cwd=folder).out


def test_check_and_draw_write_nothing(folder: Path) -> None:
    firstfix("check", "kept.yaml", cwd=folder)
    firstfix("draw", "kept.yaml", cwd=folder)
    assert sorted(path.name for path in folder.iterdir()) == ["kept.yaml"]


@pytest.mark.parametrize("options", [[], ["--draft"]])
def test_a_plan_with_errors_changes_no_choice(folder: Path, options: list[str]) -> None:
    build(folder)
    before = (folder / KEPT).read_text()
    (folder / "kept.yaml").write_text(BROKEN)
    assert build(folder, *options).code == 1
    assert (folder / KEPT).read_text() == before


def test_what_is_dropped_is_said_by_the_build_that_drops_it(folder: Path) -> None:
    build(folder)
    (folder / "kept.yaml").write_text(
        "\n".join(line for line in PLAN.splitlines() if "desk-2" not in line) + "\n"
    )
    checked = firstfix("check", "kept.yaml", cwd=folder)
    assert "kept for nothing that the plan leaves open: mains feed of desk-2, run core--desk-2" in checked.out
    run = build(folder)
    assert run.code == 0
    assert "run core--desk-2" in run.out
    assert "desk-2" not in (folder / KEPT).read_text()
    assert "kept-idle" not in firstfix("check", "kept.yaml", cwd=folder).out


def test_a_device_is_chosen_anew_and_nothing_else(folder: Path) -> None:
    build(folder)
    pin(folder, "core/1, desk-1", "core/5, desk-1")
    pin(folder, "core/2, desk-2", "core/6, desk-2")
    assert build(folder, "--choose-anew", "desk-1").code == 0
    assert "core/1" in line_of(folder, "core--desk-1")
    assert "core/6" in line_of(folder, "core--desk-2")
    assert build(folder, "--choose-anew", "core--desk-2").code == 0
    assert "core/2" in line_of(folder, "core--desk-2")


def test_all_is_chosen_anew_even_where_the_file_cannot_be_read(folder: Path) -> None:
    build(folder)
    before = (folder / KEPT).read_text()
    (folder / KEPT).write_text("- [")
    assert build(folder).code == 1
    assert (folder / KEPT).read_text() == "- ["
    assert build(folder, "--choose-all-anew").code == 0
    assert (folder / KEPT).read_text() == before


def test_a_name_about_which_nothing_is_kept_is_2_and_touches_nothing(folder: Path) -> None:
    build(folder)
    before = (folder / KEPT).read_text()
    run = build(folder, "--choose-anew", "desk-3")
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert "did you mean 'desk-" in run.err
    assert (folder / KEPT).read_text() == before


def test_the_cure_of_a_kept_choice_in_the_way_works(folder: Path) -> None:
    """Five jacks, of which two are kept where the last run must go."""
    plan = PLAN.replace("switch-8", "switch-5").replace("core/8", "core/1")
    plan = plan.replace(
        "desk-2: {part: computer-desktop, plugs-into: core}",
        "desk-2: {part: computer-desktop, plugs-into: core/2-3}",
    )
    (folder / "kept.yaml").write_text(plan)
    build(folder)
    (folder / KEPT).write_text(
        "- {run: core--desk-1, jacks: [core/2, desk-1/1]}\n- {run: core--desk-3, jacks: [core/3, desk-3/1]}\n"
    )
    more = plan.replace("links:", "  desk-3: {part: computer-desktop, plugs-into: core}\nlinks:")
    (folder / "kept.yaml").write_text(more)
    stuck = build(folder)
    assert stuck.code == 1
    assert "firstfix build PLAN -o DIR --choose-anew core" in " ".join(stuck.out.split())
    assert build(folder, "--choose-anew", "core").code == 0
    assert build(folder).code == 0


def test_a_symbolic_link_is_not_replaced(folder: Path) -> None:
    (folder / "elsewhere.yaml").write_text("")
    (folder / KEPT).symlink_to("elsewhere.yaml")
    run = build(folder)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert not (folder / "out").exists()


FULL_DISK = """
import pathlib
def write_bytes(self, content):
    raise OSError(28, "No space left on device")
pathlib.Path.write_bytes = write_bytes
"""
NO_REPLACING = """
import pathlib
def replace(self, target):
    raise OSError(30, "Read-only file system")
pathlib.Path.replace = replace
"""


def test_without_its_documents_a_build_keeps_nothing(folder: Path) -> None:
    run = build(folder, before=FULL_DISK)
    assert run.code == 2
    assert sorted(path.name for path in folder.iterdir()) == ["kept.yaml"]


def test_choices_that_cannot_be_written_are_2_and_the_old_ones_stay(folder: Path) -> None:
    build(folder)
    pin(folder, "core/1, desk-1", "core/99, desk-1")
    before = (folder / KEPT).read_text()
    run = build(folder, before=NO_REPLACING)
    assert run.code == 2
    assert f"{KEPT} cannot be written: Read-only file system" in run.err
    assert (folder / KEPT).read_text() == before
    assert sorted(path.name for path in folder.iterdir()) == [KEPT, "kept.yaml", "out"]


def test_a_revision_is_compiled_with_its_own_choices(folder: Path) -> None:
    if shutil.which("git") is None:
        pytest.skip("there is no git")
    build(folder)
    who = {f"GIT_{who}_{what}": "n" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    for given in (["init", "-q"], ["add", "kept.yaml", KEPT], ["commit", "-q", "-m", "first"]):
        subprocess.run(["git", *given], cwd=folder, env={**os.environ, **who}, check=True)
    assert firstfix("diff", "HEAD:kept.yaml", "kept.yaml", cwd=folder).code == 0
    pin(folder, "core/1, desk-1", "core/5, desk-1")
    moved = firstfix("diff", "HEAD:kept.yaml", "kept.yaml", cwd=folder)
    assert moved.code == 1
    assert "core/1" in moved.out
    assert "core/5" in moved.out
