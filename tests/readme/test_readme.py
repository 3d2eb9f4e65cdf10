"""What README.md shows is what the tool does: its plan, its output, its pictures."""

import re
import subprocess
import sys
from pathlib import Path

from pages.generated import PAGES

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def _block(marker: str) -> str:
    match = re.search(rf"<!-- {re.escape(marker)} -->\n```\w+\n(.*?)```", README, re.DOTALL)
    assert match is not None, f"README.md has no block marked '{marker}'"
    return match.group(1)


def _run(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "firstfix", *arguments],
        cwd=folder,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )


def test_the_first_plan_says_what_the_page_shows(tmp_path: Path) -> None:
    (tmp_path / "shed.yaml").write_text(_block("plan: shed.yaml"), "utf-8")
    done = _run(tmp_path, "check", "shed.yaml")
    assert done.stdout == _block("output: firstfix check shed.yaml")
    assert done.returncode == 1


def test_the_sum_to_redo_by_hand_is_the_tools_own() -> None:
    done = _run(ROOT, "check", "plans/bad/power-over-ethernet.yaml", "--why", "poe-budget")
    assert done.stdout == _block("output: firstfix check plans/bad/power-over-ethernet.yaml --why poe-budget")


def test_the_cure_on_the_page_cures_it(tmp_path: Path) -> None:
    plan = _block("plan: shed.yaml")
    devices = re.findall(r"^ {7}(surge-[a-z]+: .*)$", README, re.MULTILINE)
    assert len(devices) == 2
    cured = plan.replace(
        "owned: true, plugs-into: core}", "owned: true, plugs-into: [surge-shed, surge-study, core]}"
    )
    cured = cured.replace("links:\n", "".join(f"  {line}\n" for line in devices) + "links:\n")
    (tmp_path / "shed.yaml").write_text(cured, "utf-8")
    assert _run(tmp_path, "check", "shed.yaml").returncode == 0
    done = _run(tmp_path, "build", "shed.yaml", "-o", "out")
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "out" / "report.html").exists()


def test_the_pictures_are_the_tools_own() -> None:
    """`tests/pages` compares each of these files with what the program draws."""
    shown = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert shown
    assert set(shown) <= set(PAGES)


def test_every_command_on_the_page_exists() -> None:
    for command in set(re.findall(r"`firstfix ([a-z]+)", README)):
        assert _run(ROOT, command, "--help").returncode == 0, command
