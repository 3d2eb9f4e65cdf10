"""`check --as-of PHASE`: what the rules say of the network as it stands then."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from cli.running import firstfix, is_one_sentence

PLAN = """\
name: Later power
phases: {spring: {}, autumn: {}}
sites: {plot: {rooms: {hut: {mains: 6}, shed: {mains: 3}}}}
ways: {lane: {between: [hut, shed], length: 14 m}}
devices:
  router: {part: gateway-desktop, room: hut}
  core: {part: switch-8, room: hut, plugs-into: router}
  panel: {part: keystone-panel-24-1u, room: hut}
  socket: {part: wall-outlet-2, room: shed}
  injector: {part: injector-class-4, room: hut, phase: autumn}
  eye: {part: camera, phase: spring, room: shed, plugs-into: [injector, core]}
  desk: {part: computer-desktop, room: shed, phase: autumn, plugs-into: socket/1}
links:
  - {run: [socket/1, panel/1]}
  - {run: [panel/1, core], phase: autumn}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "plan.yaml").write_text(PLAN)
    return tmp_path


def report(folder: Path, *given: str) -> Any:
    return json.loads(firstfix("check", "plan.yaml", "--format", "json", *given, cwd=folder).out)


def test_a_phase_that_does_not_stand_by_itself_has_the_errors_of_what_is_missing(folder: Path) -> None:
    whole, then = report(folder), report(folder, "--as-of", "spring")
    assert [(each["rule"], each["subject"]) for each in whole["findings"]] == [
        ("phase-order", "device:injector")
    ]
    assert {(each["rule"], each["subject"]) for each in then["findings"]} == {
        ("device-cut-off", "device:eye"),
        ("unpowered", "device:eye"),
    }


def test_a_jack_left_for_a_later_phase_is_no_error(folder: Path) -> None:
    """The run to the panel lies in spring; what is patched there comes in autumn."""
    then = report(folder, "--as-of", "spring")
    assert not [each for each in then["findings"] if each["subject"].startswith(("jack:", "device:panel", "device:socket"))]  # fmt: skip


def test_the_last_phase_is_the_plan(folder: Path) -> None:
    assert report(folder, "--as-of", "autumn") == report(folder)


def test_with_an_assumption_both_sides_are_as_of_then(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--as-of", "spring", "--assume", "devices.injector.phase=spring", cwd=folder)  # fmt: skip
    assert run.code == 0
    assert "no longer said: error unpowered" in run.out
    assert "device injector" in run.out


def test_why_asks_the_network_of_then(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--as-of", "spring", "--why", "desk", cwd=folder)
    assert run.code == 2
    assert is_one_sentence(run.err)


def test_an_unknown_phase_is_one_sentence(folder: Path) -> None:
    run = firstfix("check", "plan.yaml", "--as-of", "sprng", cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert "it has 'spring', 'autumn'; did you mean 'spring'?" in run.err
    plan = PLAN.replace("phases: {spring: {}, autumn: {}}\n", "")
    (folder / "plan.yaml").write_text(re.sub("phase: (spring|autumn)", "note: now", plan))
    assert "it has none" in firstfix("check", "plan.yaml", "--as-of", "spring", cwd=folder).err
