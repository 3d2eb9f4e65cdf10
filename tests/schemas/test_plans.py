"""Whole plans and the part library against the schema; README's plans and the plans with mistakes against schema and reader."""

import datetime
import re
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from schemas.differences import explained
from schemas.judging import faults_of_the_file, reader_says, says_of_text, schema_says, tree_of, value_of
from schemas.plan_files import ROOT, part_files, plan_files


def _name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("path", plan_files(), ids=_name)
def test_plan_is_taken(path: Path) -> None:
    assert says_of_text(path.read_text("utf-8")) == []


@pytest.mark.parametrize("path", part_files(), ids=_name)
def test_library_is_taken(path: Path) -> None:
    assert schema_says({"parts": value_of(tree_of(path.read_text("utf-8"))[0])}) == []


_TRIED = [
    *sorted((ROOT / "plans/bad").glob("*.yaml")),
    *sorted((ROOT / "tests/rules").glob("*/*.yaml")),
    *sorted((ROOT / "tests/explaining").glob("*.yaml")),
]


@pytest.mark.parametrize("path", [path for path in _TRIED if "." not in path.stem], ids=_name)
def test_plan_is_judged_alike(path: Path) -> None:
    text = path.read_text("utf-8")
    if faults_of_the_file(text):
        pytest.skip("a fault of YAML; there are no values to try")
    reader, schema = reader_says(text), says_of_text(text)
    assert explained(reader, schema), f"reader: {reader}\nschema: {schema}"


def test_plans_of_the_readme_are_taken() -> None:
    blocks = re.findall(
        r"^```yaml\n(.*?)^```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL | re.MULTILINE
    )
    assert blocks
    for block in blocks:
        assert says_of_text(block) == []
        assert reader_says(block) == []


def _plain(value: Any) -> Any:
    """ruamel.yaml's values as JSON has them. It makes days of texts, which YAML 1.2's core schema does not."""
    if isinstance(value, dict):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, list):
        return [_plain(each) for each in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


@pytest.mark.parametrize("path", plan_files(), ids=_name)
def test_another_reader_of_yaml_sees_the_same_values(path: Path) -> None:
    """The second path to the values on which the schema is tried."""
    text = path.read_text("utf-8")
    assert _plain(YAML(typ="safe", pure=True).load(text)) == value_of(tree_of(text)[0])
