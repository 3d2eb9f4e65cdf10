"""What was said about a seeded fault: the findings that the plan did not have before, and whether one of them names the fault."""

from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from firstfix.finding.model import Finding, Level, Report, Undetermined
from firstfix.pipeline import compile_plan
from repo.editing import LANGUAGE_PLANS, PLANS_OF_ONE_FILE
from seeded.kind import Kind, Seeded

TEXTS = {path.stem: path.read_text("utf-8") for path in (*PLANS_OF_ONE_FILE, *LANGUAGE_PLANS)}


class Said(NamedTuple):
    """One verdict: where it stands and what else it points at, by line."""

    rule: str
    level: str
    lines: frozenset[int]
    text: str

    def __str__(self) -> str:
        return f"{self.level} {self.rule} at {sorted(self.lines)}: {self.text}"


def checked(text: str, folder: Path) -> Report:
    path = folder / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    return compile_plan(path, "plan.yaml", change=None).report


def new_verdicts(before: Report, after: Report) -> list[Said]:
    """What the second report says and the first does not; lines may have moved."""
    known = Counter(_key(each) for each in _verdicts(before))
    fresh: list[Said] = []
    for each in _verdicts(after):
        if known[_key(each)] > 0:
            known[_key(each)] -= 1
        else:
            fresh.append(each)
    return fresh


def _key(said: Said) -> tuple[str, str, str]:
    return (said.rule, said.level, said.text)


def _verdicts(report: Report) -> Iterable[Said]:
    both: tuple[Finding | Undetermined, ...] = (*report.findings, *report.undetermined)
    yield from map(_said, both)


def _said(each: Finding | Undetermined) -> Said:
    if isinstance(each, Finding):
        labels, level, text = each.related, str(each.level), each.message
    else:
        labels, level, text = each.missing, "cannot tell", ", ".join(label.text for label in each.missing)
    spans = [span for span in (each.primary, *(label.span for label in labels)) if span is not None]
    return Said(each.rule, level, frozenset(span.line for span in spans), text)


def complaint(kind: Kind, fault: Seeded, said: list[Said]) -> str:
    """What is wrong with what was said about the fault; empty if it is named as it should be."""
    named = [each for each in said if each.rule in kind.rules and each.level in kind.levels]
    heard = "\n  ".join(map(str, said)) or "nothing"
    where = f"{kind.name} in {fault.plan}, lines {sorted(fault.lines)}; said:\n  {heard}"
    if not named:
        return f"no {' or '.join(kind.levels)} of {' or '.join(kind.rules)}: {where}"
    if not any(each.lines & fault.lines for each in named):
        return f"named at another line: {where}"
    loud = [each for each in said if each.level in (Level.ERROR, Level.WARNING)]
    if len(loud) > kind.most:
        return f"{len(loud)} findings for one fault: {where}"
    return ""
