"""Findings of one kind with nothing left out, so that an installer can redo each figure by hand.

Takes a report and the texts of the plan's files; gives one string that ends in a line break. Prints nothing. Every term stands with its
source, every place and every cure is listed, and the reckoning stands in one line.
"""

from collections.abc import Iterable, Iterator, Mapping

from firstfix.finding.excerpt import Excerpts
from firstfix.finding.figures import adds_up, digits_for, formula, quantity
from firstfix.finding.fit import cells, wrapped
from firstfix.finding.model import Accepted, Finding, Label, Measurement, Report, Undetermined
from firstfix.span import Span

_WIDTH = 110
# Nothing is left out on purpose; what a plan's text makes longer than this was never meant to be read.
_MOST_LINES = 40


def render_in_full(report: Report, texts: Mapping[str, str]) -> str:
    """Findings, then what could not be told, then what the plan accepts; an empty report gives an empty text."""
    excerpts = Excerpts(texts)
    blocks = [_finding(each, excerpts) for each in report.findings]
    blocks += [_undetermined(each) for each in report.undetermined]
    blocks += [_accepted(each) for each in report.accepted]
    return "\n".join("".join(f"{line}\n" for line in block) for block in blocks)


def _finding(finding: Finding, excerpts: Excerpts) -> Iterator[str]:
    yield from _head(finding.primary, finding.subject, finding.level.value, finding.rule)
    yield from _fitted(finding.message, "  ")
    yield from _excerpt(finding.primary, excerpts)
    if finding.measurement is not None:
        yield from _measurement(finding.measurement, str(finding.basis))
    yield from _listed("what belongs to it", _labels(finding.related))
    yield from _fitted(str(finding.basis), "  because: ")
    yield from _listed("what cures it", (cure.title for cure in finding.cures))


def _undetermined(entry: Undetermined) -> Iterator[str]:
    yield from _head(entry.primary, entry.subject, "cannot tell", entry.rule)
    yield from _listed("what is missing", _labels(entry.missing))
    if entry.waits:
        yield "  it waits for a fault that has a finding of its own; mend that, and the rule can tell"


def _accepted(entry: Accepted) -> Iterator[str]:
    yield from _head(entry.at, entry.verdict.subject, "accepted", entry.verdict.rule)
    yield from _fitted(f"{entry.level}: {entry.message}", "  ")
    if isinstance(entry.verdict, Finding) and entry.verdict.measurement is not None:
        yield from _measurement(entry.verdict.measurement, str(entry.verdict.basis))
    yield from _fitted(entry.reason, "  reason: ")


def _head(at: Span | None, subject: str, word: str, rule: str) -> Iterator[str]:
    yield from _fitted(f"{word}  {rule}  {subject or 'the whole plan'}", "", "    ")
    if at is not None:
        yield from _fitted(f"at {at}", "  ")


def _excerpt(at: Span | None, excerpts: Excerpts) -> Iterator[str]:
    if at is None:
        return
    number = f"{at.line:>7}"
    found = excerpts.at(at, _WIDTH - len(number) - 2)
    if found is not None:
        yield f"{number}  {found.line}"
        yield " " * (len(number) + 2 + found.before) + "^" * found.marks


def _measurement(measurement: Measurement, basis: str) -> Iterator[str]:
    """The terms under each other, each with its source below it; then the sum, the limit with its source, and all in one line."""
    digits, unit = digits_for(measurement), measurement.unit
    amounts = [quantity(term.value, unit, digits) for term in measurement.terms]
    figure = quantity(measurement.figure, unit, digits)
    limit = quantity(measurement.limit, unit, digits)
    width = max(cells(each) for each in (*amounts, figure))
    yield ""
    yield from _fitted(f"{measurement.what}:", "  ")
    for number, (amount, term) in enumerate(zip(amounts, measurement.terms, strict=True)):
        opening = f"    {'+' if number else ' '} {amount:>{width}}  "
        yield from _fitted(term.what, opening)
        yield from _fitted(term.source, " " * (cells(opening) + 2)) if term.source else ()
    yield f"    {'=' if adds_up(measurement, digits) else '≈'} {figure:>{width}}"
    yield from _fitted(f"{measurement.relation} {limit}: {measurement.limit_source or basis}", "  ")
    yield from _fitted(formula(measurement), "  in one line: ", "    ")
    yield ""


def _labels(labels: Iterable[Label]) -> Iterator[str]:
    return (f"{label.span}: {label.text}" if label.span else label.text for label in labels)


def _listed(title: str, texts: Iterable[str]) -> Iterator[str]:
    lines = list(texts)
    if lines:
        yield f"  {title}:"
    for line in lines:
        yield from _fitted(line, "    - ")


def _fitted(text: str, opening: str, below: str = "") -> Iterator[str]:
    """`text` after `opening`, broken under itself."""
    indent = below or " " * cells(opening)
    first, *rest = wrapped(text, _WIDTH - max(cells(opening), cells(indent)), _MOST_LINES) or [""]
    yield (opening + first).rstrip()
    yield from (indent + each for each in rest)
