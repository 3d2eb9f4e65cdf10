"""Forms of the plan language, good and bad: snippets of plans in forms/*.yaml, parted by `---`.

A comment `# says: TEXT` marks a line on which there must be one fault whose message holds TEXT; `TEXT | TEXT` marks two. Without a mark
a snippet is clean. Names need not exist: only the reader is asked.
"""

import re
from pathlib import Path

import pytest

from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.plan.read import read_plan
from firstfix.source.node import Mapping
from firstfix.source.reader import parse

_SNIPPETS = [
    pytest.param(snippet, id=f"{path.stem}-{number}")
    for path in sorted((Path(__file__).parent / "forms").glob("*.yaml"))
    for number, snippet in enumerate(path.read_text("utf-8").split("\n---\n"), 1)
]
_MARK = re.compile(r"# says: (.*)")


@pytest.mark.parametrize("snippet", _SNIPPETS)
def test_a_form_is_read_or_refused_at_its_line(snippet: str) -> None:
    faults = Collector()
    tree = parse(snippet.encode(), "plan.yaml", faults)
    assert isinstance(tree, Mapping)
    read_plan(tree, library(), faults)
    said = sorted((each.primary.line if each.primary else 0, each.message) for each in faults.findings)
    marked = [
        (number, text)
        for number, line in enumerate(snippet.splitlines(), 1)
        for mark in _MARK.findall(line)
        for text in mark.split(" | ")
    ]
    assert [line for line, _ in said] == [line for line, _ in marked], said
    for line, text in marked:
        assert any(text in message for at, message in said if at == line), (text, said)
