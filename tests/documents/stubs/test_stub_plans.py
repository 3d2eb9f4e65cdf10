"""Every example plan: both judges accept its stubs, no reference dangles, each wired jack has its row."""

import json
from functools import cache
from pathlib import Path

import pytest

from documents.stubs.reading import table
from documents.stubs.references import dangling
from documents.stubs.yang_oracles import yanglint_complaint, yangson_complaint
from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.documents.stubs.files import stub_files
from firstfix.pipeline import compile_plan

PLANS = sorted(path for path in (Path(__file__).parents[3] / "plans").glob("*.yaml") if "." not in path.stem)


@cache
def build_of(plan: Path) -> Build:
    build = compile_plan(plan, plan.name).build
    assert build is not None
    return build


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_instance_data_is_accepted(plan: Path, tmp_path: Path) -> None:
    files = stub_files(build_of(plan))
    configs = {path: json.loads(text) for path, text in files.items() if path.endswith("/config.json")}
    assert configs
    for path, data in configs.items():
        assert yanglint_complaint(data, tmp_path) == "", path
        assert yangson_complaint(data) == "", path
        assert list(dangling(data)) == [], path


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_each_wired_jack_has_its_row(plan: Path) -> None:
    build = build_of(plan)
    wired = {end for piece in build.pieces.values() for end in piece.ends}
    for path, text in stub_files(build).items():
        if path.endswith("/settings.md"):
            jacks = build.jacks_of[ids.device(path.split("/")[1])]
            wanted = [build.jacks[jack].name for jack in jacks if jack in wired]
            assert [row[0] for row in table(text.decode(), "Ports")] == wanted, path
