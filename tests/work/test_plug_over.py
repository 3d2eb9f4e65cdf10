"""What stands there already and is now fed by something new gets a step for its plug; what changes nothing gets none."""

from pathlib import Path
from typing import Any

from firstfix.work.cautions import HOT_NETWORK
from firstfix.work.model import Task
from firstfix.work.tasks import tasks
from resolve.planning import build_of


def _steps(folder: Path, **ups: Any) -> dict[str, Task]:
    devices = {
        "line-box": {"part": "line-box", "owned": True, "power": "ups"},
        "ups": {"part": "ups-desktop", "power": "wall", **ups},
    }
    plan = {"sites": {"home": {"rooms": {"study": {"mains": 4}}}}, "devices": devices, "links": []}
    return {task.id: task for task in tasks(build_of(folder, plan))}


def test_the_plug_of_what_is_owned_goes_over_to_a_new_source(tmp_path: Path) -> None:
    steps = _steps(tmp_path)
    step = steps["power:device/line-box"]
    assert step.title == "Take the plug of line-box, which stands there already, over to ups, outlet 1"
    assert [each.before for each in step.after] == ["power:device/ups"]
    assert HOT_NETWORK in step.cautions, "it is off while its plug is out"


def test_nothing_is_to_do_where_both_stand_there_already(tmp_path: Path) -> None:
    assert "power:device/line-box" not in _steps(tmp_path, owned=True)
