"""Reads the text of a `parts:` table for the tests: parts by name, and each fault as one line."""

from firstfix.finding.collector import Collector
from firstfix.finding.model import Finding
from firstfix.parts.facts import AUTHOR
from firstfix.parts.part import Library, Part
from firstfix.parts.read import read_parts
from firstfix.source.reader import parse


def read(text: str, known: Library | None = None) -> tuple[dict[str, Part], list[str]]:
    """The parts of `text`, and its faults as "line:column kind: message", but for facts that are left out.

    So that a test of one key need not write all that its kind needs; test_needed_facts.py is about those.
    """
    parts, faults = read_whole(text, known)
    return parts, [fault for fault in faults if "' does not say '" not in fault]


def read_whole(text: str, known: Library | None = None) -> tuple[dict[str, Part], list[str]]:
    """The parts of `text`, and all its faults as "line:column kind: message"."""
    faults = Collector()
    tree = parse(text.encode(), "plan.yaml", faults)
    parts = {} if tree is None else read_parts(tree, known or {}, faults, AUTHOR)
    return parts, [_line(each) for each in faults.findings]


def _line(fault: Finding) -> str:
    message = "; ".join((fault.message, *(label.text for label in fault.related)))
    return f"{str(fault.primary).removeprefix('plan.yaml:')} {fault.rule}: {message}"


def one(text: str, known: Library | None = None) -> Part:
    """The last part of `text`, which must have no fault."""
    parts, faults = read(text, known)
    assert faults == []
    return list(parts.values())[-1]
