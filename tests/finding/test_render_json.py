"""Findings as JSON: the published schema accepts what we print, and refuses what we never would."""

import copy
import json
import math
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from syrupy.assertion import SnapshotAssertion

from finding.sample import EMPTY, REPORT
from firstfix.finding.model import COMMON_PRACTICE, Finding, Level, Measurement, Term, report
from firstfix.finding.render_json import render_json
from firstfix.resources import schemas

SCHEMA = json.loads((schemas() / "findings.schema.json").read_text(encoding="utf-8"))
VALIDATOR = Draft202012Validator(SCHEMA)


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", ["full", "empty"])
def test_the_schema_accepts_what_is_printed(name: str) -> None:
    VALIDATOR.validate(json.loads(render_json(REPORT if name == "full" else EMPTY)))


def test_the_fixed_report(golden_json: SnapshotAssertion) -> None:
    assert render_json(REPORT) == golden_json


def test_only_ascii_is_printed_so_that_no_terminal_obeys_it() -> None:
    text = render_json(REPORT)
    assert text.isascii()
    assert text.replace("\n", "").isprintable()


def test_binary_dust_is_swept_and_the_unbounded_is_null() -> None:
    measurement = Measurement("x", 0.1 + 0.2, "at most", math.inf, "m", (Term("a", 0.1 + 0.2),))
    finding = Finding("r", Level.NOTE, "m", "", None, COMMON_PRACTICE, (), measurement)
    found = json.loads(render_json(report([finding])))["findings"][0]["measurement"]
    assert (found["figure"], found["limit"], found["margin"]) == (0.3, None, None)


def _broken(path: list[str | int], value: object) -> Any:
    data = copy.deepcopy(json.loads(render_json(REPORT)))
    place = data
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    return data


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (["format_version"], 2),
        (["findings", 0, "level"], "fatal"),
        (["findings", 0, "rule"], "Poe Budget"),
        (["findings", 0, "surplus"], 1),
        (["findings", 0, "message"], ""),
        (["findings", 0, "at", "line"], 0),
        (["findings", 0, "measurement", "figure"], "77"),
        (["cannot_tell", 0, "missing"], None),
        (["counts", "error"], -1),
        (["examined", "poe-budget"], 1.5),
    ],
)
def test_the_schema_refuses(path: list[str | int], value: object) -> None:
    data = json.loads(render_json(REPORT))
    if path[:2] == ["findings", 0]:
        # The measured one, wherever it sorts.
        path = [
            "findings",
            next(i for i, f in enumerate(data["findings"]) if f["rule"] == "poe-budget"),
            *path[2:],
        ]
    assert not VALIDATOR.is_valid(_broken(path, value))
