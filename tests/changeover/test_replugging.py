"""A run that only changes its jacks stays where it lies: its plug is moved, or its end made anew, and no way is opened."""

from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from changeover.networks import Plan, acts, build, switched, way
from changeover.test_order import cheapest_of_all, course
from firstfix.changeover.job import Job
from firstfix.changeover.order import Course, best_order
from firstfix.work import cautions

# By the tables of usual durations: a plug out 1 min, in 3; an end of four pairs made 8, tested 4.
OUT, IN, MADE, TESTED = 1, 3, 8, 4


def lofts(one: str = "core/1", other: str = "core/2", **of_one: Any) -> Plan:
    """Two access points in the loft, on runs through the shaft to a switch without settings."""
    plan = switched()
    del plan["vlans"]
    plan["devices"] = {
        "gateway": {"part": "gateway-1u", "room": "den"},
        "core": {"part": "switch-8-poe", "room": "den"},
        "ap": {"part": "access-point", "room": "loft"},
        "other-ap": {"part": "access-point", "room": "loft"},
    }
    plan["links"] = [
        {"run": ["gateway/1", "core/8"]},
        {"run": ["ap", one], **of_one},
        {"run": ["other-ap", other]},
    ]
    return plan


def walled(jack: int, panel: str) -> Plan:
    """A computer at an outlet in the loft, whose run ends at this jack of a panel in the den."""
    plan = lofts()
    plan["devices"] |= {
        "panel": {"part": panel, "room": "den"},
        "out": {"part": "wall-outlet-2", "room": "loft"},
        "pc": {"part": "computer-desktop", "room": "loft"},
    }
    plan["links"].append({"run": ["pc", "out/1", f"panel/{jack}", "core/5"]})
    return plan


def uplink(near: int, far: int) -> Plan:
    plan = switched()
    plan["links"][1] = {"run": [f"a-near/{near}", f"b-far/{far}"]}
    return plan


def renamed() -> Plan:
    plan = lofts("hub/4")
    plan["devices"]["hub"] = {**plan["devices"].pop("core"), "was": "core"}
    for link in plan["links"]:
        link["run"] = [end.replace("core/", "hub/") for end in link["run"]]
    return plan


def replaced() -> Plan:
    plan = lofts("core/4")
    plan["devices"]["core"]["part"] = "switch-24-poe"
    return plan


PAIRS = {
    "a plug": (lofts(), lofts("core/4")),
    "two plugs": (lofts(), lofts("core/2", "core/1")),
    "round": (lofts(), lofts("core/2", "core/3")),
    "an uplink": (uplink(2, 1), uplink(3, 1)),
    "an uplink at both ends": (uplink(2, 1), uplink(3, 2)),
    "a wired jack": (walled(1, "keystone-panel-24-1u"), walled(2, "keystone-panel-24-1u")),
    "an end": (walled(1, "fixed-panel-24-1u"), walled(2, "fixed-panel-24-1u")),
    "at a switch that is replaced": (lofts(), replaced()),
}
OF_PAIRS = pytest.mark.parametrize("name", sorted(PAIRS))


def kinds(order: list[str]) -> list[str]:
    return [each.partition(":")[0] for each in order]


def test_a_plug_is_moved_and_nothing_else_is_done(tmp_path: Path) -> None:
    found = way(tmp_path, *PAIRS["a plug"])
    (step,) = found.steps
    (act,) = step.acts
    assert act.what == "Move the plug of the run ap – core from core/1 to core/4"
    assert act.back == "connect it at core/1 again"
    assert act.room == "den"
    assert step.minutes == OUT + IN
    assert [(each.device, each.minutes) for each in found.service] == [("ap", OUT + IN)]
    assert cautions.LADDER not in step.cautions
    assert any(check == "ap/1 – core/4: both ends show a link" for check in step.checks)
    assert found.is_proven


def test_two_plugs_change_jacks_with_both_free_first(tmp_path: Path) -> None:
    """Whichever way: one is off while the other is drawn, and until it is in itself."""
    found = way(tmp_path, *PAIRS["two plugs"])
    assert sorted(kinds(acts(found))) == ["JOIN", "JOIN", "UNPLUG", "UNPLUG"]
    assert {each.device for each in found.service} == {"ap", "other-ap"}
    assert found.service_minutes == OUT + 2 * (OUT + IN) + IN
    said = sorted(act.what for step in found.steps for act in step.acts)
    assert said == [
        "Put the plug of the run ap – core into core/2",
        "Put the plug of the run core – other-ap into core/1",
        "Take the plug of the run ap – core out of core/1",
        "Take the plug of the run core – other-ap out of core/2",
    ]


