"""What a form for a new part says a rule needs is what the rule needs: without the fact it cannot tell."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

import firstfix.pipeline
from firstfix.finding.collector import Collector
from firstfix.parts.fact_forms import fact_form
from firstfix.parts.facts import TYPICAL
from firstfix.parts.library_files import library
from firstfix.parts.part import Part
from firstfix.parts.read import read_parts
from firstfix.pipeline import compile_plan
from firstfix.rules.all_kinds import all_kinds
from firstfix.rules.facts_needed import RULES_ON
from firstfix.source.reader import parse

HERE = Path(__file__).parent
# What stands beside a plan (`honey-farm.allocations.yaml`) is no plan.
SHIPPED = sorted(path for path in (HERE.parents[1] / "plans").glob("*.yaml") if "." not in path.stem)
PAIRS = [(fact, rule) for fact, rules in RULES_ON.items() for rule in rules]


def without(fact: str) -> dict[str, Part]:
    """The library as it would be if nobody knew this fact of any part."""
    shipped = library()
    return {name: _unknown(part, fact) for name, part in shipped.items()}


def _unknown(part: Part, fact: str) -> Part:
    if fact not in part.said:
        return part
    key, _, below = fact.partition(".")
    value = f"{{{below}: unknown}}" if below else "unknown"
    faults = Collector()
    tree = parse(f"{part.name}: {{like: {part.name}, {key}: {value}}}".encode(), "parts", faults)
    assert tree is not None
    found = read_parts(tree, {part.name: part}, faults, TYPICAL)
    # An entry that has become unknown may ask for others; what it is like said them for another value.
    assert {each.rule for each in faults.findings} <= {"key-missing"}
    return replace(found[part.name], like=part.like, title=part.title)


def plans(rule: str) -> Iterator[Path]:
    yield from sorted((HERE / rule).glob("good*.yaml"))
    yield from sorted((HERE / rule).glob("edge_*.yaml"))
    yield from SHIPPED


def undetermined(plan: Path) -> set[tuple[str, str]]:
    return {(each.rule, each.subject) for each in compile_plan(plan, plan.name).report.undetermined}


@pytest.mark.parametrize(("fact", "rule"), PAIRS)
def test_rule_cannot_tell_without_the_fact(fact: str, rule: str, monkeypatch: pytest.MonkeyPatch) -> None:
    known = {plan: undetermined(plan) for plan in plans(rule)}
    unknown = without(fact)
    monkeypatch.setattr(firstfix.pipeline, "library", lambda: unknown)
    assert any(rule == each for plan in known for each, _ in undetermined(plan) - known[plan])


def test_facts_are_named_as_a_part_names_them_and_rules_exist() -> None:
    said = {fact for part in library().values() for fact in part.said}
    assert set(RULES_ON) <= said
    assert {rule for rules in RULES_ON.values() for rule in rules} <= {kind.id for kind in all_kinds()}


@pytest.mark.long
@pytest.mark.parametrize("plan", SHIPPED, ids=lambda path: path.stem)
def test_no_fact_is_left_out(
    plan: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
) -> None:
    """Every fact of every part in turn unknown: whichever rule then cannot tell stands in the table."""
    if "long" not in request.config.getoption("-m"):
        pytest.skip("looks at all facts; run with `-m long`")
    known = {rule for rule, _ in undetermined(plan)}
    facts = {(fact, part.kind) for part in library().values() for fact in part.said}
    for fact in sorted({fact for fact, kind in facts if fact_form(kind, fact).may_be_unknown}):
        unknown = without(fact)
        monkeypatch.setattr(firstfix.pipeline, "library", lambda unknown=unknown: unknown)
        rules = {rule for rule, _ in undetermined(plan)} - known
        assert rules <= set(RULES_ON.get(fact, ())), f"without '{fact}', {sorted(rules)} cannot tell"
