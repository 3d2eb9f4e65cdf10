"""A report as text for people: calm, complete without colour, never more than a dozen lines for one finding.

Takes a report and the texts of the plan's files; gives one string that ends in a line break. Prints nothing.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple, TypeVar

from firstfix.finding.excerpt import Excerpts
from firstfix.finding.figures import measured, summands
from firstfix.finding.fit import cut, visible, wrapped
from firstfix.finding.model import Accepted, Cure, Finding, Label, Level, Measurement, Report, Undetermined
from firstfix.span import Span

WIDTH = 110
MOST_IN_FULL = 200
# Bytes after which the rest is only counted: two hundred findings of full length, with their excerpts, are more than a terminal keeps.
_MOST_BYTES = 90_000
_MOST_TERMS = 3
_MOST_CURES = 2
# Further places fill a finding up to this many lines; two are always shown.
_MOST_LINES = 12
_INDENT = "  "

_Thing = TypeVar("_Thing")
# The one way to everything that is left out here.
_ALL_OF_THEM = "`--format json` has all"


class Palette(NamedTuple):
    """What is written before a word of each meaning, and after it. Colour decorates; the words say it all."""

    error: str = ""
    warning: str = ""
    note: str = ""
    cannot_tell: str = ""
    accepted: str = ""
    place: str = ""
    quiet: str = ""
    end: str = ""


PLAIN = Palette()
# Select graphic rendition, ECMA-48 (fifth edition) 8.3.117.
COLOURED = Palette(
    "\x1b[1;31m", "\x1b[33m", "\x1b[36m", "\x1b[35m", "\x1b[2m", "\x1b[1m", "\x1b[2m", "\x1b[0m"
)


def render_text(report: Report, texts: Mapping[str, str], palette: Palette = PLAIN) -> str:
    """Findings, worst first, then what could not be told, then one line of counts."""
    page = _Page(Excerpts(texts), palette)
    blocks: list[list[str]] = []
    _in_full(blocks, report.findings, page.finding, "findings")
    # What only waits for a fault is folded; without a fault there is nothing that it could wait for.
    may_wait = report.has_errors
    waiting = [each for each in report.undetermined if each.waits and may_wait]
    untold = [each for each in report.undetermined if not (each.waits and may_wait)]
    _in_full(blocks, untold, page.undetermined, "that could not be told")
    blocks += [page.waiting(waiting)] if waiting else []
    _in_full(blocks, report.accepted, page.accepted, "exceptions")
    blocks.append([counts_line(report)])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def render_entries(
    findings: Sequence[Finding],
    undetermined: Sequence[Undetermined],
    texts: Mapping[str, str],
    palette: Palette = PLAIN,
) -> str:
    """Some of a report's entries as they stand in it, without its counts; "" for none."""
    page = _Page(Excerpts(texts), palette)
    blocks: list[list[str]] = []
    _in_full(blocks, findings, page.finding, "findings")
    _in_full(blocks, undetermined, page.undetermined, "that could not be told")
    return "\n\n".join("\n".join(block) for block in blocks)


def _in_full(
    blocks: list[list[str]], things: Sequence[_Thing], show: Callable[[_Thing], list[str]], what: str
) -> None:
    """Adds a block for each thing while there is room, and then how many are left out."""
    size = sum(_size(block) for block in blocks)
    for number, thing in enumerate(things):
        if number == MOST_IN_FULL or size > _MOST_BYTES:
            blocks.append([f"and {len(things) - number} more {what}; {_ALL_OF_THEM}"])
            return
        blocks.append(show(thing))
        size += _size(blocks[-1])


def _size(block: list[str]) -> int:
    return sum(len(line.encode()) + 1 for line in block) + 1


def counts_line(report: Report) -> str:
    """In one line: "1 error, no warnings, no notes, 2 cannot tell; 9 rules examined 4 subjects"."""
    counted = [_some(report.count(level), level.value) for level in Level]
    counted.append(f"{len(report.undetermined) or 'none'} cannot tell")
    if report.accepted:
        counted.append(f"{len(report.accepted)} accepted")
    return f"{', '.join(counted)}; {_examined(report)}"


def _examined(report: Report) -> str:
    looked = [count for count in report.examined.values() if count]
    if not report.examined:
        return "no rule was run"
    if not looked:
        return f"{_some(len(report.examined), 'rule')} found nothing to examine"
    idle = len(report.examined) - len(looked)
    had_none = f" ({idle} had none to examine)" if idle else ""
    return f"{_some(len(report.examined), 'rule')} examined {_some(sum(looked), 'subject')}{had_none}"


def _some(count: int, noun: str) -> str:
    return f"{count or 'no'} {noun}{'' if count == 1 else 's'}"


