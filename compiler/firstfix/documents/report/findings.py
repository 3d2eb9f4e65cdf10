"""Findings, what could not be told, and what each rule examined, in words for a page that is read at leisure: all of each."""

from collections.abc import Mapping
from typing import NamedTuple

from firstfix.finding.figures import measured, summands
from firstfix.finding.model import Accepted, Cure, Finding, Label, Measurement, Report, Safety, Undetermined
from firstfix.rules.all_kinds import all_kinds

# Signs that differ in shape, so that a level is seen without colour; the word stands beside each.
SIGNS = {"error": "✖", "warning": "▲", "note": "●", "open": "?"}


class Place(NamedTuple):
    """Where in the plan's text, or "" without a place, and what is there."""

    at: str
    text: str


class Amount(NamedTuple):
    """One term of a figure; the first has no sign before it."""

    sign: str
    quantity: str
    what: str


class Card(NamedTuple):
    """One finding. `anchor` is its id on the page."""

    anchor: str
    level: str
    sign: str
    message: str
    rule: str
    subject: str
    at: str
    measured: str
    terms: tuple[Amount, ...]
    places: tuple[Place, ...]
    basis: str
    cures: tuple[str, ...]


class Open(NamedTuple):
    """What a rule could not tell, and which facts it misses."""

    anchor: str
    sign: str
    rule: str
    about: str
    subject: str
    at: str
    missing: tuple[Place, ...]


class AcceptedRow(NamedTuple):
    """A verdict that the author accepts, why, and where the plan says so."""

    level: str
    rule: str
    subject: str
    message: str
    reason: str
    at: str


class Examined(NamedTuple):
    rule: str
    summary: str
    subjects: str
    outcome: str


class Findings(NamedTuple):
    cards: tuple[Card, ...]
    accepted: tuple[AcceptedRow, ...]
    open: tuple[Open, ...]
    examined: tuple[Examined, ...]


def findings(report: Report) -> Findings:
    about = {kind.id: kind.summary for kind in all_kinds()}
    return Findings(
        tuple(_card(number, each) for number, each in enumerate(report.findings, 1)),
        tuple(map(_accepted, report.accepted)),
        tuple(_open(number, each, about) for number, each in enumerate(report.undetermined, 1)),
        tuple(_examined(report, rule, count, about) for rule, count in sorted(report.examined.items())),
    )


def _card(number: int, finding: Finding) -> Card:
    measurement = finding.measurement
    return Card(
        f"finding-{number}",
        finding.level.value,
        SIGNS[finding.level.value],
        finding.message,
        finding.rule,
        finding.subject,
        str(finding.primary or ""),
        measured(measurement) if measurement else "",
        _terms(measurement) if measurement else (),
        tuple(map(_place, finding.related)),
        str(finding.basis),
        tuple(map(_cure, finding.cures)),
    )


def _terms(measurement: Measurement) -> tuple[Amount, ...]:
    shown = summands(measurement, len(measurement.terms))
    return tuple(
        Amount("+" if number else "", quantity, what) for number, (quantity, what) in enumerate(shown)
    )


def _place(label: Label) -> Place:
    return Place(str(label.span or ""), label.text)


def _cure(cure: Cure) -> str:
    return f"{cure.title} (needs review)" if cure.edits and cure.safety is Safety.NEEDS_REVIEW else cure.title


def _accepted(entry: Accepted) -> AcceptedRow:
    verdict = entry.verdict
    return AcceptedRow(
        entry.level, verdict.rule, verdict.subject, entry.message, entry.reason, str(entry.at or "")
    )


def _open(number: int, entry: Undetermined, about: Mapping[str, str]) -> Open:
    return Open(
        f"open-{number}",
        SIGNS["open"],
        entry.rule,
        about.get(entry.rule, ""),
        entry.subject or "the whole plan",
        str(entry.primary or ""),
        tuple(map(_place, entry.missing)),
    )


def _examined(report: Report, rule: str, count: int, about: Mapping[str, str]) -> Examined:
    found = sum(each.rule == rule for each in report.findings)
    untold = sum(each.rule == rule for each in report.undetermined)
    outcomes = (f"{found} found" if found else "", f"{untold} cannot tell" if untold else "")
    nothing = "fine" if count else "nothing to examine"
    return Examined(rule, about.get(rule, ""), str(count), ", ".join(filter(None, outcomes)) or nothing)
