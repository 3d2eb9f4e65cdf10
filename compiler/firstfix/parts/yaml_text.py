"""Nodes, values and texts back into one line of YAML that reads as the same."""

import json
import re
from collections.abc import Collection
from typing import Any

from firstfix.source.node import Mapping, Node, Scalar, Sequence

# Nothing in these means anything in YAML, wherever they stand. [0-9], since \d takes the digits of every script.
_PLAIN = re.compile(r"[A-Za-z0-9°./][A-Za-z0-9°./+ -]*(?<! )|-[0-9][A-Za-z0-9°. ]*(?<! )")
_LOOKS_ELSE = frozenset({"null", "Null", "NULL", "true", "false", "y", "n", "yes", "no", "on", "off"})


def scalar(text: str) -> str:
    """
    >>> scalar("9 W"), scalar("small: camera")
    ('9 W', '"small: camera"')
    """
    plain = _PLAIN.fullmatch(text) and text.lower() not in _LOOKS_ELSE
    return text if plain else json.dumps(text, ensure_ascii=False)


def flow(node: Node, unknown: Collection[str] = ()) -> str:
    """The node in flow style. Values at keys among `unknown` become `unknown`."""
    if isinstance(node, Mapping):
        inside = (
            f"{scalar(key)}: {'unknown' if key in unknown else flow(value, unknown)}"
            for key, (_, value) in node.entries.items()
        )
        return f"{{{', '.join(inside)}}}"
    if isinstance(node, Sequence):
        return f"[{', '.join(flow(item, unknown) for item in node.items)}]"
    assert isinstance(node, Scalar)
    # true and false stay what they are; a quoted word stays a word.
    return node.text if node.plain and node.text in ("true", "false") else scalar(node.text)


def flow_value(value: Any) -> str:
    """A value of a JSON file in flow style, its texts plain where they may be.

    >>> flow_value({"class": 4, "jacks": ["1-8"], "negotiates": True})
    '{class: 4, jacks: [1-8], negotiates: true}'
    """
    if isinstance(value, dict):
        return f"{{{', '.join(f'{scalar(key)}: {flow_value(each)}' for key, each in value.items())}}}"
    if isinstance(value, list):
        return f"[{', '.join(map(flow_value, value))}]"
    return scalar(value) if isinstance(value, str) else json.dumps(value)
