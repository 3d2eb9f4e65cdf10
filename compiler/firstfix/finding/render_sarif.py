"""A report in SARIF 2.1.0, the format in which editors and code hosts take findings.

Source: OASIS, Static Analysis Results Interchange Format Version 2.1.0 plus Errata 01, cited as "SARIF 3.27".
Takes a report, the texts of the plan's files, every kind of finding there is, and our version.
Gives one string that ends in a line break. Paths are relative, so that it means the same on every machine.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any

from firstfix.finding.figures import measured
from firstfix.finding.help_text import help_text
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Accepted, Cure, Edit, Finding, Label, Level, Report, Safety, Undetermined
from firstfix.finding.render_json import measurement_data
from firstfix.span import Span

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def render_sarif(report: Report, texts: Mapping[str, str], kinds: Iterable[Kind], version: str) -> str:
    run = _Run(report, texts, kinds, version)
    log = {"version": "2.1.0", "$schema": _SCHEMA, "runs": [run.data()]}
    return json.dumps(log, indent=2, ensure_ascii=True, allow_nan=False) + "\n"


class _Run:
    """A run object (SARIF 3.14), and what all its results share: rule indices, paths, fingerprints so far."""

    def __init__(self, report: Report, texts: Mapping[str, str], kinds: Iterable[Kind], version: str) -> None:
        self._report = report
        self._version = version
        self._rules = _descriptors(report, kinds)
        self._index_of = {rule["id"]: index for index, rule in enumerate(self._rules)}
        self._uri_of = _relative_uris(_files(report, texts))
        self._given: Counter[tuple[str, str]] = Counter()

    def data(self) -> dict[str, Any]:
        results = [self._finding(each) for each in self._report.findings]
        results += [self._undetermined(each) for each in self._report.undetermined]
        results += [self._accepted(each) for each in self._report.accepted]
        driver = {"name": "firstfix", "version": self._version, "rules": self._rules}
        return {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}

    def _finding(self, finding: Finding) -> dict[str, Any]:
        result = self._result(finding.rule, finding.subject, finding.primary)
        result["level"] = finding.level.value
        result["message"] = _text(_message(finding))
        if finding.related:
            result["relatedLocations"] = self._related(finding.related)
        fixes = [self._fix(each) for each in finding.cures if each.edits and each.safety != Safety.IDEA_ONLY]
        if fixes:
            result["fixes"] = fixes
        result["properties"] = _properties(finding)
        return result

    def _undetermined(self, entry: Undetermined) -> dict[str, Any]:
        """SARIF 3.27.9: kind "open" is for what could not be evaluated; 3.27.10: its level is then "none"."""
        result = self._result(entry.rule, entry.subject, entry.primary)
        missing = "; ".join(label.text for label in entry.missing)
        result |= {"kind": "open", "level": "none"}
        result["message"] = _text(f"Cannot tell; what is missing: {missing or 'facts'}.")
        if entry.missing:
            result["relatedLocations"] = self._related(entry.missing)
        return result

    def _accepted(self, entry: Accepted) -> dict[str, Any]:
        """SARIF 3.35: suppressed by the plan itself, so "inSource", and the justification is the author's reason."""
        verdict = entry.verdict
        result = self._finding(verdict) if isinstance(verdict, Finding) else self._undetermined(verdict)
        suppression: dict[str, Any] = {"kind": "inSource", "justification": entry.reason}
        if entry.at is not None:
            suppression["location"] = {"physicalLocation": self._physical(entry.at)}
        result["suppressions"] = [suppression]
        return result

    def _result(self, rule: str, subject: str, at: Span | None) -> dict[str, Any]:
        location: dict[str, Any] = {} if at is None else {"physicalLocation": self._physical(at)}
        if subject:
            location["logicalLocations"] = [{"fullyQualifiedName": subject}]
        return {
            "ruleId": rule,
            "ruleIndex": self._index_of[rule],
            "locations": [location] if location else [],
            "partialFingerprints": {"ruleAndSubject/v1": self._fingerprint(rule, subject)},
        }

    def _fingerprint(self, rule: str, subject: str) -> str:
        """The same when lines move or a message is reworded. Equal pairs are numbered, in report order."""
        self._given[rule, subject] += 1
        named = f"{rule}\0{subject}\0{self._given[rule, subject]}"
        return hashlib.sha256(named.encode("utf-8", "backslashreplace")).hexdigest()[:32]

    def _physical(self, at: Span) -> dict[str, Any]:
        return {"artifactLocation": {"uri": self._uri_of[at.file]}, "region": _region(at)}

    def _related(self, labels: tuple[Label, ...]) -> list[dict[str, Any]]:
        return [self._label(number, each) for number, each in enumerate(labels)]

    def _label(self, number: int, label: Label) -> dict[str, Any]:
        location: dict[str, Any] = {"id": number, "message": _text(label.text)}
        if label.span is not None:
            location["physicalLocation"] = self._physical(label.span)
        return location

    def _fix(self, cure: Cure) -> dict[str, Any]:
        edits_of: dict[str, list[Edit]] = {}
        for edit in cure.edits:
            edits_of.setdefault(edit.span.file, []).append(edit)
        changes = [
            {
                "artifactLocation": {"uri": self._uri_of[file]},
                "replacements": [
                    {"deletedRegion": _region(each.span), "insertedContent": {"text": each.text}}
                    for each in edits
                ],
            }
            for file, edits in edits_of.items()
        ]
        title = cure.title if cure.safety is Safety.SAFE else f"{cure.title} (needs review)"
        return {"description": _text(title), "artifactChanges": changes}


