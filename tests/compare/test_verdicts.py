"""Findings from one plan to the next: what appears, what vanishes, and by how much a margin changes, also over a rename."""

import json
from pathlib import Path
from typing import Any

import pytest

from compare.comparing import compared
from firstfix.compare.verdicts import VerdictChange
from repo.editing import HONEY_FARM, read
from resolve.planning import compiled


def _farm(camera_watts: float, **devices: Any) -> Any:
    """The barn switch has 38 W to give; its four devices take 30.6 W of it."""
    plan = read(HONEY_FARM)
    plan["parts"]["yard-camera"]["draw"] = f"{camera_watts} W"
    plan["devices"] |= devices
    return plan


def _budget(tmp_path: Path, old: Any, new: Any) -> list[VerdictChange]:
    found = compared(compiled(tmp_path, old), compiled(tmp_path, new)).verdicts
    return [each for each in found if each.verdict.rule == "poe-budget"]


def test_a_finding_appears_and_vanishes(tmp_path: Path) -> None:
    (came,) = _budget(tmp_path, _farm(8), _farm(12))
    assert came.how == "appears"
    assert came.old is None
    assert came.verdict.level == "error"
    (went,) = _budget(tmp_path, _farm(12), _farm(8))
    assert went == VerdictChange("vanishes", came.new, None)


def test_a_margin_changes(tmp_path: Path) -> None:
    (found,) = _budget(tmp_path, _farm(12), _farm(12.5))
    assert found.how == "changes"
    assert found.old is not None
    assert found.new is not None
    assert found.old.measurement is not None
    assert found.new.measurement is not None
    assert found.old.measurement.margin > found.new.measurement.margin


def test_the_same_finding_of_a_renamed_thing_is_the_same(tmp_path: Path) -> None:
    old, new = _farm(12), _farm(12)
    text = json.dumps(new).replace('"barn-switch"', '"yard-hub"')
    renamed = json.loads(text.replace("barn-switch--core/2", "core--yard-hub/2"))
    renamed["devices"]["yard-hub"]["was"] = "barn-switch"
    found = compared(compiled(tmp_path, old), compiled(tmp_path, renamed))
    assert found.changes.renamed
    assert [each for each in found.verdicts if each.verdict.rule == "poe-budget"] == []


@pytest.mark.parametrize("is_accepted", [True, False])
def test_an_exception_changes_the_level(tmp_path: Path, is_accepted: bool) -> None:
    bare, accepted = _farm(12), _farm(12)
    accepted["exceptions"].append({"rule": "poe-budget", "subject": "barn-switch", "reason": "tried"})
    pair = (bare, accepted) if is_accepted else (accepted, bare)
    (found,) = _budget(tmp_path, *pair)
    levels = [each.level for each in (found.old, found.new) if each is not None]
    assert found.how == "changes"
    assert levels == (["error", "accepted"] if is_accepted else ["accepted", "error"])


def test_what_can_no_longer_be_told_is_said(tmp_path: Path) -> None:
    new = _farm(8)
    new["parts"]["yard-camera"]["draw"] = "unknown"
    new["parts"]["yard-camera"]["takes-poe"] = {"class": "unknown"}
    found = compared(compiled(tmp_path, _farm(8)), compiled(tmp_path, new)).verdicts
    assert any(each.how == "appears" and each.verdict.level == "cannot tell" for each in found)
