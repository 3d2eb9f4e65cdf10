"""What is wrong with a grown plan and was not before: new verdicts, and old ones that got worse.

A copy may have what the thing that it copies has already (a cable between two earths that an electrician saw to, say): that is no limit.
Money is none either, nor are notes. What cannot be told with one more, and could be told before, is a limit: nobody knows that it fits.
"""

import re
from collections.abc import Iterator, Mapping

from firstfix.finding.model import Finding, Level, Report, Undetermined
from firstfix.growth.model import Trouble
from firstfix.growth.more import original

CANNOT_TELL = "cannot tell"
_Key = tuple[str, str, str]
# Verdicts (rule, subject, level) to their margins.
Before = Mapping[_Key, float]
# Of money the lifting tells; in which order phases and work come is no matter of room.
_NO_LIMITS = frozenset({"phase-budget", "phase-order", "label-clash"})
_DUST = 1e-9
_ORDER = {Level.ERROR.value: 0, Level.WARNING.value: 1, CANNOT_TELL: 2}


def before(report: Report, mark: str) -> Before:
    """Each verdict with its margin; an accepted one may get any worse."""
    found = {
        (each.rule, original(each.subject, mark), each.level.value): _margin(each) for each in report.findings
    }
    found |= {_untold(each, mark): float("-inf") for each in report.undetermined}
    for accepted in report.accepted:
        verdict = accepted.verdict
        level = verdict.level.value if isinstance(verdict, Finding) else CANNOT_TELL
        found[verdict.rule, original(verdict.subject, mark), level] = float("-inf")
    return found


def troubles(report: Report, known: Before, mark: str) -> tuple[Trouble, ...]:
    """The worst first; each rule's once for each thing that copies have in common."""
    found: dict[_Key, Trouble] = {}
    for key, trouble, margin in _verdicts(report, mark):
        is_worse = key in known and margin < known[key] - _DUST and mark not in trouble.subject
        # What was an error and is a warning now got better.
        is_new = key not in known and (key[0], key[1], Level.ERROR.value) not in known
        if is_new or is_worse:
            found.setdefault(key, _told(trouble, mark))
    return tuple(sorted(found.values(), key=lambda each: (_ORDER[each.level], each.rule, each.subject)))


def _verdicts(report: Report, mark: str) -> Iterator[tuple[_Key, Trouble, float]]:
    for each in report.findings:
        if each.level is not Level.NOTE and each.rule not in _NO_LIMITS:
            key = (each.rule, original(each.subject, mark), each.level.value)
            yield key, Trouble(each.rule, each.subject, each.level.value, each.message), _margin(each)
    for open_ in report.undetermined:
        if not open_.waits and open_.rule not in _NO_LIMITS:
            missing = "; ".join(label.text for label in open_.missing)
            yield (
                _untold(open_, mark),
                Trouble(open_.rule, open_.subject, CANNOT_TELL, missing),
                float("-inf"),
            )


def _told(trouble: Trouble, mark: str) -> Trouble:
    """With the names that copies copy; a copy that stands by itself in a sentence is a further one."""
    message = re.sub(rf"'((?:(?!--)[^' ])+?){re.escape(mark)}[0-9]+'", r"a further '\1'", trouble.message)
    message = re.sub(rf"{re.escape(mark)}[0-9]+", "", message)
    return trouble._replace(subject=original(trouble.subject, mark), message=message)


def _untold(each: Undetermined, mark: str) -> _Key:
    return each.rule, original(each.subject, mark), CANNOT_TELL


def _margin(finding: Finding) -> float:
    return finding.measurement.margin if finding.measurement is not None else float("-inf")


def doubts(report: Report, touched: frozenset[str], mark: str) -> tuple[Trouble, ...]:
    """What cannot be told, before as after, of the things that more of them would take from, and of the copies themselves."""
    found = {
        key: trouble
        for key, trouble, _ in _verdicts(report, mark)
        if trouble.level == CANNOT_TELL and (trouble.subject in touched or mark in trouble.subject)
    }
    return tuple(_told(found[key], mark) for key in sorted(found))
