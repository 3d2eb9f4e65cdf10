"""What a progress file may say, and what is said of one that says something else."""

import json
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix import resources
from firstfix.finding.collector import Collector
from firstfix.pipeline import compile_plan
from firstfix.progress.model import PASSED, Progress, Quantity
from firstfix.progress.read import read_progress
from firstfix.source.node import Mapping, Node, Scalar, Sequence, is_null
from firstfix.source.reader import parse
from progress.sample import compiled, write

GOOD = """\
# in my own words
done:
  unpack:plan/all:
  fit:device/core: true
  fit:device/panel: 2027-03-14
  pull:piece/ap-attic--core/1: {on: 2027-03-15, as: "cat6-indoor, 18 m", note: with Jo}
bought:
  cord-cat6/1m: {ordered: 9, ordered-on: 2027-03-01, arrived: 4}
  cat6-indoor: {arrived: 305 ft}
  wall-fixing:
labels:
  core: {mac: 00-00-5E-00-53-0A, serial: 0123, part: switch-16-poe}
  gateway: {serial: "no"}
measured:
  ap-attic--core/1: {length: 12.4 m, test: pass, x-mine: 4 dB}
note: {mine: [1, 2]}
x-own: anything
"""

# One fault each: the text, and the kind of its finding.
FAULTY = {
    "ticked: {}": "key-unknown",
    "done: [fit:device/core]": "value-kind",
    "done: {fit:device/core: yes}": "value-kind",
    "done: {fit:device/core: false}": "value-kind",
    "done: {fit:device/core: [2027-03-14]}": "value-kind",
    "done: {fit:device/core: 14.3.2027}": "value-kind",
    "done: {fit:device/core: {on: 2027-13-14}}": "value-kind",
    "done: {fit:device/core: {day: 2027-03-14}}": "key-unknown",
    "done: {fit:device/core: {as: [a]}}": "value-kind",
    "bought: {cord-cat6/1m: 9}": "value-kind",
    "bought: {cord-cat6/1m: {ordered: -1}}": "value-kind",
    "bought: {cord-cat6/1m: {ordered: 1.5}}": "value-kind",
    "bought: {cord-cat6/1m: {ordered: 1000001}}": "value-kind",
    "bought: {cat6-indoor: {arrived: 3 furlongs}}": "quantity",
    "bought: {cat6-indoor: {arrived: -3 m}}": "quantity",
    "bought: {cat6-indoor: {came: 3 m}}": "key-unknown",
    "labels: {core: 00:00:5e:00:53:0a}": "value-kind",
    "labels: {core: {mac: 00:00:5e:00:53}}": "value-kind",
    "labels: {core: {mac: 01:00:5e:00:53:0a}}": "value-kind",
    "labels: {core: {mac: [0]}}": "value-kind",
    "measured: {a: {length: 12}}": "quantity",
    "measured: {a: {length: 12 W}}": "quantity",
    "measured: {a: {test: ok}}": "value-kind",
    "measured: {a: {on: today}}": "value-kind",
}
NO_TREE = {"done: [": "syntax", "done: {a: true, a: true}": "key-duplicate", "- a": "empty-file"}


def read(text: str) -> tuple[Progress, list[str]]:
    faults = Collector()
    tree = parse(text.encode(), "p.yaml", faults)
    assert isinstance(tree, Mapping)
    return read_progress(tree, "p.yaml", faults), [each.rule for each in faults.findings]


def test_all_forms() -> None:
    progress, faults = read(GOOD)
    assert faults == []
    assert {id_: (each.on, each.as_planned) for id_, each in progress.done.items()} == {
        "unpack:plan/all": ("", ""),
        "fit:device/core": ("", ""),
        "fit:device/panel": ("2027-03-14", ""),
        "pull:piece/ap-attic--core/1": ("2027-03-15", "cat6-indoor, 18 m"),
    }
    assert progress.bought["cord-cat6/1m"][1:5] == (Quantity(9, False), "2027-03-01", Quantity(4, False), "")
    assert progress.bought["cat6-indoor"].arrived == Quantity(92.964, True)
    assert progress.labels["core"][1:4] == ("00:00:5e:00:53:0a", "0123", "switch-16-poe")
    assert progress.labels["gateway"].serial == "no"
    measured = progress.measured["ap-attic--core/1"]
    assert (measured.length, measured.verdict) == (12.4, PASSED)


@pytest.mark.parametrize("text", FAULTY)
def test_a_fault_is_one_finding_at_its_place(text: str) -> None:
    faults = Collector()
    tree = parse(text.encode(), "p.yaml", faults)
    assert isinstance(tree, Mapping)
    read_progress(tree, "p.yaml", faults)
    assert [each.rule for each in faults.findings] == [FAULTY[text]]
    assert faults.findings[0].primary is not None
    assert faults.findings[0].primary.line == 1


def test_one_mac_belongs_to_one_device() -> None:
    text = "labels: {core: {mac: 00:00:5e:00:53:0a}, gateway: {mac: 00-00-5E-00-53-0A}}"
    assert read(text)[1] == ["label-twice"]


# The reader and the schema


