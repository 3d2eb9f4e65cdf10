"""The help of a kind of finding, taken out of its docstring's layout, for `explain` and for formats that carry it. Leaf."""

import re
import textwrap
from collections.abc import Iterator

from firstfix.finding.kinds import Kind

_HEADING = re.compile(r"[A-Z][a-z]+(?: [a-z]+)?:(?= |$)")
# Its lines are a piece of a plan, so they stay as they are.
_VERBATIM = "Example:"


def help_paragraphs(kind: Kind) -> list[str]:
    """The summary, one paragraph for each heading, and the basis; each on one line, an example on several."""
    summary, _, rest = kind.help.strip().partition("\n")
    return [summary.strip(), *_paragraphs(textwrap.dedent(rest).splitlines()), f"Basis: {kind.basis}"]


def help_headings(kind: Kind) -> dict[str, str]:
    """The paragraphs after the summary by their headings, without the basis; what has no heading continues the one before."""
    found: dict[str, str] = {}
    last = ""
    for paragraph in help_paragraphs(kind)[1:-1]:
        match = _HEADING.match(paragraph)
        if match is None:
            found[last] = f"{found[last]} {paragraph}".strip() if last in found else paragraph
            continue
        last = match.group()[:-1]
        found[last] = paragraph[match.end() :].strip("\n").removeprefix(" ")
    return found


def help_text(kind: Kind) -> str:
    return "\n".join(help_paragraphs(kind))


def _paragraphs(lines: list[str]) -> Iterator[str]:
    """A paragraph begins at a heading or after an empty line."""
    block: list[str] = []
    for line in [*lines, ""]:
        if block and (not line.strip() or _HEADING.match(line)):
            yield _joined(block)
            block = []
        if line.strip():
            block.append(line)


def _joined(block: list[str]) -> str:
    if block[0].startswith(_VERBATIM):
        return "\n".join(line.rstrip() for line in block)
    return " ".join(" ".join(block).split())
