"""What a beginner did where YAML stumbles: libyaml's report and the lines around it, as one sentence at the place where the slip is.

Libyaml names the place where it could not go on, which is often a line or many lines below the slip.
"""

import re
from typing import Any, NamedTuple

import yaml

from firstfix.finding.model import Cure, Edit, Safety
from firstfix.source.node import clip
from firstfix.span import Span

# A series with its range in braces (`cam-{1..4}`), where brackets are open already.
_BRACED_RANGE = re.compile(r"\{[0-9]+\.\.[0-9]+\}")
_GLUED = re.compile(r"^(\s*(?:- )?)([A-Za-z][\w-]*):([^\s:/\\].*)$")
_GLUED_DASH = re.compile(r"^(\s*)-([^\s-].*)$")
_SECOND_COLON = re.compile(r"^(\s*(?:- )?[\w-]+:\s+)([^\s\"'{\[&*!|>#].*:(?:\s.*)?)$")
_OPEN_QUOTE = re.compile(r"^(\s*(?:- )?[\w-]+:\s+)([\"'])(.*)$")
_BARE_WORD = re.compile(r"^\s*([\w-]+)\s*(?:#.*)?$")
_INDENT = re.compile(r"[ \u00a0]*")
# A text in a table's value, up to what ends it there.
_PLAIN = re.compile(r"[^,\s\]}#][^,\]}#]*")


class Slip(NamedTuple):
    """1-based place; `instead`: what to write from there on for `length` characters, if that can be told."""

    message: str
    line: int
    column: int
    length: int = 1
    instead: str | None = None

    def span(self, file: str) -> Span:
        return Span(file, self.line, self.column, self.line, self.column + self.length)

    def cures(self, file: str) -> tuple[Cure, ...]:
        if self.instead is None:
            return ()
        edit = Edit(self.span(file), self.instead)
        return (Cure(f"write '{clip(self.instead)}'", (edit,), Safety.NEEDS_REVIEW),)


def slip_of(fault: yaml.YAMLError, text: str) -> Slip:
    mark: Any = getattr(fault, "problem_mark", None) or getattr(fault, "context_mark", None)
    if mark is None:
        # The reader below the scanner reports an offset in characters only, for a character YAML forbids.
        position = getattr(fault, "position", 0)
        line, column = text.count("\n", 0, position) + 1, position - text.rfind("\n", 0, position)
        return Slip("a control character stands here, which YAML does not allow", line, column)
    problem = str(getattr(fault, "problem", None) or "this is not YAML")
    begun: Any = getattr(fault, "context_mark", None) or mark
    lines = _LINE_END.split(text, mark.line + 1)[: mark.line + 1]
    return _Place(lines, mark.line, mark.column, begun.line, begun.column).slip(problem)


