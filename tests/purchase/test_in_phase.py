"""Over all phases nothing is needed, bought, done or labelled twice, nothing is left out, and the money of every page goes together."""

import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from firstfix.build.administration import CABLE_LABEL, JACK_LABEL, OUTDOOR_LABEL
from firstfix.build.hardware import IN_PLACE, Item
from firstfix.build.model import Build
from firstfix.build.phases import ranks
from firstfix.graphs.labels import On, physical_labels
from firstfix.pipeline import Compiled, compile_plan, results, standing_after
from firstfix.purchase.by_phase import costs_by_phase, phase_of
from firstfix.purchase.in_phase import InPhase, fresh_items, in_phase
from firstfix.purchase.needs import needs, total
from firstfix.purchase.tally import money_of
from firstfix.rules.spending_kinds import PHASE_BUDGET
from firstfix.work.tasks import tasks
from repo.editing import ROOT

BOATS = """\
name: Boats
currency: EUR
sites:
  club:
    rooms:
      office: {mains: 9}
      hall: {mains: 2}
      terrace: {outdoors: true, drop: 1 m}
ways:
  trunking: {between: [office, hall], length: 9 m, kind: trunking}
  wall: {between: [hall, terrace], length: 5 m, kind: wall}
cabinets:
  main: {room: office, part: wall-cabinet-9u, layout: {9: core, 8: panel}}
cabling: {spares: 10}
devices:
  core: {part: switch-24-poe}
  panel: {part: keystone-panel-24-1u}
  desks: {part: wall-outlet-4, room: hall}
  pc-1: {part: computer-desktop, room: hall}
  pc-2..3: {part: computer-desktop, room: hall, phase: desks}
  cam-1: {part: camera-outdoor, room: terrace, plugs-into: [panel, core]}
  cam-2: {part: camera-outdoor, room: terrace, plugs-into: [panel, core], phase: eyes}
links:
  - {run: [pc-1, desks/1, panel, core]}
  - {run: [pc-2, desks/2, panel, core], phase: desks}
  - {run: [pc-3, desks/3, panel, core], phase: desks}
phases: {built: {}, desks: {budget: 500}, eyes: {budget: 10}}
work: {own: {ask: {does: ask for the money, phase: desks, takes: 2 h}}}
"""
_PLANS = ROOT / "tests" / "plan" / "plans"
PLANS = ("boats", "school", "nursery", "workshop")


@cache
def whole(name: str) -> Compiled:
    if name == "boats":
        path = _written()
    else:
        path = ROOT / "plans" / "school.yaml" if name == "school" else _PLANS / f"{name}.yaml"
    return compile_plan(path, path.name)


@pytest.fixture(scope="module", autouse=True)
def _folder(tmp_path_factory: pytest.TempPathFactory) -> None:
    _FOLDER[:] = [tmp_path_factory.mktemp("in-phase")]


_FOLDER: list[Path] = []


def _written() -> Path:
    path = _FOLDER[0] / "boats.yaml"
    path.write_text(BOATS)
    return path


def of(name: str) -> Build:
    build = whole(name).build
    assert build is not None
    return build


def stages(name: str) -> Iterator[tuple[str, tuple[Item, ...], InPhase]]:
    """Each phase with what comes with it and its list."""
    before: Build | None = None
    for phase in of(name).phases:
        then = standing_after(whole(name), phase.name).build
        assert then is not None
        yield phase.name, fresh_items(before, then), in_phase(before, then)
        before = then


@pytest.mark.parametrize("name", PLANS)
def test_what_the_phases_need_adds_up_to_the_list(name: str) -> None:
    """A line that a phase has wholly from before is not on its list."""
    needed: defaultdict[str, float] = defaultdict(float)
    for _, _, found in stages(name):
        bought = {need.id for need in found.to_buy}
        for need in found.to_buy:
            needed[need.id] += need.amount.needed
        for each in found.from_before:
            if each.line not in bought:
                needed[each.line] += each.quantity
    assert {line: round(much, 3) for line, much in needed.items()} == {
        need.id: round(need.amount.needed, 3) for need in needs(of(name))
    }


@pytest.mark.parametrize("name", PLANS)
def test_an_item_comes_in_the_phase_of_the_step_that_takes_it(name: str) -> None:
    build = of(name)
    takes = {item: task for task in tasks(build) for item in task.parts}
    rank = ranks(build.phases)
    come = {item.id: phase for phase, fresh, _ in stages(name) for item in fresh}
    for item in build.items:
        assert come[item.id] == phase_of(build, item)
        if item.standing != IN_PLACE:
            assert max(1, rank[takes[item.id].phase]) == rank[come[item.id]], item.id


