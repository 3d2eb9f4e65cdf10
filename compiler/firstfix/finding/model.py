"""Findings as data. The text that people read is made from them at the very end, by the renderers beside this file."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from firstfix.span import Span


class Level(StrEnum):
    """error: must not be built so · warning: allowed but risky · note: worth knowing"""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


_LEVEL_ORDER = {Level.ERROR: 0, Level.WARNING: 1, Level.NOTE: 2}


class Basis(NamedTuple):
    """On what a verdict rests: a published document and its place in it, or "common practice, no source"."""

    document: str
    clause: str = ""

    def __str__(self) -> str:
        return f"{self.document}, {self.clause}" if self.clause else self.document


COMMON_PRACTICE = Basis("common practice, no source")
PLAN_LANGUAGE = Basis("the plan language of firstfix")


class Label(NamedTuple):
    """A further place that a finding rests on, with a few words: "adds 15.4 W", "first used here"."""

    span: Span | None
    text: str


class Term(NamedTuple):
    """One summand of a figure, in the figure's own unit, and where it comes from."""

    what: str
    value: float
    source: str = ""


class Measurement(NamedTuple):
    """`what` is `figure`, and must be `relation` (at most, at least) `limit`; `terms` add up to the figure.

    `limit_source`: where the limit comes from, if not from the finding's basis.
    """

    what: str
    figure: float
    relation: str
    limit: float
    unit: str
    terms: tuple[Term, ...] = ()
    limit_source: str = ""

    @property
    def margin(self) -> float:
        """How much is left before the limit; negative when it is passed."""
        return self.limit - self.figure if self.relation == "at most" else self.figure - self.limit


class Safety(StrEnum):
    """How far a cure's edit may be trusted."""

    SAFE = "safe"
    NEEDS_REVIEW = "needs review"
    IDEA_ONLY = "idea only"


class Edit(NamedTuple):
    """Replace the text at `span` by `text`; nothing else in the file moves."""

    span: Span
    text: str


class Cure(NamedTuple):
    title: str
    edits: tuple[Edit, ...] = ()
    safety: Safety = Safety.IDEA_ONLY


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong or worth knowing.

    `message` is one plain sentence without advice; `subject` the stable id of the thing; `primary` the narrowest span.
    """

    rule: str
    level: Level
    message: str
    subject: str
    primary: Span | None
    basis: Basis
    related: tuple[Label, ...] = ()
    measurement: Measurement | None = None
    cures: tuple[Cure, ...] = ()

    def sort_key(self) -> tuple[int, str, int, int, str, str, str]:
        place = self.primary or Span("", 0, 0, 0, 0)
        return (
            _LEVEL_ORDER[self.level], place.file, place.line, place.column, self.rule, self.subject, self.message,
        )  # fmt: skip


class Undetermined(NamedTuple):
    """A rule that could not tell: the subject, and each fact that is missing (never a pass).

    `waits`: all of them are missing for a fault that has a finding of its own; mend it, and the rule can tell.
    """

    rule: str
    subject: str
    primary: Span | None
    missing: tuple[Label, ...]
    waits: bool = False

    def sort_key(self) -> tuple[str, int, int, str, str, tuple[str, ...]]:
        place = self.primary or Span("", 0, 0, 0, 0)
        missing = tuple(label.text for label in self.missing)
        return (place.file, place.line, place.column, self.rule, self.subject, missing)


class Exemption(NamedTuple):
    """What the author accepts: a rule's id, the thing as findings name it, why, and where the plan says so."""

    rule: str
    subject: str
    reason: str
    at: Span | None


class Accepted(NamedTuple):
    """A verdict that the author accepts for a stated reason; `at` is where the plan says so. Still printed, no longer counted."""

    verdict: Finding | Undetermined
    reason: str
    at: Span | None

    @property
    def level(self) -> str:
        return self.verdict.level.value if isinstance(self.verdict, Finding) else "cannot tell"

    @property
    def message(self) -> str:
        if isinstance(self.verdict, Finding):
            return self.verdict.message
        return f"{self.verdict.subject or 'the plan'} was not judged"


@dataclass(frozen=True, slots=True)
class Report:
    """All that a run has to say: sorted findings, sorted cannot-tells, and how many subjects each rule examined.

    `accepted`: verdicts that the plan makes an exception of, in the order of their places.
    """

    findings: tuple[Finding, ...]
    undetermined: tuple[Undetermined, ...]
    examined: Mapping[str, int]
    accepted: tuple[Accepted, ...] = ()

    @property
    def has_errors(self) -> bool:
        return any(finding.level is Level.ERROR for finding in self.findings)

    def count(self, level: Level) -> int:
        return sum(finding.level is level for finding in self.findings)


def report(
    findings: Iterable[Finding],
    undetermined: Iterable[Undetermined] = (),
    examined: Mapping[str, int] | None = None,
    accepted: Iterable[Accepted] = (),
) -> Report:
    """A report in its one order: worst level first, then by place."""
    return Report(
        tuple(sorted(set(findings), key=Finding.sort_key)),
        tuple(sorted(set(undetermined), key=Undetermined.sort_key)),
        dict(sorted((examined or {}).items())),
        tuple(sorted(set(accepted), key=_place_accepted)),
    )


def _place_accepted(entry: Accepted) -> tuple[str, int, int, str, str]:
    place = entry.at or Span("", 0, 0, 0, 0)
    return (place.file, place.line, place.column, entry.verdict.rule, entry.verdict.subject)
