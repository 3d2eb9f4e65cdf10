"""The line of a plan file that a finding points at, with a row of marks under the place. Leaf."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from firstfix.finding.fit import cells, cut, visible
from firstfix.span import Span

# What YAML's reader (libyaml) counts as the end of a line; other counts would point at the wrong one.
_LINE_END = re.compile("\r\n|[\r\n\x85\u2028\u2029]")


class Excerpt(NamedTuple):
    """`line` is printable and fits; `before` columns stand left of the place, `marks` columns wide."""

    line: str
    before: int
    marks: int


class Excerpts:
    """Lines of the files of one plan. A file is split once, when first asked for."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self._texts = texts
        self._lines: dict[str, list[str]] = {}

    def at(self, span: Span, width: int) -> Excerpt | None:
        """The line of `span`, clipped around it to `width` columns.

        None where the text isn't at hand, or the span is empty and so means a whole file.
        """
        line = self._line(span)
        if line is None or (span.line, span.column) == (span.end_line, span.end_column):
            return None
        start = min(span.column - 1, len(line))
        end = span.end_column - 1 if span.end_line == span.line else len(line.rstrip())
        return _clipped(line, start, max(start + 1, min(end, len(line))), width)

    def _line(self, span: Span) -> str | None:
        if span.file not in self._texts:
            return None
        if span.file not in self._lines:
            self._lines[span.file] = _LINE_END.split(self._texts[span.file])
        lines = self._lines[span.file]
        return lines[span.line - 1] if 0 < span.line <= len(lines) else None


def _clipped(line: str, start: int, end: int, width: int) -> Excerpt:
    """All that stands left of the place if it fits, else a third of the width of it; the place; the rest."""
    is_near = end <= width and cells(visible(line[:end])) <= width
    left = visible(line[:start]) if is_near else _end_of(line[max(0, start - width) : start], width // 3)
    marked = cut(line[start:end], width - cells(left)) or " "
    room = width - cells(left) - cells(marked)
    right = cut(line[end : end + 2 * width].rstrip(), room) if room > 0 else ""
    return Excerpt((left + marked + right).rstrip(), cells(left), cells(marked))


def _end_of(text: str, width: int) -> str:
    shown = visible(text)
    if cells(shown) <= width:
        return shown
    while cells(shown) > width - 1:
        shown = shown[1:]
    return "…" + shown
