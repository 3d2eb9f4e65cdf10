"""`--why NAME`: explanations as text in columns, or as JSON."""

import json
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from firstfix.cli.streams import put
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cells, cut, wrapped
from firstfix.span import Span

if TYPE_CHECKING:
    from firstfix.build.model import Build
    from firstfix.explaining.model import Explanation, Line, Section

_WIDTH = 110
_MOST_OTHERS = 12
_WIDEST_NAME = 40
# Names and values together; what is longer has its source on a line of its own.
_LONGEST_OPENING = 66
_MOST_LINES = 4


def show_why(build: "Build", name: str, form: str) -> None:
    from firstfix.explaining.explain import explain, near

    if form == "sarif":
        raise TroubleError("decisions are no findings, so they have no SARIF; take --format json")
    found = explain(build, name)
    if not found:
        meant = near(build, name)
        hint = f"; did you mean '{cut(meant, 60)}'?" if meant else _of_steps(name)
        raise TroubleError(f"nothing in the plan is called '{cut(name, 60)}'{hint}")
    if form == "json":
        put(json.dumps([why_data(each) for each in found], indent=2, ensure_ascii=False) + "\n")
    else:
        put(why_text(found))


def _of_steps(name: str) -> str:
    """Steps have numbers in the checklist, and these change with the plan."""
    word = name.removeprefix("step").strip(" :.")
    if not (word.isascii() and word.isdigit()):
        return ""
    return "; a step goes by its id, which follows its words in the checklist, as in 'fit:device/core'"


def why_text(explanations: "Iterable[Explanation]") -> str:
    return "\n".join("".join(f"{line}\n" for line in _page(each)) for each in explanations)


def why_data(explanation: "Explanation") -> dict[str, Any]:
    return {
        "id": explanation.id,
        "kind": explanation.kind,
        "title": explanation.title,
        "at": _place(explanation.at),
        "sections": [
            {"title": section.title, "lines": [_line_data(line) for line in section.lines]}
            for section in explanation.sections
        ],
    }


def _line_data(line: "Line") -> dict[str, Any]:
    return {
        "what": line.what.strip(),
        "value": line.value,
        "origin": line.origin,
        "why": line.why,
        "at": _place(line.at),
        "not_taken": list(line.others),
    }


def _place(span: Span | None) -> dict[str, Any] | None:
    return None if span is None else {"file": span.file, "line": span.line, "column": span.column}


def _page(explanation: "Explanation") -> Iterator[str]:
    yield from _fitted(f"{explanation.kind} {explanation.title}", "", "    ")
    if explanation.at is not None:
        yield from _fitted(f"written at {explanation.at}", "    ")
    for section in explanation.sections:
        yield ""
        yield cut(section.title, _WIDTH)
        yield from _section(section)


def _section(section: "Section") -> Iterator[str]:
    """Names, values and sources in columns; what is too long for its column goes on below."""
    names = min(max(cells(line.what) for line in section.lines), _WIDEST_NAME)
    values = min(max(cells(line.value) for line in section.lines), _LONGEST_OPENING - names)
    for line in section.lines:
        opening = "  " + _padded(cut(line.what, names), names) + "  "
        source = _source(line)
        if cells(line.value) <= values and source:
            yield from _fitted(source, opening + _padded(cut(line.value, values), values) + "  ")
        else:
            yield from _fitted(line.value, opening)
            if source:
                yield from _fitted(source, " " * (cells(opening) + 2))
        if line.others:
            more = len(line.others) - _MOST_OTHERS
            and_more = f"; and {more} more" if more > 0 else ""
            text = f"also possible: {'; '.join(line.others[:_MOST_OTHERS])}{and_more}"
            yield from _fitted(text, " " * (cells(opening) + 2))


def _source(line: "Line") -> str:
    """`written, plan.yaml:12:3` or `worked out: the lowest free jack`"""
    at = f" at {line.at}" if line.at is not None else ""
    origin = line.origin + at if line.origin else at.removeprefix(" at ")
    return ": ".join(filter(None, (origin, line.why)))


def _padded(text: str, width: int) -> str:
    return text + " " * (width - cells(text))


def _fitted(text: str, opening: str, below: str = "") -> Iterator[str]:
    """`text` after `opening`, broken under itself."""
    indent = below or " " * cells(opening)
    first, *rest = wrapped(text, _WIDTH - max(cells(opening), cells(indent)), _MOST_LINES) or [""]
    yield (opening + first).rstrip()
    yield from (indent + each for each in rest)
