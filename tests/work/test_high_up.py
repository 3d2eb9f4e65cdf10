"""Work at what sits on a ceiling or high on a wall is work on a ladder, at each step there."""

from pathlib import Path

import pytest

from firstfix.pipeline import compile_plan
from firstfix.work import cautions
from firstfix.work.tasks import tasks

HONEY_FARM = Path(__file__).parents[2] / "plans" / "honey-farm.yaml"


@pytest.mark.parametrize("step", ["terminate", "connect", "fit"])
def test_each_step_at_the_access_point_says_so(step: str) -> None:
    build = compile_plan(HONEY_FARM, "plan.yaml").build
    assert build is not None
    at_point = [task for task in tasks(build) if task.id.startswith(f"{step}:") and "ap-house" in task.id]
    assert at_point
    assert all(cautions.LADDER in task.cautions for task in at_point)