class _Place:
    """The lines up to the one where libyaml stopped; `begun` is where the thing began that it was reading. All 0-based."""

    def __init__(self, lines: list[str], line: int, column: int, begun_line: int, begun_column: int) -> None:
        self._lines = lines
        self._line = line
        self._column = column
        self._begun = begun_line, begun_column

    def slip(self, problem: str) -> Slip:
        here = self._text(self._line)
        if "\t" in here[: max(self._column, 1)] + here[self._column : self._column + 1]:
            return self._here("a tab stands here; YAML is indented with spaces only")
        if _BRACED_RANGE.match(here, self._column):
            return self._here(
                "within brackets, YAML takes these braces for a table of their own; write the series without them: cam-1..4"
            )
        by_problem = {
            "mapping values are not allowed in this context": self._colon,
            "could not find expected ':'": self._no_colon,
            "did not find expected ',' or '}'": self._in_brackets,
            "did not find expected ',' or ']'": self._in_brackets,
            "found unexpected end of stream": self._open_quote,
            "did not find expected key": self._no_key,
            "did not find expected '-' indicator": self._no_dash,
            "found character that cannot start any token": self._odd_start,
        }
        found = by_problem.get(problem)
        slip = found() if found is not None else None
        return slip or self._here(_PLAIN_WORDS.get(problem, problem))

    def _text(self, line: int) -> str:
        return self._lines[line] if 0 <= line < len(self._lines) else ""

    def _here(self, message: str) -> Slip:
        return Slip(message, self._line + 1, self._column + 1)

    def _above(self, line: int) -> int:
        """The last line above that holds anything; -1 for none."""
        while line > 0:
            line -= 1
            bare = self._text(line).strip()
            if bare and not bare.startswith("#"):
                return line
        return -1

    def _glued(self, line: int) -> Slip | None:
        """`key:value`, which is one text to YAML."""
        found = _GLUED.match(self._text(line))
        if found is None:
            return None
        start, key, rest = found.groups()
        rest = rest.rstrip()
        message = f"a space is missing after the colon of '{clip(key)}:'"
        return Slip(message, line + 1, len(start) + 1, len(key) + 1 + len(rest), f"{key}: {rest}")

    def _colon(self) -> Slip | None:
        above = self._above(self._line)
        glued = self._glued(self._line) or self._glued(above)
        if glued is not None:
            return glued
        second = _SECOND_COLON.match(self._text(self._line))
        if second is not None and self._column >= len(second[1]):
            whole = second[2].rstrip()
            quoted = '"' + whole.replace("\\", "\\\\").replace('"', '\\"') + '"'
            message = "a second colon stands in this text; put the text in quotes"
            return Slip(message, self._line + 1, len(second[1]) + 1, len(whole), quoted)
        if above >= 0 and self._indent(self._line) > self._indent(above):
            message = f"this line is indented further than line {above + 1} above it, which has its value already; give both the same indent"
            return Slip(message, self._line + 1, self._indent(self._line) + 1)
        return None

    def _no_colon(self) -> Slip | None:
        line, column = self._begun
        glued = self._glued(line)
        if glued is not None:
            return glued
        word = _BARE_WORD.match(self._text(line))
        if word is not None:
            message = f"a colon is missing after '{clip(word[1])}'"
            return Slip(message, line + 1, word.start(1) + 1, len(word[1]), f"{word[1]}:")
        above = self._above(line)
        if self._text(line)[column : column + 1] in ("{", "[") and self._text(above).lstrip().startswith(
            "- "
        ):
            message = "a dash is missing: each item of a list begins with '- '"
            return Slip(message, line + 1, column + 1, 1, f"- {self._text(line)[column]}")
        return None

    def _in_brackets(self) -> Slip | None:
        line, column = self._begun
        opened = self._text(line)[column : column + 1]
        if opened not in ("{", "["):
            return None
        name, closing = ("brace", "}") if opened == "{" else ("bracket", "]")
        stopped = self._text(self._line)[self._column : self._column + 1]
        if line == self._line and stopped in ("}", "]"):
            message = f"the {name} '{opened}' is closed by '{stopped}'; write '{closing}' before it"
            return Slip(message, line + 1, self._column + 1, 1, closing + stopped)
        comment = self._text(line).find(" #", column)
        if comment >= 0 and closing in self._text(line)[comment:]:
            message = (
                f"'#' after a space begins a comment, so the {name} is never closed; put the text in quotes"
            )
            return Slip(message, line + 1, comment + 2)
        if line == self._line:
            return self._here("a comma is missing here, between two entries of one table")
        message = f"this {name} '{opened}' is never closed; write '{closing}' at the end of its entry"
        return Slip(message, line + 1, column + 1)

    def _open_quote(self) -> Slip:
        line, column = self._begun
        return self._quote_at(line) or Slip("this quote is opened and never closed", line + 1, column + 1)

    def _quote_at(self, line: int) -> Slip | None:
        found = _OPEN_QUOTE.match(self._text(line))
        if found is None:
            return None
        start, quote, rest = found.groups()
        if quote == "'" and re.search(r"\w'\w", rest):
            message = "the apostrophe within ends this quote; put the text in double quotes"
            return Slip(message, line + 1, len(start) + 1)
        if rest.count(quote) % 2 == 0:
            return Slip("this quote is opened and never closed", line + 1, len(start) + 1)
        return None

    def _no_key(self) -> Slip | None:
        for line in range(self._line, -1, -1):
            slip = self._quote_at(line)
            if slip is not None:
                return slip
        for line in (self._line, self._above(self._line)):
            blank = self._text(line)[: self._indent(line)].find("\u00a0")
            if blank >= 0:
                return Slip(
                    "a no-break space stands here; indent with plain spaces", line + 1, blank + 1, 1, " "
                )
        here = self._text(self._line)
        glued = _GLUED_DASH.match(here) or self._glued(self._line)
        if isinstance(glued, Slip):
            return glued
        if _INDENT.fullmatch(here[: self._column]):
            return self._ragged("key")
        return None

    def _no_dash(self) -> Slip | None:
        glued = _GLUED_DASH.match(self._text(self._line))
        if glued is not None:
            start, rest = glued.groups()
            message = "a space is missing after the dash"
            return Slip(message, self._line + 1, len(start) + 1, 2, f"- {rest[0]}")
        return self._ragged("item")

    def _ragged(self, what: str) -> Slip | None:
        """A line whose indent is that of no line above that it could belong with."""
        mine = self._indent(self._line)
        wider = sorted({each for each in self._open_indents() if each > mine})
        narrower = sorted({each for each in self._open_indents() if each < mine})
        fitting = [*narrower[-1:], *wider[:1]]
        if mine == 0 and not fitting:
            return None
        wanted = " or ".join(map(str, fitting)) or "0"
        what = "item" if self._text(self._line).lstrip().startswith("- ") else what
        message = f"this {what} is indented by {mine} space{'' if mine == 1 else 's'}, and those above it by {wanted}"
        return Slip(message, self._line + 1, mine + 1)

    def _open_indents(self) -> set[int]:
        found: set[int] = set()
        least = 1 << 30
        line = self._above(self._line)
        while line >= 0 and least > 0:
            indent = self._indent(line)
            if indent < least:
                found.add(indent)
                least = indent
            line = self._above(line)
        return found

    def _indent(self, line: int) -> int:
        found = _INDENT.match(self._text(line))
        return 0 if found is None else found.end()

    def _odd_start(self) -> Slip | None:
        found = _PLAIN.match(self._text(self._line), self._column)
        if found is None:
            return None
        whole = found[0].rstrip()
        message = f"no text can begin with '{clip(whole[0])}'; put it in quotes"
        return Slip(
            message, self._line + 1, self._column + 1, len(whole), f'"{whole}"' if '"' not in whole else None
        )


# What libyaml counts as the end of a line; other counts would look at the wrong one.
_LINE_END = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
# Libyaml's own words, where the lines around say nothing more.
_PLAIN_WORDS = {
    "mapping values are not allowed in this context": "a colon stands where no key can begin; quote the text, or mend the indent",
    "could not find expected ':'": "a colon is missing after a key, here or on the line above",
    "did not find expected key": "a key was expected here; the indent or a quote above may be off",
    "did not find expected '-' indicator": "a list item that begins with '-' was expected here",
    "found unexpected end of stream": "the text ends before a quote that was opened is closed",
    "exceeded maximum nesting depth": "values nest far deeper than 64 levels here",
    "found undefined alias": "this alias (*name) has no anchor (&name) above it",
    "found character that cannot start any token": "no value can begin with this character; put the text in quotes",
}
