"""`everything`, `phase:NAME` and `pull:` record many steps at once, and say how many; escaped names are known."""

from pathlib import Path

from cli.running import Run, firstfix, is_one_sentence
from progress.sample import PLAN, compiled, standing, write

PHASED = PLAN.replace("  ap-attic: {", "  ap-attic: {phase: later, ") + "phases: {first: {}, later: {}}\n"


def progress(folder: Path, *given: str) -> Run:
    return firstfix("progress", "shed.yaml", *given, cwd=folder)


def kept(folder: Path) -> str:
    return (folder / "shed.progress.yaml").read_text("utf-8")


def test_a_phase_and_then_everything(tmp_path: Path) -> None:
    write(tmp_path, plan=PHASED)
    steps = standing(compiled(tmp_path, plan=PHASED)).steps
    later = [step.id for step in steps if step.phase == "later"]
    first = progress(tmp_path, "--done", "phase:first", "--on", "2027-03-14")
    assert is_one_sentence(first.err)
    assert f"for 'phase:first' {len(steps) - len(later)} steps" in first.err
    rest = progress(tmp_path, "--done", "everything", "--arrived", "everything", "--on", "2027-05-01")
    assert f"for 'everything' {len(later)} steps" in rest.err
    # What was recorded before keeps its day.
    assert kept(tmp_path).count("on: 2027-03-14") == len(steps) - len(later)
    left = standing(compiled(tmp_path, kept(tmp_path), PHASED))
    assert not left.steps
    assert all(line.is_here for line in left.lines)
    again = progress(tmp_path, "--done", "everything")
    assert again.code != 0
    assert "recorded as done already" in again.err


def test_a_kind_of_step(tmp_path: Path) -> None:
    write(tmp_path)
    assert "for 'unbox:' 3 steps" in progress(tmp_path, "--done", "unbox:").err
    assert kept(tmp_path).count("unbox:device/") == 3
    for wrong, said in (("unbx:", "did you mean 'unbox:'?"), ("phase:first", "the plan has no phases")):
        refused = progress(tmp_path, "--done", wrong)
        assert refused.code != 0
        assert is_one_sentence(refused.err)
        assert said in refused.err


def test_a_name_as_a_file_of_markdown_has_it(tmp_path: Path) -> None:
    write(tmp_path)
    assert progress(tmp_path, "--done", r"terminate:jack/panel/1\@rear").code == 0
    assert "terminate:jack/panel/1@rear:" in kept(tmp_path)
