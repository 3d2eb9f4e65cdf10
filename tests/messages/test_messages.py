"""What a beginner gets wrong, and what he is told: one finding for one slip, at its place, saying what to write.

The words themselves are in the snapshots, to be read by eye whenever they change.
"""

from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from firstfix.finding.model import Finding, Level
from firstfix.finding.render_text import render_text
from firstfix.pipeline import Compiled, compile_plan
from messages.slips_of import BASE, THEMES, Slip, slips

SLIPS = slips()
# A missing way or room shows where somebody needs it, and a second thing in the way of the first is named at the first or second.
_SHOWN_ELSEWHERE = {
    "a way missing between two rooms", "a way from a room to itself", "two things in one unit", "an empty plan", "a link without a run",
    "two entries for one unit", "a device that stands in two places",
}  # fmt: skip


def _compiled(data: bytes, folder: Path) -> Compiled:
    path = folder / "base.yaml"
    path.write_bytes(data)
    return compile_plan(path, "base.yaml")


def _ids(slip: Slip) -> str:
    return f"{slip.theme}: {slip.name}"


def test_there_are_many_and_the_base_is_clean(tmp_path: Path) -> None:
    report = _compiled(BASE.encode(), tmp_path).report
    assert (report.findings, report.undetermined) == ((), ())
    assert len(SLIPS) >= 200
    assert len({_ids(slip) for slip in SLIPS}) == len(SLIPS)


@pytest.mark.parametrize("slip", SLIPS, ids=_ids)
def test_one_slip_is_one_finding_at_its_place(slip: Slip, tmp_path: Path) -> None:
    report = _compiled(slip.data, tmp_path).report
    assert len(report.findings) == slip.findings, [each.message for each in report.findings]
    # What cannot be judged now waits for the finding; nothing is said to be missing that is not.
    assert [each for each in report.undetermined if not each.waits] == []
    assert all(each.primary is not None for each in report.findings)
    if slip.lines is not None and slip.findings == 1 and slip.name not in _SHOWN_ELSEWHERE:
        line = report.findings[0].primary.line  # type: ignore[union-attr]
        assert line in slip.lines, report.findings[0].message


@pytest.mark.parametrize("theme", THEMES)
def test_what_is_said(theme: str, tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    said = []
    for slip in SLIPS:
        if slip.theme == theme:
            compiled = _compiled(slip.data, tmp_path)
            blocks = render_text(compiled.report, compiled.source.texts).split("\n\n")[:-1]
            said.append(f"## {slip.name}\n\n" + "\n\n".join(blocks or ["(nothing)"]) + "\n")
    assert "\n".join(said) == snapshot


def _edited(data: bytes, finding: Finding) -> list[bytes]:
    """The plan after each of the finding's cures that is an edit."""
    if not any(cure.edits for cure in finding.cures):
        return []
    lines = data.decode("utf-8-sig").split("\n")
    found = []
    for cure in finding.cures:
        if len(cure.edits) == 1:
            (at, text), changed = cure.edits[0], list(lines)
            assert at.line == at.end_line
            line = changed[at.line - 1]
            changed[at.line - 1] = line[: at.column - 1] + text + line[at.end_column - 1 :]
            found.append("\n".join(changed).encode())
    return found


@pytest.mark.parametrize("slip", SLIPS, ids=_ids)
def test_an_edit_that_is_offered_mends_the_slip(slip: Slip, tmp_path: Path) -> None:
    """The finding is gone after it, and no other error of the plan's own text has come."""
    for finding in _compiled(slip.data, tmp_path).report.findings:
        for data in _edited(slip.data, finding):
            left = _compiled(data, tmp_path).report.findings
            assert (finding.rule, finding.message) not in [(each.rule, each.message) for each in left]
            worse = [
                each.message for each in left if each.level is Level.ERROR and each.basis == finding.basis
            ]
            assert worse == []


def test_count_of_edits_offered(tmp_path: Path) -> None:
    """A third of the slips has a cure that a program could apply."""
    with_edit = [
        slip
        for slip in SLIPS
        if any(cure.edits for each in _compiled(slip.data, tmp_path).report.findings for cure in each.cures)
    ]
    assert len(with_edit) >= len(SLIPS) / 3
