"""Exceptions: which verdicts the author accepts, and which exceptions match nothing.

Takes what the rules found and the plan's exceptions; gives the outcomes that remain, and the accepted ones with their reasons.
A plan's own faults (an unknown name, a jack there is not) can't be accepted: what they are about was left out of the build.
"""

from collections.abc import Container, Sequence

from firstfix.build import ids
from firstfix.finding.kinds import warning
from firstfix.finding.model import Accepted, Exemption, Finding, Undetermined
from firstfix.rules.registry import ALL_RULES
from firstfix.rules.run import Outcomes
from firstfix.rules.spending_kinds import SPENDING_KINDS
from firstfix.rules.unsettled import RULES as OF_THE_TEXT
from firstfix.rules.work_kinds import WORK_KINDS
from firstfix.source.nearest import did_you_mean, nearest
from firstfix.source.node import clip

EXCEPTION_UNMATCHED = warning(
    "exception-unmatched",
    """An exception matches a verdict of the rule that it names.

    Because: an exception that outlived its cause would hide the next fault at the same place, and nobody would know.
    Compares: each entry of `exceptions:` with the findings and cannot-tells of that rule about that subject.
    Skips: faults of the plan's own text; they can't be accepted.
    Remedy: remove the entry, or name the rule and the subject as the finding does.
    """,
)

Verdict = Finding | Undetermined
_KNOWN = tuple(sorted(kind.id for kind in (*(rule.kind for rule in ALL_RULES), *SPENDING_KINDS, *WORK_KINDS)))
_UNACCEPTABLE = frozenset(kind.id for kind in (*(rule.kind for rule in OF_THE_TEXT), *WORK_KINDS))


def accept(exceptions: Sequence[Exemption], outcomes: Outcomes) -> tuple[Outcomes, tuple[Accepted, ...]]:
    """The outcomes without what is accepted, and with a finding for each exception that matches nothing; and the accepted."""
    if not exceptions:
        return outcomes, ()
    verdicts: tuple[Verdict, ...] = (*outcomes.findings, *outcomes.undetermined)
    said: dict[tuple[str, str], Exemption] = {}
    useless: list[Finding] = []
    for spec in exceptions:
        matched = {(each.rule, each.subject) for each in verdicts if _concerns(spec, each)} - said.keys()
        if matched and spec.rule not in _UNACCEPTABLE:
            said |= dict.fromkeys(matched, spec)
        else:
            useless.append(_finding(spec, verdicts))
    accepted = tuple(
        Accepted(each, said[each.rule, each.subject].reason, said[each.rule, each.subject].at)
        for each in verdicts
        if (each.rule, each.subject) in said
    )
    return _without(outcomes, said.keys(), useless), accepted


def _concerns(spec: Exemption, verdict: Verdict) -> bool:
    return spec.rule == verdict.rule and spec.subject in (verdict.subject, ids.path(verdict.subject))


def _without(outcomes: Outcomes, accepted: Container[tuple[str, str]], useless: list[Finding]) -> Outcomes:
    return Outcomes(
        (*(each for each in outcomes.findings if (each.rule, each.subject) not in accepted), *useless),
        tuple(each for each in outcomes.undetermined if (each.rule, each.subject) not in accepted),
        outcomes.examined,
    )


def _finding(spec: Exemption, verdicts: tuple[Verdict, ...]) -> Finding:
    kind = EXCEPTION_UNMATCHED
    return Finding(kind.id, kind.level, _why(spec, verdicts), spec.rule, spec.at, kind.basis)


def _why(spec: Exemption, verdicts: tuple[Verdict, ...]) -> str:
    rule, subject = clip(spec.rule), clip(spec.subject)
    if spec.rule not in _KNOWN:
        return f"there is no rule '{rule}' to make an exception of{did_you_mean(spec.rule, _KNOWN)}"
    if spec.rule in _UNACCEPTABLE:
        return f"a finding of '{rule}' is a fault of the plan itself, of which no exception can be made"
    about = sorted({ids.path(each.subject) for each in verdicts if each.rule == spec.rule})
    if not about:
        return f"'{rule}' has nothing to say about '{subject}' or anything else: the exception is not needed"
    return f"'{rule}' has nothing to say about '{subject}'; it does about {_listed(spec.subject, about)}"


def _listed(wanted: str, about: Sequence[str]) -> str:
    """The nearest first, at most three: the author wanted one of them."""
    near = nearest(wanted, about)
    first = [near] if near is not None else []
    shown = [*first, *(each for each in about if each != near)][:3]
    more = f" and {len(about) - len(shown)} more" if len(about) > len(shown) else ""
    return ", ".join(f"'{clip(each)}'" for each in shown) + more
