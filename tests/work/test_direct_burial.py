"""Cable in a trench is laid, not drawn: no draw cord in its steps, as there is in a duct."""

import json
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.pipeline import compile_plan
from firstfix.work.model import Task
from firstfix.work.tasks import tasks
from schedule.planned import schedule_of, step


def build_of_way(folder: Path, kind: str, material: str = "") -> Build:
    plan: dict[str, Any] = {
        "sites": {"farm": {"rooms": {"house": {"mains": 4}, "shed": {"mains": 4}}}},
        "ways": {"orchard": {"between": ["house", "shed"], "length": "30 m", "kind": kind}},
        "devices": {
            "core": {"part": "switch-8", "room": "house"},
            "box": {"part": "switch-8", "room": "shed", "plugs-into": "core"},
        },
    }
    if material:
        plan["ways"]["orchard"]["material"] = material
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    return build


def steps(folder: Path, kind: str, material: str = "") -> dict[str, Task]:
    build = build_of_way(folder, kind, material)
    return {task.id.partition(":")[0]: task for task in tasks(build)}


def says_draw_cord(task: Task) -> bool:
    return "draw cord" in " ".join((task.title, *task.tools, *(check.expected for check in task.checks)))


@pytest.mark.parametrize(("kind", "drawn"), [("direct-burial", False), ("buried-duct", True)])
def test_a_draw_cord_only_where_something_is_drawn(tmp_path: Path, kind: str, drawn: bool) -> None:
    found = steps(tmp_path, kind)
    assert says_draw_cord(found["prepare"]) is drawn
    assert says_draw_cord(found["pull"]) is drawn
    assert found["pull"].title.startswith("Pull" if drawn else "Lay")
    assert ("trench" in found["prepare"].title) is not drawn


@pytest.mark.parametrize(
    ("kind", "material", "dug"),
    [("direct-burial", "", True), ("buried-duct", "duct-50", True), ("buried-duct", "", False)],
)
def test_a_spade_and_time_for_it_only_where_something_is_dug(
    tmp_path: Path, kind: str, material: str, dug: bool
) -> None:
    """40 min for each metre of 30 m and 30 min more, or half a minute for each where a duct lies there: the table of durations."""
    found = steps(tmp_path, kind, material)
    assert ("spade" in found["prepare"].tools) is dug
    assert "ladder" not in found["prepare"].tools
    planned = schedule_of(build_of_way(tmp_path, kind, material))
    assert step(planned, "prepare:way/orchard").minutes == (1230 if dug else 45)
    assert ("trench filled in" in found["close"].title) is (kind == "direct-burial")