def test_where_one_takes_the_others_jack_that_one_goes_first(tmp_path: Path) -> None:
    found = way(tmp_path, *PAIRS["round"])
    assert [step.minutes for step in found.steps] == [OUT + IN, OUT + IN]
    assert [step.down for step in found.steps] == [("other-ap",), ("ap",)]


@pytest.mark.parametrize("name", ["an uplink", "an uplink at both ends"])
def test_an_uplink_is_moved_in_one_go(name: str, tmp_path: Path) -> None:
    found = way(tmp_path, *PAIRS[name])
    took = OUT + (2 if "both" in name else 1) * IN
    assert [(each.device, each.minutes) for each in found.service] == [("till", took)]
    assert not any(step.locked or step.on_site or step.broken for step in found.steps)


@pytest.mark.parametrize(
    ("name", "took", "said"),
    [
        ("a wired jack", OUT + IN, "Move the wired jack of the run out – panel from panel/1 to panel/2"),
        (
            "an end",
            OUT + MADE + TESTED,
            "Move the end of the run out – panel from panel/1 to panel/2, made anew and tested",
        ),
    ],
)
def test_an_end_at_a_panel_is_pushed_over_or_made_anew(
    name: str, took: int, said: str, tmp_path: Path
) -> None:
    """Cords of its lane are moved beside it; nothing is pulled."""
    found = way(tmp_path, *PAIRS[name])
    (step,) = [step for step in found.steps if any(act.what == said for act in step.acts)]
    assert step.minutes == took
    assert not {"PULL", "OPEN", "CLOSE"} & set(kinds(acts(found)))


def test_under_another_name_it_is_the_same_run(tmp_path: Path) -> None:
    found = way(tmp_path, lofts(), renamed())
    assert [act.what for step in found.steps for act in step.acts] == [
        "Move the plug of the run ap – hub from hub/1 to hub/4"
    ]


def test_it_is_taken_off_before_its_switch_is_replaced_and_connected_after(tmp_path: Path) -> None:
    found = way(tmp_path, *PAIRS["at a switch that is replaced"])
    assert kinds(acts(found)) == ["UNPLUG", "SWAP", "JOIN"]


def others() -> Iterator[tuple[str, Plan]]:
    yield "another length", lofts("core/4", length="30 m")
    yield "another cable", lofts("core/4", cable="cat6a-indoor")
    yield "another way", lofts("core/4", along=["yard", "gable"])
    elsewhere = lofts("core/4")
    elsewhere["devices"]["ap"]["room"] = "barn"
    yield "another room", elsewhere


@pytest.mark.parametrize("new", [pytest.param(plan, id=name) for name, plan in others()])
def test_what_is_not_the_same_cable_in_the_same_ways_is_pulled(new: Plan, tmp_path: Path) -> None:
    assert "PULL" in kinds(acts(way(tmp_path, lofts(), new)))


def test_one_more_run_is_pulled_beside_one_that_is_moved(tmp_path: Path) -> None:
    new = lofts("core/4")
    new["devices"]["third-ap"] = {"part": "access-point", "room": "loft"}
    new["links"].append({"run": ["third-ap", "core/1"]})
    order = acts(way(tmp_path, lofts(), new))
    assert [each for each in order if each.startswith("PULL")] == [
        each for each in order if each.startswith("PULL:") and "third-ap" in each
    ]
    assert kinds(order).count("PULL") == 1


@OF_PAIRS
def test_no_jack_ever_holds_two_and_all_is_as_planned_at_the_end(name: str, tmp_path: Path) -> None:
    found = course(*(build(tmp_path, plan) for plan in PAIRS[name]))
    old, new = found.network.union.sides
    ends = {key: each.ends for side in (old, new) for key, each in side.laid.items()}
    laid = set(old.laid)
    for job in _in_order(found):
        laid = (laid - set(job.drops)) | set(job.adds)
        taken = [end for key in laid for end in ends[key]]
        assert len(taken) == len(set(taken)), job.id
    assert laid == set(new.laid)


def _in_order(found: Course) -> Iterator[Job]:
    for does in best_order(found)[1]:
        jobs = [job for bit, each in enumerate(found.bundles) if does >> bit & 1 for job in each.jobs]
        yield from sorted(jobs, key=lambda job: not job.drops)


@OF_PAIRS
@pytest.mark.parametrize("is_back", [False, True])
def test_no_order_at_all_costs_less(name: str, is_back: bool, tmp_path: Path) -> None:
    two = [build(tmp_path, deepcopy(plan)) for plan in PAIRS[name]]
    found = course(*(two[::-1] if is_back else two))
    order, _ = best_order(found)
    assert order.is_proven
    assert order.cost == cheapest_of_all(found, 0, {})
