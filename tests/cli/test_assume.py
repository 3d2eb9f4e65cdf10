"""`check --assume`: what a change would mean, in text and as data; nothing is written, and a slip is one sentence."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from cli.running import firstfix, is_one_sentence
from firstfix.resources import schemas

PLAN = """\
name: Two rooms
include: cameras.yaml
sites: {home: {rooms: {den: {mains: 9}, loft: {mains: 2}}}}
ways: {duct: {between: [den, loft], length: 30 m}}
devices:
  gateway: {part: gateway-desktop, room: den}
  core: {part: switch-8-poe, room: den, plugs-into: gateway}
"""
CAMERAS = "devices:\n  cam-1..3: {part: camera, room: loft, plugs-into: core}\n"
KEPT = "# kept by hand\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "plan.yaml").write_text(PLAN)
    (tmp_path / "cameras.yaml").write_text(CAMERAS)
    (tmp_path / "plan.allocations.yaml").write_text(KEPT)
    return tmp_path


def state(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {each.name: (each.read_bytes(), each.stat().st_mtime_ns) for each in sorted(folder.iterdir())}


def test_no_file_is_touched(folder: Path) -> None:
    before = state(folder)
    for extra in ([], ["--format", "json"], ["--why", "cam-2"]):
        firstfix("check", "plan.yaml", "--assume", "devices.cam-2.part=sensor-poe", *extra, cwd=folder)
    assert state(folder) == before


def test_one_more_camera(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--assume", "devices.cam-4={part: camera, room: loft, plugs-into: core}", cwd=folder)  # fmt: skip
    assert run.code == 0
    assert run.err == ""
    assert "device cam-4: camera in home/loft" in run.out
    assert "(camera): 3 → 4, 95.00 EUR more" in run.out
    assert "with that: no errors" in run.out


def test_a_longer_way_is_told_by_what_it_reaches(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--assume", "ways.duct.length+=70 m", cwd=folder)
    assert run.code == 1
    assert "error  channel-length" in run.out
    assert "way duct: length 30 m → 100 m" in run.out


def test_what_is_sold_out_is_an_error_with_what_would_do(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--assume", "sold-out switch-8-poe", cwd=folder)
    assert run.code == 1
    assert "--assume 1:1:10  error  part-sold-out" in run.out
    assert "'switch-8-poe' is sold out, and 1 of it would have to be bought, for 'core'" in run.out


def test_a_device_taken_away(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--assume", "no devices.cam-3", cwd=folder)
    assert run.code == 0
    assert "(camera): 3 → 2, 95.00 EUR less" in run.out


def test_choices_that_would_move_are_told(folder: Path) -> None:
    """The new camera is given a jack that a run without one had."""
    wish = "devices.cam-4={part: camera, room: loft, plugs-into: core/1}"
    run = firstfix("check", "plan.yaml", "--assume", wish, "--format", "json", cwd=folder)
    moved = json.loads(run.out)["choices_moved"]
    assert [each for each in moved if each["was"].find("core/1") >= 0]
    assert all(each["was"] != each["now"] for each in moved)


def test_the_same_as_data(folder: Path) -> None:
    given = ["--assume", "no devices.cam-3", "--assume", "sold-out camera", "--format", "json"]
    run = firstfix("check", "plan.yaml", *given, cwd=folder)
    data = json.loads(run.out)
    assert data["assumed"] == ["no devices.cam-3", "sold-out camera"]
    assert data["changes"]["removed"]
    assert [each["rule"] for each in data["report"]["findings"]] == ["part-sold-out"]
    (cameras,) = [each for each in data["list"] if each["part"] == "camera"]
    assert [cameras[side]["needed"] for side in ("before", "after")] == [3, 2]
    assert float(data["cost"]["before"]) > float(data["cost"]["after"])


def test_the_data_is_as_its_schema_says(folder: Path) -> None:
    names = ("assumption", "findings", "changes")
    found = {f"{name}.schema.json": json.loads((schemas() / f"{name}.schema.json").read_text("utf-8")) for name in names}  # fmt: skip
    known = Registry().with_resources([(name, Resource.from_contents(each)) for name, each in found.items()])
    judge = Draft202012Validator(found["assumption.schema.json"], registry=known)
    for given in ("no devices.cam-3", "ways.duct.length+=70 m", "sold-out camera", "ways.duct.length=30 m"):
        run = firstfix("check", "plan.yaml", "--assume", given, "--format", "json", cwd=folder)
        assert [each.message for each in judge.iter_errors(json.loads(run.out))] == []


def test_nothing_changes(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--assume", "ways.duct.length=30 m", cwd=folder)
    assert run.code == 0
    assert "nothing changes" in run.out


def test_it_is_the_same_as_writing_it(folder: Path) -> None:
    """The findings and the list are those of a plan into which the change is written."""
    (folder / "written.yaml").write_text(PLAN.replace("30 m", "95 m"))
    assumed = firstfix("check", "plan.yaml", "--assume", "ways.duct.length=95 m", "--format", "json", cwd=folder)  # fmt: skip
    written = firstfix("check", "written.yaml", "--format", "json", cwd=folder)
    found = [json.loads(assumed.out)["report"], json.loads(written.out)]
    kept = [[(each["rule"], each["message"]) for each in data["findings"]] for data in found]
    assert kept[0] == kept[1] != []


SLIPS = {
    "devices.core": "says no change",
    "ways.dcut.length=5 m": "in ways there is no 'dcut'; did you mean 'duct'?",
    "ways.duct.lenght=5 m": "has no key 'lenght'; did you mean 'length'?",
    "ways.duct.length=5": "'5' has no unit",
    "devices.core.part=switch-8-pe": "there is no part 'switch-8-pe'",
    "sold-out switch-8-pe": "there is no part 'switch-8-pe'; did you mean 'switch-8-poe'?",
    "no devices.cam-7": "in devices there is no 'cam-7'",
    "devices.cam-4={part: camera, room: lof}": "there is no room 'lof'",
}


@pytest.mark.parametrize("text", SLIPS)
def test_a_slip_is_one_sentence(folder: Path, text: str) -> None:
    run = firstfix("check", "plan.yaml", "--assume", text, cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert "--assume 1" in run.err
    assert SLIPS[text] in run.err


def test_sarif_and_too_many_are_refused(folder: Path) -> None:
    for given in (["--assume", "no ways.duct", "--format", "sarif"], ["--assume", "no ways.duct"] * 51):
        run = firstfix("check", "plan.yaml", *given, cwd=folder)
        assert (run.code, run.out) == (2, "")
        assert is_one_sentence(run.err)


def test_of_a_plan_that_cannot_be_read_its_faults_are_told(folder: Path) -> None:
    (folder / "plan.yaml").write_text("name: [unclosed\n")
    run = firstfix("check", "plan.yaml", "--assume", "no ways.duct", cwd=folder)
    assert run.code == 2
    assert "yaml-syntax" in run.out or "plan.yaml:1" in run.out
