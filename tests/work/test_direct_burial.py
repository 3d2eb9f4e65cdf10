"""Cable in a trench is laid, not drawn: no draw cord in its steps, as there is in a duct."""

import json
from pathlib import Path

import pytest

from firstfix.pipeline import compile_plan
from firstfix.work.model import Task
from firstfix.work.tasks import tasks


def steps(folder: Path, kind: str) -> dict[str, Task]:
    plan = {
        "sites": {"farm": {"rooms": {"house": {"mains": 4}, "shed": {"mains": 4}}}},
        "ways": {"orchard": {"between": ["house", "shed"], "length": "30 m", "kind": kind}},
        "devices": {
            "core": {"part": "switch-8", "room": "house"},
            "box": {"part": "switch-8", "room": "shed", "plugs-into": "core"},
        },
    }
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
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
