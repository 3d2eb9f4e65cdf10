"""The reader against ruamel.yaml in its YAML 1.2 mode, which shares no code with it: structure, texts, places of keys."""

from io import StringIO
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML
from ruamel.yaml.nodes import MappingNode, SequenceNode

from firstfix.finding.collector import Collector
from firstfix.source.node import Mapping, Node, Scalar, Sequence, is_null
from firstfix.source.reader import parse


def _tree(text: str) -> Node:
    faults = Collector()
    tree = parse(text.encode(), "plan.yaml", faults)
    assert faults.findings == []
    assert tree is not None
    return tree


def _ours(node: Node) -> Any:
    if isinstance(node, Mapping):
        return [(key.text, key.line, key.column, _ours(value)) for key, value in node.entries.values()]
    if isinstance(node, Sequence):
        return [_ours(each) for each in node.items]
    assert isinstance(node, Scalar)
    return node.text, node.line, node.column


def _theirs(node: Any) -> Any:
    if isinstance(node, MappingNode):
        return [
            (key.value, key.start_mark.line + 1, key.start_mark.column + 1, _theirs(value))
            for key, value in node.value
        ]
    if isinstance(node, SequenceNode):
        return [_theirs(each) for each in node.value]
    return node.value, node.start_mark.line + 1, node.start_mark.column + 1


_TEXTS = st.one_of(
    st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs"), exclude_characters=":?"), min_size=1, max_size=12),
    st.sampled_from(["no", "on", "0123", "11:22:33:44:55:50", "1:30", "null", "~", "<<", "2027-03-01", "1e3", ".inf", "- a", "# b", "a: b"]),
)  # fmt: skip
_NODES = st.recursive(
    _TEXTS,
    lambda inner: (
        st.lists(inner, min_size=1, max_size=4) | st.dictionaries(_TEXTS, inner, min_size=1, max_size=4)
    ),
    max_leaves=12,
)


@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.dictionaries(_TEXTS, _NODES, min_size=1, max_size=5), st.booleans())
def test_same_tree_as_another_reader(data: Any, flow: bool) -> None:
    writer = YAML(typ="safe", pure=True)
    writer.default_flow_style = flow
    writer.width = 1000
    stream = StringIO()
    writer.dump(data, stream)
    text = stream.getvalue()
    assert _ours(_tree(text)) == _theirs(YAML(pure=True).compose(text))


# YAML 1.1 reads each of these as something else: a boolean, an octal, a number to the base of 60, a date. Row 79 of the worked checks.
@pytest.mark.parametrize(
    "text", ["no", "on", "yes", "off", "0123", "11:22:33:44:55:50", "1:30", "2027-03-01", "1_000", "0b1"]
)
def test_text_stays_what_was_written(text: str) -> None:
    tree = _tree(f"a: {text}\n")
    assert isinstance(tree, Mapping)
    value = tree.value("a")
    assert isinstance(value, Scalar)
    assert value.text == text
    assert value.plain
    assert not is_null(value)


@pytest.mark.parametrize(
    ("written", "null"),
    [
        ("", True), ("~", True), ("null", True), ("Null", True),
        ("''", False), ('"~"', False), ("'null'", False), ("nULL", False),
    ],
)  # fmt: skip
def test_nulls_are_plain_only(written: str, null: bool) -> None:
    """libyaml gives a plain scalar the style '', not None."""
    tree = _tree(f"a: {written}\n")
    assert isinstance(tree, Mapping)
    value = tree.value("a")
    assert value is not None
    assert is_null(value) is null
