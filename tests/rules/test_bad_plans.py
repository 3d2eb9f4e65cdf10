"""plans/bad: one plan of each family, each somebody's real mistake, and exactly the findings it was made for.

`# expect: RULE LEVEL` marks a line on which that finding must stand, `# cannot-tell: RULE` one on which the rule cannot tell; two marks on a
line are two findings. All kinds are compared, notes too: one that is missing and one too many both fail.
"""

import re
from collections import Counter
from pathlib import Path

import pytest

from firstfix.finding.model import Level
from firstfix.pipeline import compile_plan
from firstfix.rules.registry import FAMILIES
from firstfix.span import Span

BAD = Path(__file__).parents[2] / "plans" / "bad"
PLANS = sorted(path for path in BAD.glob("*.yaml") if "." not in path.stem)
_MARK = re.compile(r"#\s*(expect|cannot-tell): ([a-z0-9-]+)(?: (error|warning|note))?")
# The families of which no plan is here, and why.
_NO_PLAN: dict[str, str] = {}


def _marked(path: Path) -> Counter[tuple[str, str, str]]:
    """How often each level of each rule is expected at each place: of the plan and of what is kept beside it."""
    found: Counter[tuple[str, str, str]] = Counter()
    for file in sorted((path, *path.parent.glob(f"{path.stem}.*.yaml"))):
        for number, line in enumerate(file.read_text("utf-8").splitlines(), 1):
            for what, rule, level in _MARK.findall(line):
                assert bool(level) == (what == "expect"), (
                    f"{file.name}:{number}: a level, and only for a finding"
                )
                found[rule, level or "cannot tell", f"{file.name}:{number}"] += 1
    return found


def _said(path: Path) -> Counter[tuple[str, str, str]]:
    report = compile_plan(path, path.name).report
    assert not report.accepted
    return Counter(
        [(each.rule, each.level.value, _place(each.primary)) for each in report.findings]
        + [(each.rule, "cannot tell", _place(each.primary)) for each in report.undetermined]
    )


def _place(at: Span | None) -> str:
    return f"{at.file}:{at.line}" if at else ""


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_the_plan_gives_what_it_was_made_for_and_nothing_else(path: Path) -> None:
    marked = _marked(path)
    assert marked
    assert _said(path) == marked


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_the_plan_says_what_is_wrong_before_it_begins(path: Path) -> None:
    opening = re.match(r"(?:#.*\n)+", path.read_text("utf-8"))
    assert opening is not None
    assert "An invented plan" in opening.group()
    assert "What is wrong:" in opening.group()


def test_every_family_has_a_plan() -> None:
    shown = {rule for path in PLANS for rule, _, _ in _marked(path)}
    for family in FAMILIES:
        rules = {rule.kind.id for rule in family.rules}
        assert rules & shown or family.title in _NO_PLAN, f"no plan in plans/bad shows '{family.title}'"


def test_every_level_and_cannot_tell_are_shown() -> None:
    shown = {level for path in PLANS for _, level, _ in _marked(path)}
    assert shown == {*(level.value for level in Level), "cannot tell"}
