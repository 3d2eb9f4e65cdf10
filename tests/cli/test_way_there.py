"""`firstfix diff` ends with the way there, and `-o` writes it to take along."""

import json
from pathlib import Path

import pytest

from changeover.networks import Plan, switched
from cli.running import firstfix


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    new: Plan = switched()
    new["links"][1]["untagged"] = "house"
    for name, plan in (("old", switched()), ("same", switched()), ("new", new)):
        (tmp_path / f"{name}.yaml").write_text(json.dumps(plan), encoding="utf-8")
    return tmp_path


def test_diff_ends_with_the_way_there(folder: Path) -> None:
    out = firstfix("diff", "old.yaml", "new.yaml", cwd=folder).out
    way = out[out.index("The way there (2 steps, 10 min of work)") :]
    assert way.index("1. Turn the link of b-far") < way.index("2. Turn the link of a-near")
    assert "b-far cannot be managed meanwhile" in way


def test_there_is_none_where_nothing_changes(folder: Path) -> None:
    assert "way there" not in firstfix("diff", "old.yaml", "same.yaml", cwd=folder).out


def test_it_is_written_to_take_along(folder: Path) -> None:
    firstfix("diff", "old.yaml", "new.yaml", "-o", "out", cwd=folder)
    text = (folder / "out" / "way-there.md").read_text(encoding="utf-8")
    assert text.startswith("# The way there\n")
    data = json.loads((folder / "out" / "way-there.json").read_text(encoding="utf-8"))
    assert [step["number"] for step in data["steps"]] == [1, 2]
    assert "way-there.md" in (folder / "out" / "changes.md").read_text(encoding="utf-8")
