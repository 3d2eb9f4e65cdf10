"""What the typed reader and the published schema each say of a plan's text.

The reader sees every scalar as text; a schema sees what YAML 1.2's core schema makes of it, as an editor would show it.
"""

import json
import re
from functools import cache
from typing import Any

import jsonschema

from firstfix import resources
from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.plan.read import read_plan
from firstfix.source.node import Mapping, Node, Scalar, Sequence, is_null
from firstfix.source.reader import parse

# YAML 1.2.2, section 10.3.2, the table of tags of the core schema.
_BOOLEAN = ("true", "True", "TRUE", "false", "False", "FALSE")
_INTEGER = re.compile(r"[-+]?[0-9]+")
_OTHER_BASE = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_NO_NUMBER = re.compile(r"[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)")


def value_of(node: Node) -> Any:
    if isinstance(node, Mapping):
        return {key: value_of(value) for key, (_, value) in node.entries.items()}
    if isinstance(node, Sequence):
        return [value_of(each) for each in node.items]
    assert isinstance(node, Scalar)
    return _scalar(node)


def _scalar(node: Scalar) -> Any:
    text = node.text
    if is_null(node):
        return None
    if not node.plain:
        return text
    if text in _BOOLEAN:
        return text.lower() == "true"
    if _INTEGER.fullmatch(text):
        return int(text)
    if _OTHER_BASE.fullmatch(text):
        return int(text, 0)
    if _FLOAT.fullmatch(text):
        return float(text)
    return float(text.replace(".", "")) if _NO_NUMBER.fullmatch(text) else text


def faults_of_the_file(text: str) -> list[str]:
    """What is wrong before there are any values: no YAML, a key written twice."""
    faults = Collector()
    parse(text.encode(), "plan.yaml", faults)
    return [each.message for each in faults.findings]


def tree_of(text: str) -> tuple[Mapping, Collector]:
    faults = Collector()
    tree = parse(text.encode(), "plan.yaml", faults)
    assert isinstance(tree, Mapping), [each.message for each in faults.findings]
    assert not faults.findings, faults.findings
    return tree, faults


def reader_says(text: str) -> list[str]:
    """The messages of the typed reader, with the kind of fault before each."""
    tree, faults = tree_of(text)
    read_plan(tree, library(), faults)
    return [f"{each.rule}: {each.message}" for each in faults.findings]


@cache
def schema() -> Any:
    return json.loads((resources.schemas() / "plan.schema.json").read_text("utf-8"))


@cache
def validator() -> jsonschema.Draft202012Validator:
    jsonschema.Draft202012Validator.check_schema(schema())
    return jsonschema.Draft202012Validator(
        schema(), format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
    )


def schema_says(value: Any) -> list[str]:
    return [
        f"{'/'.join(map(str, each.absolute_path))}: {each.message}" for each in validator().iter_errors(value)
    ]


def says_of_text(text: str) -> list[str]:
    return schema_says(value_of(tree_of(text)[0]))
