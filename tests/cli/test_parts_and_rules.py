"""What can be looked up: parts of the library, rules, and why a thing is as it is."""

import json
from pathlib import Path

import pytest

from cli.running import firstfix
from firstfix.cli.part_data import part_data
from firstfix.cli.part_text import part_page
from firstfix.finding.fit import cells
from firstfix.parts.facts import Unknown
from firstfix.parts.library_files import library
from firstfix.rules.all_kinds import all_kinds, kind_families

PARTS = library()


def test_every_part_is_listed_once(tmp_path: Path) -> None:
    run = firstfix("parts", cwd=tmp_path)
    listed = [line.split()[0] for line in run.out.splitlines() if line.startswith("  ") and line[2] != " "]
    assert sorted(listed) == sorted(PARTS)


def test_all_words_must_occur_in_any_case(tmp_path: Path) -> None:
    found = json.loads(firstfix("parts", "SWITCH", "poe", "--format", "json", cwd=tmp_path).out)
    assert found
    for part in found:
        searched = f"{part['name']} {part['kind']} {part['title']} {part.get('note', '')}".lower()
        assert "switch" in searched
        assert "poe" in searched


def test_an_exact_name_wins_over_names_that_hold_it(tmp_path: Path) -> None:
    out = firstfix("parts", "switch-8", cwd=tmp_path).out
    assert out.startswith("switch-8  switch\n")
    assert "\nothers that 'switch-8' finds\n" in out
    assert "\n  switch-8-poe " in out


@pytest.mark.parametrize("name", PARTS)
def test_each_part_can_be_shown_and_says_what_is_not_known(name: str) -> None:
    part = PARTS[name]
    page = part_page(part)
    assert page.startswith(f"{name}  {part.kind}\n")
    assert all(cells(line) <= 110 for line in page.splitlines())
    assert "Fact(" not in page
    assert "Unknown(" not in page
    if part.rack is not None and isinstance(part.rack.depth, Unknown):
        assert "depth" in page
        assert "not known" in page
    json.dumps(part_data(part), allow_nan=False)


def test_every_rule_is_listed_with_its_level(tmp_path: Path) -> None:
    data = json.loads(firstfix("explain", "--format", "json", cwd=tmp_path).out)
    assert [each["rule"] for each in data] == sorted(kind.id for kind in all_kinds())
    text = firstfix("explain", cwd=tmp_path).out
    assert all(f"\n{kind.id} " in f"\n{text}" for kind in all_kinds())


def test_rules_are_listed_by_family(tmp_path: Path) -> None:
    pages = firstfix("explain", cwd=tmp_path).out.split("\n\n")
    assert [page.partition(":\n")[0] for page in pages] == [family.title for family in kind_families()]
    for page, family in zip(pages, kind_families(), strict=True):
        assert all(f"\n{kind.id} " in page for kind in family.kinds)
    data = json.loads(firstfix("explain", "--format", "json", cwd=tmp_path).out)
    titles = {kind.id: family.title for family in kind_families() for kind in family.kinds}
    assert {each["rule"]: each["family"] for each in data} == titles


def test_a_rule_is_explained_with_its_headings_and_basis(tmp_path: Path) -> None:
    run = firstfix("explain", "key-duplicate", cwd=tmp_path)
    assert run.out.startswith("key-duplicate  error\n  A key stands once in its table.\n\n  Because: ")
    assert run.out.endswith("  Basis: the plan language of firstfix\n")


def test_why_lists_decisions_instead_of_findings(tmp_path: Path) -> None:
    firstfix("new", "-o", "plan.yaml", cwd=tmp_path)
    run = firstfix("check", "plan.yaml", "--why", "core", cwd=tmp_path)
    assert (run.code, run.err) == (0, "")
    assert "core" in run.out
    data = json.loads(firstfix("check", "plan.yaml", "--why", "core", "--format", "json", cwd=tmp_path).out)
    assert {"id", "kind", "title", "at", "sections"} == set(data[0])
    lines = [line for section in data[0]["sections"] for line in section["lines"]]
    assert all({"what", "value", "origin", "why", "at", "not_taken"} == set(line) for line in lines)
    assert {"file", "line", "column"} == set(data[0]["at"])


def test_why_of_a_name_that_is_not_there_offers_the_nearest(tmp_path: Path) -> None:
    firstfix("new", "-o", "plan.yaml", cwd=tmp_path)
    run = firstfix("check", "plan.yaml", "--why", "gatewey", cwd=tmp_path)
    assert (run.code, run.out) == (2, "")
    assert "did you mean 'gateway'?" in run.err


def test_the_keys_of_a_plan_are_told_for_people_and_for_editors(tmp_path: Path) -> None:
    page = firstfix("explain", "--plan", cwd=tmp_path).out
    schema = json.loads(firstfix("explain", "--plan", "--format", "json", cwd=tmp_path).out)
    assert all(f"`{key}`" in page or f"## {key}\n" in page for key in schema["properties"])
    assert firstfix("explain", "poe-budget", "--plan", cwd=tmp_path).code == 2
