"""One drawing into a file or to standard output."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from cli.running import BROKEN_PLAN, firstfix

PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"  # ISO/IEC 15948, 5.2


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "broken.yaml").write_text(BROKEN_PLAN)
    firstfix("new", "-o", "good.yaml", cwd=tmp_path)
    return tmp_path


@pytest.mark.parametrize("sheet", ["network", "main"])
def test_an_svg_on_standard_output(folder: Path, sheet: str) -> None:
    run = firstfix("draw", "good.yaml", "--sheet", sheet, cwd=folder)
    assert (run.code, run.err) == (0, "")
    assert ElementTree.fromstring(run.out).tag == "{http://www.w3.org/2000/svg}svg"  # noqa: S314 - our own output


def test_a_png_by_the_files_ending_replaces_the_old_one(folder: Path) -> None:
    (folder / "n.png").write_bytes(b"old")
    run = firstfix("draw", "good.yaml", "-o", "n.png", cwd=folder)
    assert (run.code, run.err) == (0, "firstfix: n.png is written\n")
    assert (folder / "n.png").read_bytes().startswith(PNG_SIGNATURE)
    assert sorted(path.name for path in folder.iterdir()) == ["broken.yaml", "good.yaml", "n.png"]


def test_a_link_is_not_written_through(folder: Path) -> None:
    (folder / "n.svg").symlink_to("good.yaml")
    before = (folder / "good.yaml").read_bytes()
    assert firstfix("draw", "good.yaml", "-o", "n.svg", cwd=folder).code == 2
    assert (folder / "good.yaml").read_bytes() == before


def test_format_and_ending_must_agree(folder: Path) -> None:
    run = firstfix("draw", "good.yaml", "-o", "n.svg", "--format", "png", cwd=folder)
    assert run.code == 2
    assert "ends in .png" in run.err


def test_a_plan_with_errors_is_drawn_and_said_to_have_them(folder: Path) -> None:
    run = firstfix("draw", "broken.yaml", "-o", "n.svg", cwd=folder)
    assert run.code == 1
    assert "broken.yaml has errors" in run.err or "the plan has errors" in run.err
    assert (folder / "n.svg").is_file()
