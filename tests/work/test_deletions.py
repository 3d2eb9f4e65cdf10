"""Every place in the work that makes a precedence is needed: with any one of them deleted, something comes out of order.

The places are found in the source, so a new one is tried by itself. What must hold is said in must_precede.py, from the builds
alone; and a precedence is deleted by having that one line make none.
"""

import ast
import importlib
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import ModuleType

import networkx
import pytest

import firstfix.work
from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.build.power import MainsFeed
from firstfix.pipeline import compile_plan
from firstfix.work.model import Precedence
from firstfix.work.tasks import tasks
from purchase.sample import sample
from schedule.planned import PLAN, compiled
from work.must_precede import Pair, must_precede
from work.test_precedences import DIRECT

ROOT = Path(__file__).parents[2]
WORK = Path(firstfix.work.__file__).parent


def _places() -> Iterator[tuple[str, int]]:
    """Module and line of each call that makes a precedence."""
    for path in sorted(WORK.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id == "Precedence"
            ):
                yield path.stem, node.lineno


PLACES = sorted(_places())
BUILDS = ("sample", "covered", "mains", "spare", "honey-farm", "rowing-club", "wanted", "old-router",
          "phased")  # fmt: skip
# A plasterer between the cable and the outlet, for whom nothing else here asks.
WANTED = """
work:
  own: {plaster: {does: The plasterer closes the wall, room: loft, takes: 2 days, crew: 0}}
  after: {own:plaster: pull:ap--core/1/2, terminate:out/1: {own:plaster: no dust in an outlet}}
"""


@cache
def builds() -> dict[str, Build]:
    """Plans that people could have, and builds by hand: a cover over a panel, a run plugged straight in, a loop on purpose."""
    made = sample()
    cover = next(mount for mount in made.mounts if mount.is_over)
    over_panel = tuple(mount._replace(low=11, high=11) if mount == cover else mount for mount in made.mounts)
    feeds = (*made.mains_feeds, MainsFeed("device:cam-yard", "room:home/office", 2))
    on_mains = replace(made, mains_feeds=feeds, power_runs={}, power_sources={})
    loop = {
        id_: link._replace(spare_for="link:core/5--storage")
        for id_, link in made.links.items()
        if "ap-hall" in id_
    }
    spare = replace(made, links={**made.links, **loop})
    found = {"sample": made, "covered": replace(made, mounts=over_panel), "mains": on_mains, "spare": spare}
    for path in ("honey-farm", "rowing-club"):
        build = compile_plan(ROOT / "plans" / f"{path}.yaml", path).build
        assert build is not None
        found[path] = build
    found["wanted"] = compiled(WANTED)
    # The router is there already, and is set up anew where it stands.
    routed = PLAN.replace(
        "  old:",
        "  box: {part: gateway-desktop, room: study, owned: true, vlan: home, plugs-into: core/11}\n  old:",
    )
    found["old-router"] = compiled(plan=routed)
    # One that is new is set up before it runs, one that is there already after.
    desk = "{part: computer-desktop, room: study, vlan: home, phase: later, plugs-into: %s}"
    later = f"  desk-1: {desk % 'core/2'}\n  desk-2: {desk % 'old/3'}\n  old:"
    phased = PLAN.replace("part: switch-8,", "part: switch-8-managed,").replace("  old:", later)
    found["phased"] = compiled("phases: {later: {}}", plan=phased)
    return found


def out_of_order(build: Build) -> frozenset[Pair]:
    """Pairs that must come one before the other, and that nothing in the work keeps so, directly or by others."""
    made = tasks(build)
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    graph.add_nodes_from(task.id for task in made)
    graph.add_edges_from((each.before, task.id) for task in made for each in task.after)
    needed = must_precede(build, frozenset(graph))
    before = {after: networkx.ancestors(graph, after) for after in {after for _, after in needed}}
    # Nothing waits for what a later phase brings.
    phases = PhaseKey(build.phases)
    phase = {task.id: phases(task.phase) for task in made}
    return frozenset(
        (first, after)
        for first, after in needed
        if first not in before[after] and phase[first] <= phase[after]
    )


@pytest.mark.parametrize("name", BUILDS)
def test_nothing_is_out_of_order(name: str) -> None:
    assert out_of_order(builds()[name]) == frozenset()


@pytest.mark.parametrize("name", ["honey-farm", "rowing-club"])
def test_there_is_much_that_must_keep_its_order(name: str) -> None:
    steps = frozenset(task.id for task in tasks(builds()[name]))
    pairs = must_precede(builds()[name], steps)
    assert len(pairs) > 2 * len(steps)
    # Each kind of step is held to something, but for what may always be first or is the very last.
    held = {each.partition(":")[0] for pair in pairs for each in pair}
    assert held >= {each.partition(":")[0] for each in steps} - {"sweep", "prove-names"}


def _without(monkeypatch: pytest.MonkeyPatch, module: ModuleType, line: int) -> None:
    """That one call makes a precedence to no step there is, which is dropped."""

    def deleted(before: str, why: str) -> Precedence:
        is_here = sys._getframe(1).f_lineno == line
        return Precedence("" if is_here else before, why)

    monkeypatch.setattr(module, "Precedence", deleted)


@pytest.mark.parametrize(("module", "line"), PLACES)
def test_no_precedence_can_be_deleted(module: str, line: int, monkeypatch: pytest.MonkeyPatch) -> None:
    _without(monkeypatch, importlib.import_module(f"firstfix.work.{module}"), line)
    waits = {task.id: {each.before for each in task.after} for task in tasks(builds()["sample"])}
    if all(before in waits[after] for after, before in DIRECT):
        assert any(out_of_order(builds()[name]) for name in BUILDS)
