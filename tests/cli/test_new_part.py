"""`firstfix parts --new`: a form to fill in, an entry out of a data sheet, and nothing overwritten."""

from pathlib import Path

import pytest

from cli.running import firstfix

PLAN = """\
name: shed
sites: {home: {rooms: {shed: {mains: 3}}}}
devices:
  core: {part: switch-8-poe, room: shed}
  cam: {part: yard-cam, room: shed, plugs-into: core}
"""


def test_a_form_in_a_plan_is_readable_and_its_unknowns_are_cannot_tells(tmp_path: Path) -> None:
    made = firstfix("parts", "--new", "camera", "yard-cam", cwd=tmp_path)
    assert (made.code, made.err) == (0, "")
    (tmp_path / "plan.yaml").write_text(PLAN + made.out, "utf-8")
    run = firstfix("check", "plan.yaml", cwd=tmp_path)
    assert run.code == 0, run.out
    assert "cannot tell" in run.out


def test_a_filled_in_part_leaves_nothing_open_in_poe(tmp_path: Path) -> None:
    pairs = ("draw=9 W", "poe-class=3", "ports=1", "rate=100 Mb/s")
    made = firstfix("parts", "--new", "camera", "yard-cam", *pairs, cwd=tmp_path)
    (tmp_path / "plan.yaml").write_text(PLAN + made.out, "utf-8")
    run = firstfix("check", "plan.yaml", cwd=tmp_path)
    assert run.code == 0, run.out
    assert "poe-class" not in run.out
    assert "poe-budget" not in run.out


def test_an_existing_file_is_left_alone(tmp_path: Path) -> None:
    first = firstfix("parts", "--new", "camera", "yard-cam", "-o", "cam.yaml", cwd=tmp_path)
    assert (first.code, first.out) == (0, "")
    kept = (tmp_path / "cam.yaml").read_bytes()
    again = firstfix("parts", "--new", "camera", "yard-cam", "draw=9 W", "-o", "cam.yaml", cwd=tmp_path)
    assert again.code == 2
    assert "exists already" in again.err
    assert (tmp_path / "cam.yaml").read_bytes() == kept


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("--new", "camera"), "a kind and a name"),
        (("--new", "camra", "x"), "did you mean 'camera'?"),
        (("--new", "camera", "Yard Cam"), "is no name"),
        (("--new", "camera", "camera"), "already"),
        (("--new", "camera", "x", "--like", "switch-8"), "of the kind switch"),
        (("--new", "camera", "x", "--like", "camera-outdor"), "did you mean 'camera-outdoor'?"),
        (("--new", "camera", "x", "draw=9"), "write '9 W'"),
        (("--like", "camera"), "go with --new"),
        (("-o", "x.yaml"), "go with --new"),
    ],
)
def test_a_slip_ends_with_one_sentence(given: tuple[str, ...], says: str, tmp_path: Path) -> None:
    run = firstfix("parts", *given, cwd=tmp_path)
    assert (run.code, run.out) == (2, "")
    assert says in run.err
    assert len(run.err.splitlines()) == 1
    assert list(tmp_path.iterdir()) == []
