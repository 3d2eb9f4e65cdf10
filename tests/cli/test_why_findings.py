"""`check PLAN --why RULE`: a rule's findings with nothing left out, and how a rule is told from a thing of the plan."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from cli.running import BROKEN_PLAN, Run, firstfix
from firstfix.resources import schemas

_DEVICES = """\
name: Loft
sites: {home: {rooms: {study: {mains: 9}, loft: {mains: 2}}}}
ways: {riser: {between: [study, loft], length: 9 m, kind: riser, temperature: 20 °C}}
parts:
  eye-part: {like: camera-outdoor, takes-poe: {class: 3}, draw: 9 W}
  small: {like: switch-8-poe, gives-poe: {jacks: 1-8, class: 4, budget: 70 W, counts: class}}
devices:
  gateway: {part: gateway-desktop, room: study}
  core: {part: small, room: study}
"""
_EYES = "".join(f"  eye-{each}: {{part: eye-part, room: loft, plugs-into: core}}\n" for each in range(1, 6))
PLAN = f"{_DEVICES}{_EYES}links: [{{run: [gateway, core]}}]\n"


def why(folder: Path, asked: str, *more: str, plan: str = PLAN) -> Run:
    (folder / "plan.yaml").write_text(plan, "utf-8")
    return firstfix("check", "plan.yaml", "--why", asked, *more, cwd=folder)


@pytest.mark.parametrize(
    "asked", ["poe-budget", "rule:poe-budget", "poe-budget/core", "poe-budget/device:core"]
)
def test_every_term_and_source_is_printed_and_the_reckoning_in_one_line(asked: str, tmp_path: Path) -> None:
    run = why(tmp_path, asked)
    assert (run.code, run.err) == (1, "")
    assert all(f"15.4 W  'eye-{each}', class 3\n" in run.out for each in range(1, 6))
    assert run.out.count("the class's power is reserved; IEEE Std 802.3af (2003), Clause 33") == 5
    assert "at most 70 W: what 'core' has to give, the plan's author" in run.out
    assert "15.4 + 15.4 + 15.4 + 15.4 + 15.4 = 77 W, at most 70 W: 77 - 70 = 7 W too much" in run.out
    assert run.out.count("adds 15.4 W") == 5


def test_what_check_leaves_out_names_the_way_to_all_of_it(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(PLAN, "utf-8")
    out = firstfix("check", "plan.yaml", cwd=tmp_path).out
    assert "+ 46.2 W  3 more; `--why poe-budget` shows all\n" in out


def test_for_programs_it_is_the_report_of_that_rule(tmp_path: Path) -> None:
    data = json.loads(why(tmp_path, "poe-budget", "--format", "json").out)
    Draft202012Validator(json.loads((schemas() / "findings.schema.json").read_text("utf-8"))).validate(data)
    assert {each["rule"] for each in data["findings"]} == {"poe-budget"} == set(data["examined"])
    measured = data["findings"][0]["measurement"]
    assert sum(term["value"] for term in measured["terms"]) == pytest.approx(measured["figure"])
    assert measured["formula"].endswith("77 - 70 = 7 W too much")


def test_a_rule_without_findings_says_what_it_looked_at(tmp_path: Path) -> None:
    run = why(tmp_path, "poe-reach")
    assert run.out == "poe-reach has no finding; it examined 5 subjects of the plan\n"
    assert why(tmp_path, "poe-budget/eye-1").out.startswith(
        "poe-budget has no finding about 'eye-1'; it examined 1"
    )


def test_a_subject_that_is_not_there_is_no_pass(tmp_path: Path) -> None:
    run = why(tmp_path, "poe-budget/cora")
    assert (run.code, run.out) == (2, "")
    assert "nothing in the plan is called 'cora'" in run.err


def test_a_rule_that_is_not_there_offers_the_nearest(tmp_path: Path) -> None:
    run = why(tmp_path, "rule:poe-budgets")
    assert run.code == 2
    assert "did you mean 'poe-budget'?" in run.err


def test_a_thing_with_a_rules_name_is_the_thing_and_the_longer_form_the_rule(tmp_path: Path) -> None:
    named = PLAN.replace("eye-5", "unpowered")
    assert why(tmp_path, "unpowered", plan=named).out.startswith("device unpowered")
    assert why(tmp_path, "rule:unpowered", plan=named).out.startswith("unpowered has no finding; ")


def test_a_plan_that_cannot_be_built_shows_its_faults_too(tmp_path: Path) -> None:
    run = why(tmp_path, "key-unknown", plan=BROKEN_PLAN)
    assert run.out.startswith("error key-unknown")
    unread = why(tmp_path, "syntax", plan="name: [unclosed\n")
    assert unread.code == 2
    assert unread.out.startswith("error syntax")