def _descriptors(report: Report, kinds: Iterable[Kind]) -> list[dict[str, Any]]:
    """Every kind there is, by id; a rule of the report that is not among them has its id alone."""
    known = {kind.id: _descriptor(kind) for kind in kinds}
    for rule in (
        *(each.rule for each in report.findings),
        *(each.rule for each in report.undetermined),
        *(each.verdict.rule for each in report.accepted),
    ):
        known.setdefault(rule, {"id": rule})
    return [known[rule] for rule in sorted(known)]


def _descriptor(kind: Kind) -> dict[str, Any]:
    return {
        "id": kind.id,
        "shortDescription": {"text": kind.summary},
        "fullDescription": {"text": help_text(kind)},
        "defaultConfiguration": {"level": Level(kind.level).value},
    }


def _region(at: Span) -> dict[str, int]:
    """SARIF 3.30.5 to 3.30.8: lines and columns from 1, the end column one past the last, as in a Span."""
    return {
        "startLine": at.line,
        "startColumn": at.column,
        "endLine": at.end_line,
        "endColumn": at.end_column,
    }


def _text(text: str) -> dict[str, str]:
    """A message object (SARIF 3.11.5, 3.11.6): braces are doubled; text of the plan cannot make a link."""
    return {"text": text.replace("{", "{{").replace("}", "}}").replace("](", "] (")}


def _message(finding: Finding) -> str:
    parts = [f"{finding.message}."]
    if finding.measurement is not None:
        parts.append(f"{measured(finding.measurement)}.")
    parts.append(f"Because: {finding.basis}.")
    parts += [f"Cure: {cure.title}." for cure in finding.cures]
    return " ".join(parts)


def _properties(finding: Finding) -> dict[str, Any]:
    found: dict[str, Any] = {"basis": str(finding.basis)}
    if finding.measurement is not None:
        found["measurement"] = measurement_data(finding.measurement)
    return found


def _files(report: Report, texts: Mapping[str, str]) -> set[str]:
    accepted = [each.verdict for each in report.accepted]
    findings = [*report.findings, *(each for each in accepted if isinstance(each, Finding))]
    undetermined = [*report.undetermined, *(each for each in accepted if isinstance(each, Undetermined))]
    spans = [each.at for each in report.accepted]
    spans += [each.primary for each in findings]
    spans += [each.primary for each in undetermined]
    spans += [label.span for each in findings for label in each.related]
    spans += [label.span for each in undetermined for label in each.missing]
    spans += [edit.span for each in findings for cure in each.cures for edit in cure.edits]
    return set(texts) | {span.file for span in spans if span is not None}


def _relative_uris(files: Iterable[str]) -> dict[str, str]:
    """A relative URI reference (RFC 3986) for each file; those outside, from the folder that they share."""
    import posixpath
    from urllib.parse import quote

    parts_of = {file: posixpath.normpath(file.replace("\\", "/")).split("/") for file in files}
    outside = [parts for parts in parts_of.values() if _is_outside(parts)]
    shared = len(posixpath.commonprefix([parts[:-1] for parts in outside]))

    def uri(parts: list[str]) -> str:
        inside = parts[shared:] if _is_outside(parts) else parts
        # Files outside that share no folder at all still must not name a place on this machine.
        kept = [part for part in inside if part not in ("", "..") and not part.endswith(":")]
        return quote("/".join(kept).encode("utf-8", "backslashreplace"), safe="/")

    return {file: uri(parts) for file, parts in sorted(parts_of.items())}


def _is_outside(parts: list[str]) -> bool:
    return parts[0] in ("", "..") or parts[0].endswith(":")
