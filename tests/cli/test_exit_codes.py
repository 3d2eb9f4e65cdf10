"""0 no error finding, 1 an error finding, 2 misuse or unreadable input, 3 a fault of ours; never a traceback."""

from pathlib import Path

import pytest

from cli.running import BROKEN_PLAN, UNREADABLE_PLAN, firstfix, is_one_sentence, python


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a plan of each sort."""
    (tmp_path / "broken.yaml").write_text(BROKEN_PLAN)
    (tmp_path / "unreadable.yaml").write_text(UNREADABLE_PLAN)
    (tmp_path / "latin.yaml").write_bytes(b"name: caf\xe9\n")
    (tmp_path / "plans").mkdir()
    assert firstfix("new", "-o", "good.yaml", cwd=tmp_path).code == 0
    return tmp_path


def test_a_plan_without_errors_is_0(folder: Path) -> None:
    run = firstfix("check", "good.yaml", cwd=folder)
    assert (run.code, run.err) == (0, "")
    assert run.out.splitlines()[-1].startswith("no errors, ")


def test_an_error_finding_is_1_and_on_standard_output(folder: Path) -> None:
    run = firstfix("check", "broken.yaml", cwd=folder)
    assert (run.code, run.err) == (1, "")
    assert run.out.startswith("broken.yaml:2:1  error  key-unknown\n")


@pytest.mark.parametrize("name", ["unreadable.yaml", "latin.yaml"])
def test_text_that_is_no_tree_is_2_with_its_findings(folder: Path, name: str) -> None:
    run = firstfix("check", name, cwd=folder)
    assert (run.code, run.err) == (2, "")
    assert f"{name}:" in run.out


@pytest.mark.parametrize(
    "given",
    [
        ["check", "missing.yaml"],
        ["check", "plans"],
        ["check", "broken.yaml/x"],
        ["check"],
        ["check", "good.yaml", "surplus"],
        ["check", "good.yaml", "--format", "xml"],
        ["check", "good.yaml", "--form", "json"],
        ["check", "good.yaml", "--colour"],
        ["check", "/dev/null"],
        ["build", "good.yaml"],
        ["build", "good.yaml", "-o", "good.yaml"],
        ["build", "good.yaml", "-o", "no/such/parent/out"],
        ["build", "good.yaml", "-o", "x" * 300],
        ["diff", "good.yaml", "good.yaml", "-o", "x" * 300],
        ["draw", "good.yaml", "-o", "x" * 300 + ".svg"],
        ["draw", "good.yaml", "--sheet", "nowhere"],
        ["draw", "good.yaml", "--sheet=--"],
        ["check", "good.yaml", "--assume=--"],
        ["draw", "good.yaml", "-o", "good.yaml"],
        ["draw", "good.yaml", "-o", "no/such/x.svg"],
        ["draw", "missing.yaml"],
        ["explain", "key-unknwon"],
        ["parts", "no", "such", "thing"],
        ["new", "-o", "good.yaml"],
        ["new", "-o", "no/such/folder.yaml"],
        ["chek", "good.yaml"],
        ["--verson"],
        ["--version", "check"],
        ["\x1b[2J\n"],
        [b"\xff\xfe"],
        ["check", b"\xff\xfe.yaml"],
        ["help", "chek"],
    ],
)
def test_misuse_is_2_and_one_sentence(folder: Path, given: list[str | bytes]) -> None:
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    run = firstfix(*given, cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert run.err.rstrip("\n").isprintable()
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_a_slip_in_a_name_is_answered_with_the_nearest(folder: Path) -> None:
    assert "did you mean 'check'?" in firstfix("chek", "good.yaml", cwd=folder).err
    assert "did you mean 'key-unknown'?" in firstfix("explain", "key-unknwon", cwd=folder).err


FAULTY = """
import sys
import firstfix.pipeline
def broken(*given):
    raise ZeroDivisionError("a slip\\nof ours")
firstfix.pipeline.compile_plan = broken
from firstfix.cli.entry import main
sys.exit(main(["check", "good.yaml"]))
"""


def test_a_fault_of_ours_is_3_and_says_where_to_look(folder: Path) -> None:
    run = python("-c", FAULTY, cwd=folder)
    assert (run.code, run.out) == (3, "")
    assert is_one_sentence(run.err)
    assert "this is a fault in firstfix, not in your plan: ZeroDivisionError (a slip of ours)" in run.err
    assert "cli/reading.py, line" in run.err


def test_the_whole_trace_is_shown_to_who_asks_for_it(folder: Path) -> None:
    run = python("-c", FAULTY, cwd=folder, env={"FIRSTFIX_DEBUG": "1"})
    assert run.code == 3
    assert "Traceback (most recent call last)" in run.err
