"""What is hung is named for what it is: a frame has no doors to take off."""

from dataclasses import replace
from pathlib import Path

import pytest

from firstfix.parts.facts import AUTHOR, NOT_SAID, Figure, exactly
from firstfix.parts.library_files import library
from firstfix.work.cautions import LIFT
from firstfix.work.handling import hung_by_two
from firstfix.work.model import Task
from firstfix.work.tasks import tasks
from resolve.planning import build_of


def _hung(folder: Path, part: str) -> Task:
    return _step(folder, part, "hang:cabinet/main")


def _step(folder: Path, part: str, id_: str) -> Task:
    plan = {
        "sites": {"home": {"rooms": {"study": {"mains": 4}}}},
        "cabinets": {"main": {"room": "study", "part": part, "layout": {"1": "core"}}},
        "devices": {"core": {"part": "switch-16"}},
    }
    return next(task for task in tasks(build_of(folder, plan)) if task.id == id_)


@pytest.mark.parametrize(
    ("part", "people"),
    [
        ("wall-frame-6u", 1),  # 4.5 kg
        ("half-width-cabinet-8u", 1),  # 6 kg
        ("wall-cabinet-6u", 2),  # 13 kg, held up to a wall
        ("floor-cabinet-24u", 2),  # 62 kg
    ],
)
def test_two_people_for_what_is_heavy_and_one_for_what_is_not(tmp_path: Path, part: str, people: int) -> None:
    """HSE INDG143, lifting filter for women: 7 kg at the height of the shoulders with arms out, 16 kg close in (from memory)."""
    task = _hung(tmp_path, part)
    assert (LIFT in task.cautions) is (people == 2)
    assert ("a second person" in task.tools) is (people == 2)


@pytest.mark.parametrize(
    ("weight", "people"), [(exactly(7.0, AUTHOR), 2), (exactly(6.9, AUTHOR), 1), (NOT_SAID, 2)]
)
def test_where_the_limit_is(weight: Figure, people: int) -> None:
    part = replace(library()["wall-frame-6u"], weight=weight)
    assert hung_by_two(part) is (people == 2)


@pytest.mark.parametrize(
    ("part", "title"),
    [
        ("wall-frame-6u", "Put up the frame main"),
        ("wall-cabinet-6u", "Put up the cabinet main, doors and side panels off"),
    ],
)
def test_what_is_put_up(tmp_path: Path, part: str, title: str) -> None:
    assert _hung(tmp_path, part).title == title


@pytest.mark.parametrize(
    ("part", "title", "bears"),
    [
        ("wall-frame-6u", "Mark, drill and set the fixings of the cabinet main", "fixings"),
        ("floor-cabinet-24u", "Level the place of the cabinet main on the floor", "floor"),
    ],
)
def test_what_bears_it(tmp_path: Path, part: str, title: str, bears: str) -> None:
    task = _step(tmp_path, part, "anchor:cabinet/main")
    assert task.title.startswith(title)
    assert [check.what for check in task.checks] == [bears]
