"""What the rules say of the new plan and did not say of the old one, no longer say, or say with another margin.

Takes two reports and the names that things bear; gives verdicts in pairs, known again by rule and by the thing they are about.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from firstfix.build.renames import renamed
from firstfix.finding.model import Finding, Measurement, Report, Undetermined

CANNOT_TELL = "cannot tell"
ACCEPTED = "accepted"
APPEARS, VANISHES, TURNS = "appears", "vanishes", "changes"


class Verdict(NamedTuple):
    """`level` is that of the finding, "accepted" where the plan makes an exception, or "cannot tell"."""

    rule: str
    subject: str
    level: str
    message: str
    measurement: Measurement | None


class VerdictChange(NamedTuple):
    """`how` it changes. What appears has no `old`, what vanishes no `new`."""

    how: str
    old: Verdict | None
    new: Verdict | None

    @property
    def verdict(self) -> Verdict:
        """The one that there is, the new one first."""
        found = self.new or self.old
        assert found is not None
        return found


def verdict_changes(old: Report, new: Report, names: Mapping[str, str]) -> tuple[VerdictChange, ...]:
    """By rule, then by subject in the new names; what is said in other words only is no change."""
    before, after = _grouped(old, names), _grouped(new, {})
    found: list[VerdictChange] = []
    for key in sorted(before.keys() | after.keys()):
        found += _paired(before.get(key, []), after.get(key, []))
    return tuple(found)


def _paired(before: list[Verdict], after: list[Verdict]) -> Iterator[VerdictChange]:
    """Those that are alike stand for each other first, then one after the other."""
    left = list(before)
    fresh = []
    for verdict in after:
        same = next((each for each in left if _weight(each) == _weight(verdict)), None)
        if same is None:
            fresh.append(verdict)
        else:
            left.remove(same)
    for was, now in zip(left, fresh, strict=False):
        yield VerdictChange(TURNS, was, now)
    yield from (VerdictChange(VANISHES, each, None) for each in left[len(fresh) :])
    yield from (VerdictChange(APPEARS, None, each) for each in fresh[len(left) :])


def _weight(verdict: Verdict) -> tuple[str, float | None, float | None]:
    """What of a verdict counts. Sums of measured figures differ in their last bits by the order of their terms."""
    measured = verdict.measurement
    if measured is None:
        return (verdict.level, None, None)
    return (verdict.level, round(measured.figure, 6), round(measured.limit, 6))


def _grouped(report: Report, names: Mapping[str, str]) -> dict[tuple[str, str], list[Verdict]]:
    found: defaultdict[tuple[str, str], list[Verdict]] = defaultdict(list)
    for verdict in _verdicts(report):
        found[verdict.rule, renamed(verdict.subject, names)].append(verdict)
    return {key: sorted(group, key=lambda each: (each.level, each.message)) for key, group in found.items()}


def _verdicts(report: Report) -> Iterator[Verdict]:
    yield from map(_verdict, report.findings)
    yield from map(_verdict, report.undetermined)
    for each in report.accepted:
        yield _verdict(each.verdict)._replace(level=ACCEPTED)


def _verdict(each: Finding | Undetermined) -> Verdict:
    if isinstance(each, Undetermined):
        missing = "; ".join(label.text for label in each.missing)
        return Verdict(each.rule, each.subject, CANNOT_TELL, f"not known: {missing}", None)
    return Verdict(each.rule, each.subject, each.level.value, each.message, each.measurement)
