"""`--why RULE` and `--why RULE/SUBJECT`: findings with every term, source, place and cure, as text or for programs.

A rule's id and a name of the plan can be the same word (a device called `unpowered`); then the thing is meant, and `rule:unpowered` the rule.
"""

import re
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from firstfix.cli.showing import show_report
from firstfix.cli.streams import put
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut
from firstfix.finding.model import Finding, Report, Undetermined

if TYPE_CHECKING:
    from firstfix.pipeline import Compiled

_PREFIX = "rule:"
# What stands between names in a subject: `device/jack`, `desk--core`, `link#2`.
_BETWEEN_NAMES = re.compile(r"--|[/#]")


class Asked(NamedTuple):
    """A rule, or another kind of finding, and the subject as the user wrote it; "" for all of the rule's."""

    rule: str
    subject: str


def asked_of(compiled: "Compiled", text: str) -> Asked | None:
    """What `text` asks about findings; None where it means a thing of the plan, or nothing. Raises TroubleError for `rule:` and no rule."""
    from firstfix.rules.all_kinds import all_kinds
    from firstfix.source.nearest import did_you_mean

    said = text.strip()
    is_certain = said.startswith(_PREFIX)
    rule, _, subject = said.removeprefix(_PREFIX).partition("/")
    kinds = [kind.id for kind in all_kinds()]
    if rule in kinds:
        return Asked(rule, subject) if is_certain or not _is_thing(compiled, said) else None
    if is_certain:
        hint = did_you_mean(rule, kinds) or "; firstfix explain lists them all"
        raise TroubleError(f"there is no rule '{cut(rule, 60)}'{hint}")
    return None


def show_findings_in_full(compiled: "Compiled", asked: Asked, form: str) -> None:
    from firstfix.finding.render_in_full import render_in_full

    found = _only(compiled.report, asked)
    if form != "text":
        show_report(replace(compiled, report=found), form)
        return
    shown = render_in_full(found, compiled.source.texts)
    put(shown or f"{_nothing(compiled, found, asked)}\n")


def _only(report: Report, asked: Asked) -> Report:
    def concerns(verdict: Finding | Undetermined) -> bool:
        return verdict.rule == asked.rule and (not asked.subject or asked.subject in _names(verdict.subject))

    return Report(
        tuple(each for each in report.findings if concerns(each)),
        tuple(each for each in report.undetermined if concerns(each)),
        {rule: count for rule, count in report.examined.items() if rule == asked.rule},
        tuple(each for each in report.accepted if concerns(each.verdict)),
    )


def _names(subject: str) -> set[str]:
    """The id, the author's words for it, and each name in them."""
    path = subject.partition(":")[2]
    return {subject, path, *_BETWEEN_NAMES.split(path)}


def _nothing(compiled: "Compiled", found: Report, asked: Asked) -> str:
    """That a rule has nothing to say, and never that more is fine than it looked at."""
    if asked.subject and not _is_thing(compiled, asked.subject):
        raise TroubleError(
            f"nothing in the plan is called '{cut(asked.subject, 60)}', and no finding of {asked.rule} is about it"
        )
    about = f" about '{cut(asked.subject, 60)}'" if asked.subject else ""
    count = found.examined.get(asked.rule)
    if count is None:
        return f"{asked.rule} has no finding{about}"
    looked = (
        f"examined {count} subject{'' if count == 1 else 's'} of the plan"
        if count
        else "had nothing to examine in the plan"
    )
    return f"{asked.rule} has no finding{about}; it {looked}"


def _is_thing(compiled: "Compiled", name: str) -> bool:
    from firstfix.explaining.subjects import subjects

    return compiled.build is not None and bool(subjects(compiled.build, name))
