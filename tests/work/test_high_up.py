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


@pytest.mark.parametrize("plan", ["honey-farm", "rowing-club"])
def test_whoever_is_warned_of_a_ladder_or_a_drill_is_told_to_bring_it(plan: str) -> None:
    path = Path(__file__).parents[2] / "plans" / f"{plan}.yaml"
    build = compile_plan(path, path.name).build
    assert build is not None
    made = tasks(build)
    assert any(cautions.LADDER in task.cautions for task in made)
    for task in made:
        assert (cautions.LADDER in task.cautions) == ("ladder" in task.tools), task.id
        if cautions.DRILL in task.cautions:
            assert {"drill and bits", "saw or hole cutter"} & set(task.tools), task.id
