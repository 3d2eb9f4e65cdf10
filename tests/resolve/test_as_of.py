"""The build as of a phase against a plan from which all that comes later is deleted: the rules say the same of both.

The second way is the plan's own: specs are left out before anything is resolved. Choices are kept, so that the same jacks are taken.
"""

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from firstfix.allocations.choices import NO_CHOICES
from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.phases import ranks
from firstfix.parts.facts import Fact
from firstfix.parts.library_files import library
from firstfix.pipeline import Compiled, choices_to_keep, compile_plan
from firstfix.plan.model import Plan, SlotSpec
from firstfix.resolve.as_of import build_as_of
from firstfix.resolve.make_build import make_build
from firstfix.rules.kept import RULES as KEPT_RULES
from firstfix.rules.run import examine
from repo.editing import ROOT
from resolve.planning import compiled, one_room

PLANS = (
    ROOT / "plans" / "school.yaml",
    *(ROOT / "tests" / "plan" / "plans" / name for name in ("nursery.yaml", "workshop.yaml")),
    ROOT / "tests" / "plan" / "plans" / "school" / "plan.yaml",
)
# Of what was kept for later things the shorter plan has no use; that is not about the network.
_BESIDE = {rule.kind.id for rule in KEPT_RULES}
# Phases are judged by the plan that has all of them.
_ON_PHASES = {"phase-order", "phase-power", "phase-place", "phase-service"}


@cache
def whole(path: Path) -> Compiled:
    return compile_plan(path, path.name)


def deleted(plan: Plan, build: Build, phase: str) -> Plan:
    """Without what comes after `phase`, by the phases that its things came to have."""
    rank = ranks(build.phases)
    last = rank[phase]
    gone = {each.name for each in build.devices.values() if rank[each.phase] > last}
    links = {
        (tuple(hop.shown for hop in each.hops)): each
        for each in plan.links
        if rank[each.phase] <= last and not gone & {hop.device for hop in each.hops}
    }
    return replace(
        plan,
        devices=tuple(each for each in plan.devices if each.name not in gone),
        ways=tuple(each for each in plan.ways if rank[each.phase] <= last),
        links=tuple(links.values()),
        cabinets=tuple(
            replace(
                each, slots=tuple(_free(slot) for slot in each.slots if _is_there(slot, rank, last, gone))
            )
            for each in plan.cabinets
            if rank[each.phase] <= last
        ),
        names=replace(plan.names, servers=tuple(each for each in plan.names.servers if each not in gone)),
        phases=tuple(each for each in plan.phases if rank[each.name] <= last),
    )


def _free(slot: SlotSpec) -> SlotSpec:
    """What is kept free for later is kept free now."""
    return replace(slot, phase="") if slot.what == "keep-free" else slot


def _is_there(slot: SlotSpec, rank: Any, last: int, gone: set[str]) -> bool:
    assert not gone & set(slot.carries) or set(slot.carries) <= gone, "write a shelf for each phase"
    is_later = rank[slot.phase] > last and slot.what != "keep-free"
    return not is_later and slot.name not in gone


def said(build: Build) -> list[tuple[str, str, str]]:
    outcomes = examine(build)
    found = [(each.rule, each.subject, each.message) for each in outcomes.findings]
    found += [(each.rule, each.subject, "cannot tell") for each in outcomes.undetermined]
    return sorted(each for each in found if each[0] not in _BESIDE | _ON_PHASES)


@pytest.mark.parametrize("path", PLANS, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_the_rules_say_what_they_would_say_of_a_plan_without_the_rest(path: Path) -> None:
    result = whole(path)
    assert result.plan is not None
    assert result.build is not None
    choices = choices_to_keep(result)
    for phase in ("", *(each.name for each in result.build.phases)):
        then = build_as_of(result.plan, result.build, phase)
        other = make_build(deleted(result.plan, result.build, phase), library(), choices)
        assert set(then.devices) == set(other.devices)
        assert set(then.pieces) == set(other.pieces)
        assert said(then) == said(other)
        watts = {id_: (each.reserved, each.drawn) for id_, each in then.power_runs.items()}
        assert watts == {id_: (each.reserved, each.drawn) for id_, each in other.power_runs.items()}
        assert {id_: each.taken for id_, each in then.power_sources.items()} == {id_: each.taken for id_, each in other.power_sources.items()}  # fmt: skip


def test_the_last_phase_is_the_whole_itself() -> None:
    result = whole(PLANS[0])
    assert result.plan is not None
    assert result.build is not None
    assert build_as_of(result.plan, result.build, result.build.phases[-1].name) is result.build


def test_who_hands_on_less_takes_less(tmp_path: Path) -> None:
    """A switch fed over its cable takes what it gives on; the camera of autumn is not yet in that."""
    devices: dict[str, Any] = {"core": "switch-16-poe", "far": "switch-8-poe-fed", "eye": "camera", "ear": "camera"}  # fmt: skip
    links: list[dict[str, Any]] = [{"run": ["far", "core"]}, {"run": ["eye", "far"]}, {"run": ["ear", "far"]}]
    plan = one_room(devices, links, phases={"spring": {}, "autumn": {}})
    plan["devices"]["ear"]["phase"] = "autumn"
    plan["devices"]["far"]["power"] = "poe"
    result = compiled(tmp_path, plan)
    assert result.plan is not None
    assert result.build is not None
    taken = []
    for phase in ("spring", "autumn"):
        far = build_as_of(result.plan, result.build, phase).power_sources[ids.device("far")].taken
        assert isinstance(far, Fact)
        taken.append(far.high)
    spring, autumn = taken
    assert autumn == pytest.approx(2 * spring)


def test_choices_are_those_of_the_whole(tmp_path: Path) -> None:
    """Made by themselves, the runs of spring might take other jacks; a presence takes none anew."""
    devices: dict[str, Any] = {"a": "switch-8", "b": "end-device", "c": "end-device"}
    plan = one_room(devices, [{"run": ["b", "a"]}, {"run": ["c", "a"], "phase": "autumn"}], phases={"spring": {}, "autumn": {}})  # fmt: skip
    result = compiled(tmp_path, plan)
    assert result.choices == NO_CHOICES
    assert result.plan is not None
    assert result.build is not None
    then = build_as_of(result.plan, result.build, "spring")
    assert all(result.build.pieces[id_] == piece for id_, piece in then.pieces.items())
    assert len(then.pieces) == 1


def test_an_unknown_phase_is_refused() -> None:
    result = whole(PLANS[1])
    assert result.plan is not None
    assert result.build is not None
    with pytest.raises(ValueError, match="there is no phase 'winter'"):
        build_as_of(result.plan, result.build, "winter")