def _data(node: Node) -> Any:
    """The tree as YAML 1.2's core schema types it (10.3.2), which is what a schema sees."""
    if isinstance(node, Mapping):
        return {key: _data(value) for key, (_, value) in node.entries.items()}
    if isinstance(node, Sequence):
        return [_data(each) for each in node.items]
    assert isinstance(node, Scalar)
    if is_null(node):
        return None
    if node.plain and node.text in ("true", "false"):
        return node.text == "true"
    if node.plain and node.text.lstrip("+-").isdigit():
        return int(node.text)
    try:
        return float(node.text) if node.plain and node.text.replace(".", "", 1).isdigit() else node.text
    except ValueError:
        return node.text


def _is_day(text: object) -> bool:
    try:
        return not isinstance(text, str) or bool(date.fromisoformat(text))
    except ValueError:
        return False


@cache
def _validator() -> jsonschema.Draft202012Validator:
    schema = json.loads((resources.schemas() / "progress.schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    checker = jsonschema.FormatChecker(())
    checker.checks("date")(_is_day)
    return jsonschema.Draft202012Validator(schema, format_checker=checker)


@pytest.mark.parametrize("text", [GOOD, "done:\n", "bought: {}"])
def test_schema_takes_what_the_reader_takes(text: str) -> None:
    assert read(text)[1] == []
    tree = parse(text.encode(), "", Collector())
    assert tree is not None
    assert [each.message for each in _validator().iter_errors(_data(tree))] == []


@pytest.mark.parametrize("text", FAULTY)
def test_schema_refuses_what_the_reader_refuses(text: str) -> None:
    tree = parse(text.encode(), "", Collector())
    assert tree is not None
    assert not _validator().is_valid(_data(tree))


KEYS = (
    "on",
    "as",
    "note",
    "ordered",
    "ordered-on",
    "arrived",
    "mac",
    "serial",
    "part",
    "length",
    "test",
    "x-y",
    "z",
)
VALUES = (
    "", "~", "true", "false", "no", "0", "9", '"9"', "-1", "1.5", "1000000", "1000001", "0 m", "12 m", "12m", '"12 m"',
    "-3 m", "+3 ft", "12 W", "3 M", "2027-03-14", '"2027-03-14"', "2027-02-30", "2027-3-1", "pass", "fail", "Pass", '""',
    "00:00:5e:00:53:0a", '"02-00-5E-00-53-0A"', "01:00:5e:00:53:0a", "00:00:5e:00:53", "[a]", "{a: b}", "x",
)  # fmt: skip


@settings(derandomize=True, deadline=None, max_examples=1500)
@given(
    st.sampled_from(["done", "bought", "labels", "measured", "note", "x-own", "ticked"]),
    st.dictionaries(st.sampled_from(KEYS), st.sampled_from(VALUES), max_size=2),
    st.sampled_from((*VALUES, "")),
    st.sampled_from(["record", "value", "section"]),
)
def test_reader_and_schema_agree(section: str, record: dict[str, str], value: str, shape: str) -> None:
    """On anything made of these, whatever its shape."""
    inside = "{" + ", ".join(f"{key}: {text}" for key, text in record.items()) + "}"
    text = (
        f"{section}: " + {"record": f"{{n: {inside}}}", "value": f"{{n: {value}}}", "section": value}[shape]
    )
    tree = parse(text.encode(), "", Collector())
    assert tree is not None
    assert _validator().is_valid(_data(tree)) == (read(text)[1] == []), text


# Through the whole compilation


@pytest.mark.parametrize("text", NO_TREE)
def test_a_file_that_is_no_progress_is_a_finding(text: str, tmp_path: Path) -> None:
    result = compiled(tmp_path, text)
    found = [each for each in result.report.findings if each.level.value == "error"]
    assert [(each.rule, each.primary and each.primary.file) for each in found] == [
        (NO_TREE[text], "shed.progress.yaml")
    ]


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing yet\n", "done:\n", "{}"])
def test_a_file_that_says_nothing_is_no_fault(text: str, tmp_path: Path) -> None:
    bare = compiled(tmp_path)
    assert compiled(tmp_path, text).report == bare.report


@pytest.mark.parametrize(
    "data",
    [
        b"\xff\xfe", b"done: {a: \x00}", b"done: " + b"[" * 5000, b"a: &a [*a]", b"a: &a b\ndone: {*a : *a}",
        b"done:\n" + b"".join(b"  s%d: true\n" % number for number in range(5000)),
        b"labels:\n  core: {mac: !!python/none x}\n", b"---\ndone:\n---\ndone:\n", b"done: {? [a] : b}",
        "measured: {\"\u202e\": {length: 1e9 m}}".encode(),
    ],
)  # fmt: skip
def test_a_hostile_file_ends_in_findings(data: bytes, tmp_path: Path) -> None:
    path = write(tmp_path)
    (tmp_path / "shed.progress.yaml").write_bytes(data)
    result = compile_plan(path, "shed.yaml")
    assert 1 <= sum("progress" in str(each.primary) for each in result.report.findings) <= 301


def test_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    secret = tmp_path / "secret"
    secret.write_text("password: hunter2\n")
    (tmp_path / "plans").mkdir()
    path = write(tmp_path / "plans")
    (tmp_path / "plans" / "shed.progress.yaml").symlink_to(secret)
    result = compile_plan(path, "shed.yaml")
    assert [each.rule for each in result.report.findings if each.level.value == "error"] == ["include"]
    assert "hunter2" not in str(result.source.texts)
