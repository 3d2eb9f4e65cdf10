"""Steps and settings sheets say what the labels say, and don't say a name twice."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.documents.stubs.files import stub_files
from firstfix.work.model import Task
from firstfix.work.tasks import tasks
from resolve.planning import build_of

PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"study": {}, "attic": {}}}},
    "ways": {"riser": {"between": ["study", "attic"], "length": "6 m"}},
    "cabinets": {
        "main": {"part": "wall-cabinet-12u", "room": "study", "layout": {"9": "panel", "8": "core"}}
    },
    "devices": {
        "panel": {"part": "keystone-panel-24-1u"},
        "core": {"part": "switch-16-poe"},
        "cam": {"part": "camera", "room": "attic"},
    },
    "links": [{"run": ["cam", "panel/3", "core/4"]}],
}


def _said(build: Build, id_: str) -> list[str]:
    (task,) = (each for each in _tasks(build) if each.id == id_)
    return [check.expected for check in task.checks if check.what.startswith("label")]


def _tasks(build: Build) -> tuple[Task, ...]:
    return tasks(build)


def test_names_say_it_all(tmp_path: Path) -> None:
    build = build_of(tmp_path, PLAN)
    (pulled,) = (task.id for task in tasks(build) if task.id.startswith("pull:"))
    assert _said(build, pulled) == ["at cam/1 “CAM/1 TO PANEL/3”, at panel/3 “PANEL/3 TO CAM/1”"]
    assert _said(build, "fit:device/core") == []


def test_by_the_standard_each_step_says_its_label(tmp_path: Path) -> None:
    build = build_of(tmp_path, {**PLAN, "labels": {"scheme": "tia-606"}})
    assert _said(build, "fit:device/core") == ["the plate says “0B.A01-08”"]
    said = [each for task in _tasks(build) if task.id.startswith("patch:") for each in _said(build, task.id)]
    assert said == ["at panel/3 “0B.A01-09:03/0B.A01-08:04”, at core/4 “0B.A01-08:04/0B.A01-09:03”"]


@pytest.mark.parametrize(("scheme", "is_said"), [("simple", False), ("tia-606", True)])
def test_settings_sheets_say_labels_that_are_no_names(scheme: str, is_said: bool, tmp_path: Path) -> None:
    build = build_of(tmp_path, {**PLAN, "labels": {"scheme": scheme}})
    text = dict(stub_files(build))["stubs/core/settings.md"].decode()
    assert ("0B.A01-08:04/0B.A01-09:03" in text) is is_said
    assert ("Label" in text) is is_said
