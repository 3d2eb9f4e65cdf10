"""The same plan gives the same bytes: whatever the hash seed, clock zone, language, or order of what the author wrote."""

import copy
import hashlib
import os
import random
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from firstfix.documents.build_json import build_json
from firstfix.pipeline import Compiled, compile_plan
from repo.editing import HONEY_FARM, PLANS_OF_ONE_FILE, compiled, read

_PROGRAM = """
import hashlib, sys
from pathlib import Path
from firstfix.documents.build_json import build_json
from firstfix.finding.render_json import render_json
from firstfix.pipeline import compile_plan
import firstfix.pipeline as pipeline
compiled = compile_plan(Path(sys.argv[1]), "plan.yaml")
said = {"build": build_json(compiled.build).encode(), "report": repr(compiled.report).encode()}
try:
    import firstfix.documents.all_documents
except ImportError:
    pass
else:
    said |= pipeline.results(compiled)
for name in sorted(said):
    print(hashlib.sha256(said[name]).hexdigest(), name)
"""
_MACHINES = (
    {"PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4711", "TZ": "Etc/GMT-14", "LC_ALL": "C.UTF-8"},
)


# The school's is tried in plans_of_size/test_school.py, where its documents are made anyway.
@pytest.mark.parametrize("path", PLANS_OF_ONE_FILE, ids=lambda path: path.stem)
def test_machine_does_not_show(path: Path) -> None:
    said = [
        subprocess.run(
            [sys.executable, "-c", _PROGRAM, str(path)],
            env={**os.environ, **machine}, capture_output=True, check=True, timeout=120,
        ).stdout
        for machine in _MACHINES
    ]  # fmt: skip
    assert said[0].count(b"\n") >= 2
    assert said[0] == said[1]


# Lists in which order is meant by the author; all others are sets.
_ORDERED = {"run", "plugs-into", "servers", "along", "lengths"}


def _shuffled(node: Any, chance: random.Random, key: str = "") -> Any:
    if isinstance(node, dict):
        names = list(node)
        chance.shuffle(names)
        return {name: _shuffled(node[name], chance, name) for name in names}
    if isinstance(node, list):
        items = [_shuffled(each, chance) for each in node]
        if key not in _ORDERED:
            chance.shuffle(items)
        return items
    return node


def _said(result: Compiled) -> tuple[str, list[tuple[str, ...]]]:
    assert result.build is not None
    findings = [(each.rule, each.subject, each.message, str(each.level)) for each in result.report.findings]
    findings += [(each.rule, each.subject, "", "cannot tell") for each in result.report.undetermined]
    return build_json(result.build), sorted(findings)


@pytest.mark.parametrize("seed", range(8))
def test_order_in_the_file_does_not_show(seed: int, tmp_path: Path) -> None:
    plan = read(HONEY_FARM)
    other = _shuffled(plan, random.Random(seed))  # noqa: S311 - repeatable
    assert _said(compiled(other, tmp_path)) == _said(compiled(plan, tmp_path))


def test_links_over_the_same_hops_do_not_change_places(tmp_path: Path) -> None:
    """Their ordinals follow from what they say, not from which stands first."""
    plan = read(HONEY_FARM)
    plan["devices"]["other"] = {"part": "switch-8-managed", "room": "study", "vlan": "manage"}
    pair = [
        {"run": ["core", "other"], "spare-for": "core/15"},
        {"run": ["other", "core"], "rate": "100 Mb/s"},
    ]
    there, back = copy.deepcopy(plan), copy.deepcopy(plan)
    there["links"] += pair
    back["links"] += pair[::-1]
    assert _said(compiled(there, tmp_path)) == _said(compiled(back, tmp_path))


@pytest.mark.parametrize("path", PLANS_OF_ONE_FILE, ids=lambda path: path.stem)
def test_comments_and_blank_lines_do_not_show(path: Path, tmp_path: Path) -> None:
    lines = path.read_text("utf-8").splitlines()
    bare = [line for line in lines if line.strip() and not line.lstrip().startswith("#")]
    loud = [part for line in lines for part in (line, "", "# a remark")]
    digests = set()
    for version in (lines, bare, loud):
        other = tmp_path / "plan.yaml"
        other.write_text("\n".join(version) + "\n", encoding="utf-8")
        build, findings = _said(compile_plan(other, "plan.yaml"))
        digests.add(hashlib.sha256((build + repr(findings)).encode()).hexdigest())
    assert len(digests) == 1