def test_what_a_later_run_needs_where_it_ends_and_comes_in_is_of_its_phase() -> None:
    """By hand: two runs to an outlet and a panel that are there, and one cable more through a wall."""
    counts: defaultdict[tuple[str, str], int] = defaultdict(int)
    for item in of("boats").items:
        if item.part in ("jack-cat6", "gland-m16", JACK_LABEL, "fire-stop-sealant"):
            counts[item.part, phase_of(of("boats"), item)] += item.count
    assert counts == {
        ("jack-cat6", "built"): 3, ("jack-cat6", "desks"): 4, ("jack-cat6", "eyes"): 1,
        (JACK_LABEL, "built"): 3, (JACK_LABEL, "desks"): 4, (JACK_LABEL, "eyes"): 1,
        ("gland-m16", "built"): 1, ("gland-m16", "eyes"): 1,
        ("fire-stop-sealant", "built"): 1,
    }  # fmt: skip


@pytest.mark.parametrize("name", PLANS)
def test_a_jacks_label_is_of_the_phase_of_its_run(name: str) -> None:
    build = of(name)
    labels = physical_labels(build)
    flags = {each.jack: each.phase for each in labels if each.on is not On.JACK and each.is_run}
    jacks = [each for each in labels if each.on is On.JACK]
    assert jacks or name == "nursery"
    assert all(each.phase == flags[each.jack] for each in jacks)
    bought: defaultdict[tuple[str, str], int] = defaultdict(int)
    for item in build.items:
        if item.part in (JACK_LABEL, CABLE_LABEL, OUTDOOR_LABEL):
            bought[item.part, item.phase] += item.count
    for each in labels:
        if each.on is not On.THING:
            bought[each.part, each.phase] -= 1
    assert not any(bought.values())


@pytest.mark.parametrize("name", PLANS)
def test_money_is_the_same_on_every_page(name: str) -> None:
    """By phase: the whole list, the tally of costs.md, and the budget's finding, as of the whole and as of the phase itself."""
    build = of(name)
    to_buy = needs(build)
    costs = {cost.name: cost.paid for cost in costs_by_phase(build, to_buy)}
    (tally,) = (each for each in money_of(build, to_buy, None).tallies if each.by == "phase")
    assert {share.name: share.paid for share in tally.shares} == {name: paid for name, paid in costs.items() if paid}  # fmt: skip
    lists = sum(total(found.to_buy).known for _, _, found in stages(name))
    assert sum(costs.values()) == total(to_buy).known <= lists


def test_the_budget_is_judged_by_the_share_of_the_whole_in_each_phases_findings() -> None:
    def said(compiled: Compiled) -> set[tuple[str, str]]:
        return {(each.subject, each.message) for each in compiled.report.findings if each.rule == PHASE_BUDGET.id}  # fmt: skip

    assert {subject for subject, _ in said(whole("boats"))} == {"phase:desks", "phase:eyes"}
    assert said(standing_after(whole("boats"), "built")) == set()
    assert said(standing_after(whole("boats"), "desks")) == {
        each for each in said(whole("boats")) if each[0] == "phase:desks"
    }


def test_each_list_says_how_far_it_is_from_its_share() -> None:
    """The figures on the pages add up to what the lists cost more than the whole one."""
    files = {name: content.decode() for name, content in results(whole("boats")).items() if name.endswith(".md")}  # fmt: skip
    more = 0.0
    for phase in ("built", "desks", "eyes"):
        text = files[f"phases/{phase}/shopping-list.md"]
        assert "This phase's share of the whole list is " in text
        said = re.search(r"This list comes to (?:the same|([\d ]+\.\d\d) EUR (more|less)):?", text)
        assert said
        figure = float((said[1] or "0").replace(" ", ""))
        more += -figure if said[2] == "less" else figure
    lists = sum(total(found.to_buy).known for _, _, found in stages("boats"))
    assert round(more * 100) == lists - total(needs(of("boats"))).known


def test_own_steps_are_in_the_checklist_of_their_phase_with_their_time() -> None:
    files = results(whole("boats"))
    there = {name for name, content in files.items() if name.endswith("checklist.md") and b"own:step/ask" in content}  # fmt: skip
    assert there == {"install-checklist.md", "phases/desks/install-checklist.md"}
    assert b"Takes 2 h of work, as the plan says" in files["phases/desks/install-checklist.md"]


def test_an_order_wanted_for_a_later_step_is_no_fault_of_the_first_phase(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(
        BOATS.replace("takes: 2 h}}", "takes: 2 h}}, after: {'fit:cam-2': ['own:ask', 'fit:cam-9']}")
    )
    compiled = compile_plan(path, "plan.yaml")
    said = [each.message for each in compiled.report.findings if each.rule == "step-unknown"]
    early = standing_after(compiled, "built").report.findings
    assert len(said) == 1
    assert [each.message for each in early if each.rule == "step-unknown"] == said


def test_each_phase_has_the_labels_that_come_with_it() -> None:
    files = results(whole("boats"))
    rows = {
        name: sorted(files[name].decode().splitlines()[1:])
        for name in files
        if name.endswith("labels/labels.csv")
    }
    assert set(rows) == {"labels/labels.csv"} | {
        f"phases/{phase}/labels/labels.csv" for phase in ("built", "desks", "eyes")
    }
    apart = [row for name, some in rows.items() if name.startswith("phases/") for row in some]
    assert sorted(apart) == rows["labels/labels.csv"]
