"""A report as JSON, as `schemas/findings.schema.json` describes it.

Takes a report; gives one string that ends in a line break. Keys keep their meaning within a `format_version`.
"""

import json
import math
from collections.abc import Mapping
from typing import Any

from firstfix.finding.figures import formula
from firstfix.finding.model import Accepted, Cure, Finding, Label, Level, Measurement, Report, Undetermined
from firstfix.span import Span

FORMAT = "firstfix findings"
FORMAT_VERSION = 1


def render_json(report: Report) -> str:
    # All but ASCII is escaped: no control character reaches a terminal, and any locale can write it.
    return json.dumps(report_data(report), indent=2, ensure_ascii=True, allow_nan=False) + "\n"


def report_data(report: Report) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "format_version": FORMAT_VERSION,
        "counts": _counts(report),
        "findings": [finding_data(each) for each in report.findings],
        "cannot_tell": [_undetermined(each) for each in report.undetermined],
        "examined": dict(sorted(report.examined.items())),
        "accepted": [_accepted(each) for each in report.accepted],
    }


def _counts(report: Report) -> Mapping[str, int]:
    levels = {level.value: report.count(level) for level in Level}
    return {**levels, "cannot_tell": len(report.undetermined)}


def finding_data(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "level": finding.level.value,
        "message": finding.message,
        "subject": finding.subject,
        "at": place(finding.primary),
        "basis": finding.basis._asdict(),
        "related": [_label(each) for each in finding.related],
        "measurement": None if finding.measurement is None else measurement_data(finding.measurement),
        "cures": [_cure(each) for each in finding.cures],
    }


def _undetermined(entry: Undetermined) -> dict[str, Any]:
    return {
        "rule": entry.rule,
        "subject": entry.subject,
        "at": place(entry.primary),
        "missing": [_label(each) for each in entry.missing],
        "waits": entry.waits,
    }


def _accepted(entry: Accepted) -> dict[str, Any]:
    return {
        "rule": entry.verdict.rule,
        "level": entry.level,
        "message": entry.message,
        "subject": entry.verdict.subject,
        "at": place(entry.verdict.primary),
        "reason": entry.reason,
        "accepted_at": place(entry.at),
    }


def place(span: Span | None) -> dict[str, Any] | None:
    return None if span is None else span._asdict()


def _label(label: Label) -> dict[str, Any]:
    return {"at": place(label.span), "text": label.text}


def measurement_data(measurement: Measurement) -> dict[str, Any]:
    return {
        "what": measurement.what,
        "figure": _number(measurement.figure),
        "relation": measurement.relation,
        "limit": _number(measurement.limit),
        "unit": measurement.unit,
        "margin": _number(measurement.margin),
        "terms": [
            {"what": term.what, "value": _number(term.value), "source": term.source}
            for term in measurement.terms
        ],
        "limit_source": measurement.limit_source,
        "formula": formula(measurement),
    }


def _number(value: float) -> float | None:
    """Without the dust of binary sums; JSON has no infinity, so what is unbounded becomes null."""
    return round(value, 9) if math.isfinite(value) else None


def _cure(cure: Cure) -> dict[str, Any]:
    edits = [{"at": place(edit.span), "text": edit.text} for edit in cure.edits]
    return {"title": cure.title, "safety": cure.safety.value, "edits": edits}
