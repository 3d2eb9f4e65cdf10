"""Exceptions: what matches is printed as accepted and no longer counted; what matches nothing is a finding."""

from pathlib import Path

import pytest

from firstfix.finding.model import Level, Report
from firstfix.finding.render_json import report_data
from firstfix.finding.render_text import render_text
from firstfix.pipeline import compile_plan

_PLAN = """\
name: A shed
sites: {home: {buildings: {house: {rooms: {study: {mains: 6}}}, shed: {rooms: {bench: {mains: 2}}}}}}
ways: {path: {between: [study, bench], length: 30 m, kind: buried-duct}}
devices:
  core: {part: switch-8-poe, room: study}
  gateway: {part: gateway-desktop, room: study}
  line-box: {part: line-box, room: study, owned: true}
  bench-box: {part: end-device, room: bench, owned: true, plugs-into: core}
links:
  - {run: [line-box, gateway]}
  - {run: [gateway, core]}
"""


def _report(tmp_path: Path, *exceptions: str) -> Report:
    path = tmp_path / "plan.yaml"
    said = "exceptions:\n" + "".join(f"  - {{{each}}}\n" for each in exceptions) if exceptions else ""
    path.write_text(_PLAN + said, "utf-8")
    return compile_plan(path, "plan.yaml").report


def _subject(report: Report, rule: str) -> str:
    return next(each.subject for each in report.findings if each.rule == rule)


@pytest.mark.parametrize("with_kind", [True, False])
def test_what_is_accepted_is_printed_with_its_reason_and_not_counted(tmp_path: Path, with_kind: bool) -> None:
    before = _report(tmp_path)
    subject = _subject(before, "copper-between-earths")
    name = subject if with_kind else subject.partition(":")[2]
    after = _report(
        tmp_path,
        f'rule: copper-between-earths, subject: "{name}", reason: "both sheds hang on one earth, measured"',
    )
    assert before.has_errors
    assert not after.has_errors
    assert [each.reason for each in after.accepted] == ["both sheds hang on one earth, measured"]
    assert after.examined == before.examined
    text = render_text(after, {})
    assert "plan.yaml:13:5  accepted  copper-between-earths" in text
    assert "reason: both sheds hang on one earth, measured" in text
    assert "1 accepted" in text
    assert report_data(after)["accepted"][0]["level"] == "error"


@pytest.mark.parametrize(
    ("said", "message"),
    [
        (
            "rule: copper-between-earth, subject: x, reason: r",
            "there is no rule 'copper-between-earth' to make an exception of; did you mean 'copper-between-earths'?",
        ),
        (
            "rule: layer2-loop, subject: core, reason: r",
            "'layer2-loop' has nothing to say about 'core' or anything else: the exception is not needed",
        ),
        (
            "rule: name-unknown, subject: core, reason: r",
            "a finding of 'name-unknown' is a fault of the plan itself, of which no exception can be made",
        ),
    ],
)
def test_what_matches_nothing_is_a_finding(tmp_path: Path, said: str, message: str) -> None:
    (found,) = [each for each in _report(tmp_path, said).findings if each.rule == "exception-unmatched"]
    assert found.message == message
    assert found.level is Level.WARNING
    assert found.primary is not None
    assert found.primary.line == 13


def test_a_wrong_subject_is_told_the_right_ones(tmp_path: Path) -> None:
    subject = _subject(_report(tmp_path), "copper-between-earths").partition(":")[2]
    report = _report(tmp_path, "rule: copper-between-earths, subject: core, reason: r")
    (found,) = [each for each in report.findings if each.rule == "exception-unmatched"]
    assert f"it does about '{subject}'" in found.message
    assert report.has_errors


def test_a_second_exception_of_the_same_is_useless(tmp_path: Path) -> None:
    subject = _subject(_report(tmp_path), "copper-between-earths")
    said = f'rule: copper-between-earths, subject: "{subject}", reason: r'
    report = _report(tmp_path, said, said)
    assert [
        each.primary.line for each in report.findings if each.rule == "exception-unmatched" and each.primary
    ] == [14]


@pytest.mark.parametrize(
    "said",
    [
        "rule: layer2-loop, subject: core",
        "subject: core, reason: r",
        'rule: layer2-loop, subject: core, reason: " "',
    ],
)
def test_an_exception_says_rule_subject_and_reason(tmp_path: Path, said: str) -> None:
    assert [each for each in _report(tmp_path, said).findings if each.primary and each.primary.line == 13]


def test_a_cannot_tell_can_be_accepted(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    camera = "parts: {eye: {like: camera, takes-poe: {class: unknown}}}\ndevices:\n  eye: {part: eye, room: study, plugs-into: core}"
    plan = _PLAN.replace("devices:", camera)
    path.write_text(plan, "utf-8")
    before = compile_plan(path, "plan.yaml").report
    assert before.undetermined
    open_ = before.undetermined[0]
    path.write_text(
        f'{plan}exceptions: [{{rule: {open_.rule}, subject: "{open_.subject}", reason: seen}}]\n', "utf-8"
    )
    after = compile_plan(path, "plan.yaml").report
    assert open_ not in after.undetermined
    assert [each.level for each in after.accepted] == ["cannot tell"]
