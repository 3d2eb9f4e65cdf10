"""A step can be done now only if what it takes is here; told where arrivals are recorded at all."""

from pathlib import Path

from progress.sample import compiled, standing

_BEFORE = "done: {unpack:plan/all: true}\n"
_UNBOX = "unbox:device/ap-attic"


def _free(folder: Path, progress: str) -> set[str]:
    return {step.id for step in standing(compiled(folder, progress)).steps if step.is_free}


def test_a_step_waits_for_its_parts(tmp_path: Path) -> None:
    assert _UNBOX in _free(tmp_path, _BEFORE)
    assert _UNBOX not in _free(tmp_path, _BEFORE + "bought: {access-point: {ordered: 1}}\n")
    assert _UNBOX in _free(tmp_path, _BEFORE + "bought: {access-point: {arrived: 1}}\n")
    steps = standing(compiled(tmp_path, _BEFORE + "bought: {access-point: {ordered: 1}}\n")).steps
    assert next(step for step in steps if step.id == _UNBOX).waits_for_parts == ("access-point",)


def test_cable_that_is_not_here_is_not_pulled(tmp_path: Path) -> None:
    steps = standing(compiled(tmp_path, "bought: {access-point: {arrived: 1}}\n")).steps
    pull = next(step for step in steps if step.id.startswith("pull:"))
    assert "cat6-indoor" in pull.waits_for_parts
    steps = standing(compiled(tmp_path, "bought: {cat6-indoor: {arrived: 50 m}}\n")).steps
    pull = next(step for step in steps if step.id.startswith("pull:"))
    assert "cat6-indoor" not in pull.waits_for_parts
