"""The folder of each phase: what is in it, and that it speaks of this phase alone."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from firstfix.pipeline import compile_plan, results

PLAN = """\
name: Two summers
sites: {home: {rooms: {den: {mains: 9}, loft: {mains: 2}}}}
ways: {duct: {between: [den, loft], length: 30 m}}
devices:
  gateway: {part: gateway-desktop, room: den}
  core: {part: switch-8-poe, room: den, plugs-into: gateway}
  near: {part: camera, room: loft, plugs-into: core}
  far:  {part: camera, room: loft, plugs-into: core, phase: second}
phases: {first: {}, second: {}}
"""


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    path = tmp_path_factory.mktemp("phases") / "plan.yaml"
    path.write_text(PLAN)
    return results(compile_plan(path, "plan.yaml"))


def test_the_last_phase_has_no_drawings_of_its_own(files: Mapping[str, bytes]) -> None:
    found = [name for name in files if name.startswith("phases/")]
    papers = [
        "install-checklist.md",
        "labels/labels.csv",
        "labels/labels.pdf",
        "shopping-list.csv",
        "shopping-list.md",
    ]
    assert [name for name in found if "second" in name] == [f"phases/second/{each}" for each in papers]
    first = [name.removeprefix("phases/first/") for name in found if "first" in name]
    assert set(first) == {"findings.txt", "drawings/network.svg", *papers}


def test_each_list_and_checklist_is_of_its_phase(files: Mapping[str, bytes]) -> None:
    text = {name: content.decode() for name, content in files.items() if name.endswith((".md", ".txt"))}
    assert text["phases/first/shopping-list.md"].startswith("# Shopping list: Two summers, first\n")
    assert "near" in text["phases/first/install-checklist.md"]
    assert "far" not in text["phases/first/install-checklist.md"]
    assert "far" in text["phases/second/install-checklist.md"]
    assert "pull:piece/core--near" not in text["phases/second/install-checklist.md"]
    assert "switch-8-poe" not in text["phases/second/shopping-list.md"]
    assert text["phases/first/findings.txt"].startswith("no errors")


def test_the_drawing_is_of_what_stands_then(files: Mapping[str, bytes]) -> None:
    drawn = files["phases/first/drawings/network.svg"].decode()
    assert ">near<" in drawn
    assert ">far<" not in drawn
    assert ">far<" in files["drawings/network.svg"].decode()


def test_with_one_phase_or_none_there_is_no_folder(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("first: {}, ", ""))
    assert not [name for name in results(compile_plan(path, "plan.yaml")) if name.startswith("phases/")]


def test_every_step_is_in_one_of_the_checklists(files: Mapping[str, bytes]) -> None:
    def steps(name: str) -> list[str]:
        return [line.rpartition(" · ")[2] for line in files[name].decode().splitlines() if line.startswith("- [ ]")]  # fmt: skip

    parts = steps("phases/first/install-checklist.md") + steps("phases/second/install-checklist.md")
    assert sorted(parts) == sorted(steps("install-checklist.md"))
