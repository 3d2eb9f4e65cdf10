"""Whatever is said stands somewhere in the plan's text: each place lies in it, cuts no word, and its line is about what is said."""

import re
from functools import cache
from pathlib import Path

import pytest

from firstfix.finding.model import Report
from firstfix.pipeline import compile_plan
from firstfix.span import Span
from laws.corpus import BAD_PLANS, EXAMPLES, name_of

_WORD = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")


def _standing_in(lines: list[str], number: int) -> list[str]:
    """The lines above that are less and less indented."""
    found: list[str] = []
    depth = len(lines[number - 1]) - len(lines[number - 1].lstrip())
    for line in reversed(lines[: number - 1]):
        indent = len(line) - len(line.lstrip())
        if line.strip() and not line.lstrip().startswith("#") and indent < depth:
            found.append(line)
            depth = indent
    return found


@cache
def _report(path: Path) -> Report:
    return compile_plan(path, path.name).report


def _places(path: Path, with_labels: bool = True) -> list[tuple[str, str, Span]]:
    """Rule, everything that is said, and the place, of each verdict in the plan's own file."""
    report = _report(path)
    found = [(each.rule, f"{each.subject} {each.message}", each.primary) for each in report.findings]
    found += [
        (each.rule, " ".join((each.subject, *(label.text for label in each.missing))), each.primary)
        for each in report.undetermined
    ]
    found += [
        (each.rule, f"{each.subject} {each.message} {label.text}", label.span)
        for each in report.findings
        for label in each.related
        if with_labels and label.span is not None
    ]
    return [(rule, said, at) for rule, said, at in found if at is not None and at.file == path.name]


@pytest.mark.parametrize("path", [*EXAMPLES, *BAD_PLANS], ids=name_of)
def test_each_place_lies_in_the_plan(path: Path) -> None:
    lines = path.read_text("utf-8").split("\n")
    for rule, _, at in _places(path):
        assert 1 <= at.line <= at.end_line <= len(lines), (rule, at)
        assert 1 <= at.column <= len(lines[at.line - 1]) + 1, (rule, at)
        assert at.end_column <= len(lines[at.end_line - 1]) + 1, (rule, at)
        assert (at.line, at.column) < (at.end_line, at.end_column), (rule, at)


@pytest.mark.parametrize("path", [*EXAMPLES, *BAD_PLANS], ids=name_of)
def test_each_place_begins_and_ends_with_whole_words(path: Path) -> None:
    lines = path.read_text("utf-8").split("\n")
    for rule, _, at in _places(path):
        first, last = lines[at.line - 1], lines[at.end_line - 1]
        if at.end_column == 1:
            continue  # A table over several lines ends where the next line begins.
        assert not re.search(r"[A-Za-z0-9]$", first[: at.column - 1]), (rule, first, at)
        assert not re.match(r"[A-Za-z0-9]", last[at.end_column - 1 :]), (rule, last, at)
        assert first[at.column - 1 : at.column].strip(), (rule, first, at)


@pytest.mark.parametrize("path", [*EXAMPLES, *BAD_PLANS], ids=name_of)
def test_each_place_is_about_what_is_said(path: Path) -> None:
    """The line, the entry that begins on it, or what that stands in, shares a name or a figure with the sentence or its subject."""
    lines = path.read_text("utf-8").split("\n")
    for rule, said, at in _places(path, with_labels=False):
        there = set(
            _WORD.findall(" ".join((*_standing_in(lines, at.line), *lines[at.line - 1 : at.end_line])))
        )
        assert there & set(_WORD.findall(said)), (rule, said, lines[at.line - 1])
