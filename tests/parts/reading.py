"""Reads the text of a `parts:` table for the tests: parts by name, and each fault as one line."""

from firstfix.finding.collector import Collector
from firstfix.parts.facts import AUTHOR
from firstfix.parts.part import Library, Part
from firstfix.parts.read import read_parts
from firstfix.source.reader import parse


def read(text: str, known: Library | None = None) -> tuple[dict[str, Part], list[str]]:
    """The parts of `text`, and its faults as "line:column kind: message"."""
    faults = Collector()
    tree = parse(text.encode(), "plan.yaml", faults)
    parts = {} if tree is None else read_parts(tree, known or {}, faults, AUTHOR)
    return parts, [_line(each.primary, each.rule, each.message) for each in faults.findings]


def _line(at: object, rule: str, message: str) -> str:
    return f"{str(at).removeprefix('plan.yaml:')} {rule}: {message}"


def one(text: str, known: Library | None = None) -> Part:
    """The last part of `text`, which must have no fault."""
    parts, faults = read(text, known)
    assert faults == []
    return list(parts.values())[-1]
