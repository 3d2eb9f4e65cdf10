"""What is hung is named for what it is: a frame has no doors to take off."""

from pathlib import Path

import pytest

from firstfix.work.tasks import tasks
from resolve.planning import build_of


@pytest.mark.parametrize(
    ("part", "title"),
    [
        ("wall-frame-6u", "Put up the frame main"),
        ("wall-cabinet-6u", "Put up the cabinet main, doors and side panels off"),
    ],
)
def test_what_is_put_up(tmp_path: Path, part: str, title: str) -> None:
    plan = {
        "sites": {"home": {"rooms": {"study": {"mains": 4}}}},
        "cabinets": {"main": {"room": "study", "part": part, "layout": {"1": "core"}}},
        "devices": {"core": {"part": "switch-16"}},
    }
    titles = {task.id: task.title for task in tasks(build_of(tmp_path, plan))}
    assert titles["hang:cabinet/main"] == title
