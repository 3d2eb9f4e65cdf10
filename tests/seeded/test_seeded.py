"""One fault at a time in plans that are sound: it is named at its line, by the rule that is there for it, and not drowned.

The normal tier puts in one fault of each kind; `-m long` a thousand.
"""

from functools import cache
from pathlib import Path

import pytest

from firstfix.finding.model import Level, Report
from firstfix.rules.all_kinds import all_kinds
from firstfix.rules.registry import FAMILIES, Family
from seeded.judging import TEXTS, checked, complaint, new_verdicts
from seeded.kind import Kind, kinds, seeded

EACH_KIND = pytest.mark.parametrize("kind", kinds(), ids=lambda kind: kind.name)
SEEDS_OF_A_KIND = range(1, 11)
# Families of rules that judge files beside the plan: these plans have none.
BESIDE_THE_PLAN = {"kept choices", "shops"}


@cache
def _before(plan: str, folder: Path) -> Report:
    return checked(TEXTS[plan], folder)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("seeded")


def _judged(kind: Kind, seed: int, folder: Path) -> str:
    fault = seeded(kind, seed, TEXTS)
    return complaint(kind, fault, new_verdicts(_before(fault.plan, folder), checked(fault.text, folder)))


@pytest.mark.parametrize("plan", TEXTS)
def test_untouched_plans_are_sound(plan: str, folder: Path) -> None:
    worse = [each for each in _before(plan, folder).findings if each.level is not Level.NOTE]
    assert [each.message for each in worse] == []


@EACH_KIND
def test_a_fault_is_named_where_it_is(kind: Kind, folder: Path) -> None:
    assert _judged(kind, 0, folder) == ""


@pytest.mark.long
@EACH_KIND
def test_a_thousand_faults_are_named_where_they_are(
    kind: Kind, folder: Path, request: pytest.FixtureRequest
) -> None:
    if "long" not in request.config.getoption("-m"):
        pytest.skip("long: 1,000 plans; run with -m long")
    complaints = dict.fromkeys(_judged(kind, seed, folder) for seed in SEEDS_OF_A_KIND)
    assert [each for each in complaints if each] == []


def test_there_are_faults_of_many_kinds() -> None:
    assert len(kinds()) * len(SEEDS_OF_A_KIND) >= 1000


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.title)
def test_each_family_of_rules_has_a_fault(family: Family) -> None:
    """For each single rule, tests/rules has a bad plan; here it is enough that no field is left out."""
    named = {rule for kind in kinds() for rule in kind.rules}
    assert named & {rule.kind.id for rule in family.rules} or family.title in BESIDE_THE_PLAN


def test_kinds_name_kinds_of_finding_that_there_are() -> None:
    known = {kind.id for kind in all_kinds()}
    assert {rule for kind in kinds() for rule in kind.rules} <= known
