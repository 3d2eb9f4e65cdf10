"""Each rule's plans: `tests/rules/RULE/good.yaml`, `bad.yaml`, `edge_*.yaml`, `missing_*.yaml`.

A comment `# expect: RULE` (or `# expect: RULE LEVEL`) marks a line on which exactly that finding must stand; `# cannot-tell: RULE` one
on which the rule must say that it cannot tell. Only the rule that the folder is named for is compared, both ways: missing and surplus fail.
A good plan has no marks, must have been examined, and must stay clean of errors and warnings under all rules together.
"""

import re
from pathlib import Path

import pytest

from firstfix.finding.model import Level
from firstfix.pipeline import Compiled, compile_plan
from firstfix.rules.registry import ALL_RULES
from firstfix.span import Span

HERE = Path(__file__).parent
# What stands beside a plan (`bad.allocations.yaml`) is no plan.
PLANS = sorted(path for path in HERE.glob("*/*.yaml") if "." not in path.stem)
_MARK = re.compile(r"#\s*(expect|cannot-tell):\s*([a-z0-9-]+)(?:\s+(error|warning|note))?")


def _marks(path: Path) -> set[tuple[str, str, str, str]]:
    """What, rule, file and line, level; also from what stands beside the plan."""
    found: set[tuple[str, str, str, str]] = set()
    for file in (path, *path.parent.glob(f"{path.stem}.*.yaml")):
        for number, line in enumerate(file.read_text("utf-8").splitlines(), 1):
            for what, rule, level in _MARK.findall(line):
                found.add((what, rule, f"{file.name}:{number}", level))
    return found


def _place(primary: Span | None) -> str:
    return f"{primary.file}:{primary.line}" if primary else ""


def _said(compiled: Compiled, rule: str) -> list[tuple[str, str, str, str]]:
    findings = [
        ("expect", rule, _place(each.primary), str(each.level))
        for each in compiled.report.findings
        if each.rule == rule
    ]
    open_ = [
        ("cannot-tell", rule, _place(each.primary), "")
        for each in compiled.report.undetermined
        if each.rule == rule
    ]
    return findings + open_


@pytest.mark.parametrize("path", PLANS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_plan_gives_what_it_marks(path: Path) -> None:
    rule = path.parent.name
    compiled = compile_plan(path, path.name)
    said = _said(compiled, rule)
    marks = {mark for mark in _marks(path) if mark[1] == rule}
    levels = {(what, name, line): level for what, name, line, level in marks}
    assert sorted({each[:3] for each in said}) == sorted(levels)
    for what, name, line, level in said:
        wanted = levels[what, name, line]
        assert wanted in ("", level), f"{what} {name} at {line} is a {level}"
    if path.stem.startswith("good") or path.stem.startswith("edge_at"):
        worse = [each.message for each in compiled.report.findings if each.level is not Level.NOTE]
        assert not marks
        assert not worse
        assert compiled.report.examined[rule] > 0
    if path.stem.startswith("bad") or path.stem.startswith("edge_over"):
        assert marks


@pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.kind.id)
def test_every_rule_has_a_good_and_a_bad_plan(rule: object) -> None:
    folder = HERE / rule.kind.id  # type: ignore[attr-defined]
    assert (folder / "good.yaml").exists()
    assert (folder / "bad.yaml").exists()