class _Page:
    """Lays out one entry after the other; what they share is the texts, the palette and the width."""

    def __init__(self, excerpts: Excerpts, palette: Palette) -> None:
        self._excerpts = excerpts
        self._palette = palette

    def finding(self, finding: Finding) -> list[str]:
        lines = [self._head(finding.primary, finding.subject, finding.level.value, finding.rule)]
        lines += self._paragraph("", finding.message, 2)
        lines += self._excerpt(finding.primary)
        if finding.measurement is not None:
            lines += self._measurement(finding.measurement, finding.rule)
        closing = [
            *self._paragraph("because: ", str(finding.basis), 1),
            *self._cures(finding.cures, finding.rule),
        ]
        most = max(2, _MOST_LINES - len(lines) - len(closing))
        lines += self._places(finding.related, most, finding.rule)
        return lines + closing

    def undetermined(self, entry: Undetermined) -> list[str]:
        lines = [self._head(entry.primary, entry.subject, "cannot tell", entry.rule)]
        lines += self._paragraph("", f"{entry.subject or 'this'} was not judged; what is missing:", 1)
        lines += self._places(entry.missing, 8, entry.rule)
        return lines

    def waiting(self, entries: Sequence[Undetermined]) -> list[str]:
        """In one paragraph, what can be told once the faults above are mended: how much, and by which rules."""
        count = len(entries)
        by_rule = Counter(each.rule for each in entries)
        rules = ", ".join(f"{rule} {number}" for rule, number in sorted(by_rule.items()))
        verb = "judgement waits" if count == 1 else "judgements wait"
        words = self._palette
        lines = wrapped(f"{count} {verb} for the faults above to be mended: {rules}", WIDTH - 4, 4)
        lines[0] = f"{words.cannot_tell}cannot tell{words.end}  {lines[0]}"
        return lines

    def accepted(self, entry: Accepted) -> list[str]:
        lines = [self._head(entry.at, entry.verdict.subject, "accepted", entry.verdict.rule)]
        lines += self._paragraph("", f"{entry.level}: {entry.message}", 2)
        lines += self._paragraph("reason: ", entry.reason, 3)
        return lines

    def _head(self, at: Span | None, subject: str, word: str, rule: str) -> str:
        palette = self._palette
        colour = getattr(palette, word.replace(" ", "_"))
        place = _place(at, WIDTH - 4 - len(word) - len(rule)) if at else cut(subject or "the whole plan", 70)
        return f"{palette.place}{place}{palette.end}  {colour}{word}{palette.end}  {rule}"

    def _paragraph(self, opening: str, text: str, most_lines: int) -> list[str]:
        hanging = _INDENT + " " * len(opening)
        lines = wrapped(text, WIDTH - len(hanging), most_lines)
        return [(hanging if number else _INDENT + opening) + line for number, line in enumerate(lines)]

    def _excerpt(self, at: Span | None) -> list[str]:
        if at is None:
            return []
        number = f"{at.line:>7}"
        found = self._excerpts.at(at, WIDTH - len(number) - 2)
        if found is None:
            return []
        quiet, end = self._palette.quiet, self._palette.end
        gap = " " * (len(number) + 2 + found.before)
        return [f"{quiet}{number}{end}  {found.line}", f"{gap}{'^' * found.marks}"]

    def _measurement(self, measurement: Measurement, rule: str) -> list[str]:
        lines = self._paragraph("", measured(measurement), 1)
        shown = summands(measurement, _MOST_TERMS)
        width = max((len(amount) for amount, _ in shown), default=0)
        for number, (amount, what) in enumerate(shown):
            sign = "+" if number else "="
            lines.append(cut(f"{_INDENT * 2}{sign} {amount:>{width}}  {what}", WIDTH))
        if len(measurement.terms) > _MOST_TERMS:
            lines[-1] += _all_by(rule)
        return lines

    def _places(self, labels: tuple[Label, ...], most: int, rule: str) -> Iterator[str]:
        shown = labels if len(labels) <= most else labels[: most - 1]
        for label in shown:
            place = f"see {_place(label.span, WIDTH // 2)}: " if label.span else ""
            yield cut(f"{_INDENT * 2}{place}{label.text}", WIDTH)
        if len(shown) < len(labels):
            yield f"{_INDENT * 2}and {len(labels) - len(shown)} more places{_all_by(rule)}"

    def _cures(self, cures: tuple[Cure, ...], rule: str) -> Iterator[str]:
        shown = cures if len(cures) <= _MOST_CURES else cures[: _MOST_CURES - 1]
        for cure in shown:
            yield from self._paragraph("cure: ", cure.title, 2)
        if len(shown) < len(cures):
            yield f"{_INDENT}and {len(cures) - len(shown)} more cures{_all_by(rule)}"


def _all_by(rule: str) -> str:
    return f"; `--why {rule}` shows all"


def _place(span: Span, width: int) -> str:
    """`file:line:column`; of a file name that is too long, the end is kept."""
    numbers = f":{span.line}:{span.column}"
    room = width - len(numbers)
    file = visible(span.file[-room - 1 :])
    return (file if len(file) <= room else "…" + file[1 - room :]) + numbers
