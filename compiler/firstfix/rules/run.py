"""All rules over one build, and the count of what each examined."""

from collections import Counter
from dataclasses import dataclass

from firstfix.build.model import Build
from firstfix.finding.model import Finding, Undetermined
from firstfix.rules.registry import ALL_RULES
from firstfix.rules.rule import FineMany, Rule


@dataclass(frozen=True, slots=True)
class Outcomes:
    findings: tuple[Finding, ...]
    undetermined: tuple[Undetermined, ...]
    examined: dict[str, int]


def together(first: Outcomes, second: Outcomes) -> Outcomes:
    """Of other rules over the same build."""
    return Outcomes(
        first.findings + second.findings,
        first.undetermined + second.undetermined,
        first.examined | second.examined,
    )


def examine(build: Build, rules: tuple[Rule, ...] = ALL_RULES) -> Outcomes:
    """Findings and cannot-tells in the rules' order; `examined` counts distinct subjects, also for rules that found none."""
    findings: list[Finding] = []
    undetermined: list[Undetermined] = []
    examined: Counter[str] = Counter()
    for rule in rules:
        subjects: set[str] = set()
        many = 0
        for outcome in rule.check(build):
            if isinstance(outcome, FineMany):
                many += outcome.count
                continue
            subjects.add(outcome.subject)
            if isinstance(outcome, Finding):
                findings.append(outcome)
            elif isinstance(outcome, Undetermined):
                undetermined.append(outcome)
        examined[rule.kind.id] = len(subjects) + many
    return Outcomes(tuple(findings), tuple(undetermined), dict(examined))
