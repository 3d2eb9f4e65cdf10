"""Findings in SARIF 2.1.0: what the standard asks of each object that we write, by its sections."""

import json
import re
from dataclasses import replace
from typing import Any

import pytest
from syrupy.assertion import SnapshotAssertion

from finding.sample import BUDGET, EMPTY, FILE, LENGTH, POE_BUDGET, REPORT, TEXTS, UNKNOWN
from firstfix.finding.model import Report, report
from firstfix.finding.render_sarif import render_sarif
from firstfix.source.kinds import SOURCE_KINDS
from firstfix.span import Span

KINDS = (*SOURCE_KINDS, POE_BUDGET)


def run_of(given: Report, texts: dict[str, str] | None = None) -> dict[str, Any]:
    log = json.loads(render_sarif(given, TEXTS if texts is None else texts, KINDS, "9.9.9"))
    assert log["version"] == "2.1.0"
    assert log["$schema"].endswith("/sarif-schema-2.1.0.json")
    (run,) = log["runs"]
    found: dict[str, Any] = run
    return found


def result_of(rule: str, given: Report = REPORT) -> dict[str, Any]:
    return next(each for each in run_of(given)["results"] if each["ruleId"] == rule)


def test_the_fixed_report(golden_json: SnapshotAssertion) -> None:
    few = report([BUDGET, LENGTH], [UNKNOWN], {})
    assert render_sarif(few, TEXTS, [POE_BUDGET], "9.9.9") == golden_json


def test_the_driver_names_itself_and_describes_every_rule() -> None:
    driver = run_of(EMPTY)["tool"]["driver"]
    assert (driver["name"], driver["version"]) == ("firstfix", "9.9.9")
    assert [rule["id"] for rule in driver["rules"]] == sorted(kind.id for kind in KINDS)
    rule = next(rule for rule in driver["rules"] if rule["id"] == "poe-budget")
    assert rule["defaultConfiguration"] == {"level": "error"}
    assert rule["shortDescription"]["text"] == "What a switch gives over its jacks is no more than it has."
    assert "IEEE 802.3-2022, 33.2.7" in rule["fullDescription"]["text"]


def test_rule_ids_and_indices_agree_even_for_a_rule_that_nobody_described() -> None:
    run = run_of(REPORT)
    rules = run["tool"]["driver"]["rules"]
    assert "channel-length" not in {kind.id for kind in KINDS}
    assert [rules[each["ruleIndex"]]["id"] for each in run["results"]] == [
        each["ruleId"] for each in run["results"]
    ]


def test_each_finding_is_one_result_of_its_level() -> None:
    results = run_of(REPORT)["results"]
    levels = [each["level"] for each in results if "kind" not in each and "suppressions" not in each]
    assert levels == [finding.level.value for finding in REPORT.findings]


def test_what_cannot_be_told_is_open_and_of_no_level() -> None:
    """3.27.9 and 3.27.10."""
    results = [each for each in run_of(REPORT)["results"] if "suppressions" not in each]
    (result,) = [each for each in results if each.get("kind") == "open"]
    assert result["level"] == "none"
    assert "the way has no length" in result["message"]["text"]


def test_what_the_plan_accepts_is_suppressed_in_the_source_with_its_reason() -> None:
    """3.27.23 and 3.35."""
    suppressed = [each for each in run_of(REPORT)["results"] if "suppressions" in each]
    assert [each["ruleId"] for each in suppressed] == [each.verdict.rule for each in REPORT.accepted]
    for result, entry in zip(suppressed, REPORT.accepted, strict=True):
        (suppression,) = result["suppressions"]
        assert (suppression["kind"], suppression["justification"]) == ("inSource", entry.reason)
        assert entry.at is not None
        assert suppression["location"]["physicalLocation"]["region"]["startLine"] == entry.at.line


def test_regions_count_characters_from_one_and_end_past_the_last() -> None:
    """3.14.17 and 3.30; checked on the text itself, in Python's own count of code points."""
    assert run_of(REPORT)["columnKind"] == "unicodeCodePoints"
    region = result_of("poe-budget")["locations"][0]["physicalLocation"]["region"]
    line = TEXTS[FILE].split("\n")[region["startLine"] - 1]
    assert line[region["startColumn"] - 1 : region["endColumn"] - 1] == "switch-8-poe"


def test_further_places_are_related_locations_with_distinct_ids() -> None:
    related = result_of("poe-budget")["relatedLocations"]
    assert [each["message"]["text"] for each in related] == ["adds 15.4 W", "three more in the barn"]
    assert len({each["id"] for each in related}) == 2
    assert "physicalLocation" not in related[1]


def test_only_edits_that_may_be_applied_become_fixes() -> None:
    (fix,) = result_of("poe-budget")["fixes"]
    (change,) = fix["artifactChanges"]
    (replacement,) = change["replacements"]
    assert replacement["insertedContent"] == {"text": "switch-16-poe"}
    assert "needs review" in fix["description"]["text"]
    assert "fixes" not in result_of("key-unknown")


def _fingerprints(given: Report) -> list[str]:
    return [each["partialFingerprints"]["ruleAndSubject/v1"] for each in run_of(given)["results"]]


def test_fingerprints_differ_among_results_and_stay_when_lines_move() -> None:
    moved = report(
        [
            replace(each, primary=each.primary and each.primary._replace(line=each.primary.line + 40))
            for each in REPORT.findings
        ],
        REPORT.undetermined,
        accepted=REPORT.accepted,
    )
    verdicts = (*REPORT.findings, *REPORT.undetermined, *REPORT.accepted)
    assert len(set(_fingerprints(REPORT))) == len(verdicts)
    assert _fingerprints(moved) == _fingerprints(REPORT)


def test_a_fingerprint_is_the_subjects_own() -> None:
    other = report([replace(BUDGET, subject="device:other")])
    assert _fingerprints(other) != _fingerprints(report([BUDGET]))


def test_text_of_a_plan_makes_no_placeholder_and_no_link() -> None:
    """3.11.5 and 3.11.6."""
    text = result_of("key-unknown")["message"]["text"]
    assert "{{0}}" in text
    assert re.search(r"\[[^]]*\]\(", text) is None


@pytest.mark.parametrize(
    ("file", "uri"),
    [
        ("plan.yaml", "plan.yaml"),
        ("./plans/plan.yaml", "plans/plan.yaml"),
        ("/home/somebody/net/plan.yaml", "plan.yaml"),
        ("../net/plan.yaml", "plan.yaml"),
        ("C:/net/plan.yaml", "plan.yaml"),
        ("my plan#1.yaml", "my%20plan%231.yaml"),
        ("a:b.yaml", "a%3Ab.yaml"),
    ],
)
def test_paths_are_relative_references_and_tell_nothing_of_the_machine(file: str, uri: str) -> None:
    given = report([replace(BUDGET, primary=Span(file, 1, 1, 1, 2), related=(), cures=())])
    (result,) = run_of(given, {file: "x"})["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"] == {"uri": uri}


def test_an_included_file_outside_keeps_its_place_below_the_shared_folder() -> None:
    given = report(
        [
            replace(BUDGET, primary=Span("/n/a/plan.yaml", 1, 1, 1, 2), related=(), cures=()),
            replace(BUDGET, primary=Span("/n/a/more/b.yaml", 1, 1, 1, 2), related=(), cures=()),
        ]
    )
    uris = {
        each["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        for each in run_of(given, {})["results"]
    }
    assert uris == {"plan.yaml", "more/b.yaml"}
