"""What the author wants before what: had where it can be had, and what is left out would truly have closed a ring."""

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import networkx
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.build.phases import Phase, PhaseKey
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.build.working import Wanted
from firstfix.documents.install_checklist import install_checklist_markdown
from firstfix.explaining.step import explain_step
from firstfix.pipeline import compile_plan
from firstfix.work.model import Task
from firstfix.work.order import order
from firstfix.work.tasks import tasks
from firstfix.work.wanted import Woven, weave
from schedule.planned import PLAN, compiled, lined_up, schedule_of, step
from work.test_deletions import WANTED
from work.test_order import acyclic_tasks, task

NO_PHASES = PhaseKey(())
_WISHES = st.lists(st.tuples(st.integers(0, 13), st.integers(0, 13)), max_size=12)


def _graph(made: Iterable[Task]) -> "networkx.DiGraph[str]":
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    graph.add_nodes_from(each.id for each in made)
    graph.add_edges_from((each.before, one.id) for one in made for each in one.after)
    return graph


@given(acyclic_tasks(), _WISHES)
@settings(derandomize=True, deadline=None, max_examples=400)
def test_all_is_had_that_can_be_had(made: list[Task], wishes: list[tuple[int, int]]) -> None:
    wanted = sorted({Wanted(f"t:{step}", f"t:{before}", "") for step, before in wishes})
    found = weave(made, wanted, NO_PHASES)
    graph = _graph(found.tasks)
    assert networkx.is_directed_acyclic_graph(graph)
    assert all(graph.has_edge(each.before, each.step) for each in found.kept)
    assert {(one.id, each.before) for one in made for each in one.after} <= {(a, b) for b, a in graph.edges}
    for each in found.refused:
        assert each.step == each.before or networkx.has_path(graph, each.step, each.before)
        told = [(link.before, link.after) for link in each.ring]
        assert (told[0][0], told[-1][1]) == (each.step, each.before)
        assert each.step == each.before or all(graph.has_edge(*link) for link in told)
    known = {one.id for one in made}
    unnamed = {text for each in wanted for text in (each.step, each.before)} - known
    assert {each.text for each in found.unnamed} == unnamed
    whole = [each for each in wanted if {each.step, each.before} <= known]
    assert sorted([*found.kept, *(each.wanted for each in found.refused)]) == whole


@given(acyclic_tasks(), _WISHES)
@settings(derandomize=True, deadline=None, max_examples=100)
def test_the_order_of_the_steps_given_changes_nothing(
    made: list[Task], wishes: list[tuple[int, int]]
) -> None:
    wanted = sorted({Wanted(f"t:{step}", f"t:{before}", "") for step, before in wishes})
    one, other = weave(made, wanted, NO_PHASES), weave(made[::-1], wanted, NO_PHASES)
    assert (one.kept, one.refused, one.unnamed) == (other.kept, other.refused, other.unnamed)


def _two_phases() -> Woven:
    made = [replace(task("t:a"), phase="now"), replace(task("t:b"), phase="later")]
    wishes = (Wanted("t:a", "t:b", ""), Wanted("t:b", "t:a", ""))
    return weave(made, wishes, PhaseKey((Phase("now"), Phase("later"))))


def test_nothing_waits_for_a_later_phase() -> None:
    found = _two_phases()
    assert [(each.step, each.is_later) for each in found.refused] == [("t:a", True)]
    assert found.kept == (Wanted("t:b", "t:a", ""),)


def test_what_must_be_keeps_its_reason() -> None:
    """The author wants what must be anyhow: that it may be taken back is nothing to say."""
    found = weave([task("t:a"), task("t:b", "t:a")], (Wanted("t:b", "t:a", "I like it"),), NO_PHASES)
    assert [each.why for each in found.tasks[1].after] == ["it must"]
    assert len(found.kept) == 1


def test_a_reason_is_printed_as_the_plans() -> None:
    build = compiled(WANTED)
    text = install_checklist_markdown(build, lined_up(build))
    assert "(the plan says so: no dust in an outlet)" in text
    assert "The plasterer closes the wall** · own:step/plaster" in text


def test_the_plasterer_is_waited_for_and_hinders_nobody_else() -> None:
    """Two days of work by others, 8 h each, while the crew of one goes on."""
    build = compiled(WANTED)
    schedule = schedule_of(build)
    plaster, outlet = step(schedule, "own:step/plaster"), step(schedule, "terminate:jack/out/1@rear")
    assert (plaster.minutes, plaster.people, plaster.who) == (960, 0, ())
    assert outlet.start >= plaster.finish
    meanwhile = [each for each in schedule.steps if plaster.start < each.start < plaster.finish]
    assert meanwhile
    assert schedule.finish < 960 + sum(each.minutes for each in schedule.steps if each.people)


def test_done_by_the_crew_it_takes_their_time() -> None:
    own = "work: {hours: 24 h, own: {tidy: {does: Tidy the loft, takes: 90 min, room: loft}}}"
    plain, more = schedule_of(compiled("work: {hours: 24 h}")), schedule_of(compiled(own))
    assert more.finish == plain.finish + 90
    assert step(more, "own:step/tidy").room == "room:home/loft"


def test_a_step_without_a_room_that_there_is_has_a_finding(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN + "work: {own: {tidy: {does: Tidy, takes: 1 h, room: lofft, phase: }}}\n", "utf-8")
    (found,) = compile_plan(path, "plan.yaml").report.findings
    assert (found.rule, found.message) == ("name-unknown", "there is no room 'lofft'; did you mean 'loft'?")


def test_what_is_left_out_leaves_a_checklist(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN + "work: {after: {fit:core: power:core, hang:main: fit:nothing}}\n", "utf-8")
    made = compile_plan(path, "plan.yaml")
    assert [each.rule for each in made.report.findings] == ["steps-in-a-ring", "step-unknown"]
    assert made.build is not None
    assert [each.id for each in order(tasks(made.build))] == [each.id for each in lined_up(compiled())]


def test_why_a_step_waits_says_that_the_author_wrote_it() -> None:
    told = explain_step(compiled(WANTED), "step:terminate:jack/out/1@rear")
    lines = {line.what: line for section in told.sections for line in section.lines}
    assert lines["own:step/plaster"].origin == WRITTEN
    assert lines["pull:piece/ap--core/1/2"].origin == WORKED_OUT
