"""Ways between two plans: what must come before what, what is never done, what is said."""

from copy import deepcopy
from itertools import permutations
from pathlib import Path
from typing import Any

import pytest

from changeover.edits import EDITS, base, edited
from changeover.networks import Plan, acts, build, switched, way
from changeover.test_order import course
from firstfix.changeover.model import Interruption, Step, Way, windows
from firstfix.changeover.order import best_order
from firstfix.changeover.sides import Setting, side_of
from firstfix.changeover.way import way_there
from firstfix.work import cautions


def of_step(found: Way, start: str) -> Step:
    (step,) = [step for step in found.steps if any(act.id.startswith(start) for act in step.acts)]
    return step


def is_clean(found: Way) -> bool:
    return not any(step.broken or step.locked or step.on_site for step in found.steps)


# Nothing to do


def test_from_a_plan_to_itself_there_is_nothing_to_do(tmp_path: Path) -> None:
    found = way(tmp_path, base(), base())
    assert (found.steps, found.service, found.management, found.interruptions) == ((), (), (), ())
    assert found.is_proven


def test_other_names_are_nothing_to_do(tmp_path: Path) -> None:
    old, new = switched(), switched()
    new["devices"]["barn-switch"] = {**new["devices"].pop("b-far"), "was": "b-far"}
    new["devices"]["zz-desk"] = {**new["devices"].pop("desk"), "was": "desk"}
    new["vlans"]["gear"] = {**new["vlans"].pop("manage"), "was": "manage"}
    names = {"b-far": "barn-switch", "desk": "zz-desk"}
    for link in new["links"]:
        link["run"] = ["/".join([names.get(n, n), *r]) for n, *r in (end.split("/") for end in link["run"])]
    for device in new["devices"].values():
        if device.get("vlan") == "manage":
            device["vlan"] = "gear"
    found = way(tmp_path, old, new)
    assert found.steps == ()
    assert found.renamed == 3


# Far end first


def turned() -> Plan:
    """The untagged VLAN of the link between the switches becomes another, at both ends."""
    new = switched()
    new["links"][1]["untagged"] = "house"
    return new


def test_the_far_end_of_a_link_is_turned_first(tmp_path: Path) -> None:
    found = way(tmp_path, switched(), turned())
    assert acts(found) == ["TURN:device:b-far>device:a-near", "TURN:device:a-near>device:b-far"]
    assert is_clean(found)
    assert [step.unmanaged for step in found.steps] == [("b-far",), ("b-far",)]
    assert found.management_minutes == 10


def test_the_obvious_order_locks_the_far_switch_out(tmp_path: Path) -> None:
    """By name, from the top down, and from where one stands: near first. Then nobody can set the far one any more."""
    found = course(build(tmp_path, switched()), build(tmp_path, turned()))
    near, far = (
        next(bit for bit, each in enumerate(found.bundles) if each.jobs[0].subject == device)
        for device in ("device:a-near", "device:b-far")
    )
    first = found.effect(0, 1 << near)
    assert found.network.names_of(first.locked) == ("device:b-far",)
    assert [job.subject for job in found.effect(1 << near, 1 << far).on_site] == ["device:b-far"]
    assert not found.effect(0, 1 << far).locked


def test_all_can_go_to_another_vlan_of_their_own_with_nobody_locked_out(tmp_path: Path) -> None:
    """Widened first, then each at its new address, then the old VLAN taken off, from the far end."""
    new = switched()
    new["vlans"]["gear"] = {"id": 50, "subnet": "10.9.50.0/24"}
    del new["vlans"]["manage"]
    for device in ("gateway", "a-near", "b-far"):
        new["devices"][device]["vlan"] = "gear"
    found = way(tmp_path, switched(), new)
    assert is_clean(found)
    assert found.service == ()
    order = acts(found)
    for switch in ("a-near", "b-far"):
        moved = order.index(f"ADDRESS:device:{switch}")
        assert all(order.index(each) < moved for each in order if each.startswith("WIDEN"))
        assert all(order.index(each) > moved for each in order if each.startswith("TURN"))


def test_a_switch_that_cannot_be_reached_is_set_at_the_switch_itself(tmp_path: Path) -> None:
    """Its link carries nothing of its own VLAN, in the old plan: what is to be done there is done on site, and that is said."""
    old, new = switched(), switched()
    old["links"][1] |= {"untagged": "house", "tagged": []}
    found = way(tmp_path, old, new)
    on_site = [name for step in found.steps for name in step.on_site]
    assert on_site == ["b-far"]
    assert found.is_proven


# No loops


def ring(part: str, *, closed: bool) -> Plan:
    devices = {
        name: {"part": part, "room": room} for name, room in (("s1", "den"), ("s2", "barn"), ("s3", "loft"))
    }
    devices |= {
        "gateway": {"part": "gateway-1u", "room": "den"},
        "pc": {"part": "computer-desktop", "room": "loft"},
    }
    links: list[dict[str, Any]] = [
        {"run": ["gateway/1", "s1/1"]}, {"run": ["s1/2", "s2/2"]}, {"run": ["s1/3", "s3/3"]}, {"run": ["pc", "s3/8"]},
    ]  # fmt: skip
    if closed:
        links.append({"run": ["s2/4", "s3/4"], "spare-for": "s1/2"})
    plan = switched(devices=devices, links=links)
    del plan["vlans"]
    return plan


def test_a_ring_is_closed_when_all_of_it_speaks_spanning_tree(tmp_path: Path) -> None:
    found = way(tmp_path, ring("switch-8", closed=False), ring("switch-8-managed", closed=True))
    order = acts(found)
    closing = next(at for at, each in enumerate(order) if each.startswith("JOIN"))
    assert all(order.index(f"SWAP:device:{switch}") < closing for switch in ("s1", "s2", "s3"))
    assert is_clean(found)


def test_a_ring_is_opened_before_a_bridge_in_it_is_silent(tmp_path: Path) -> None:
    found = way(tmp_path, ring("switch-8-managed", closed=True), ring("switch-8", closed=False))
    assert acts(found)[0].startswith("UNPLUG")
    assert is_clean(found)


def test_a_loop_that_the_new_plan_has_itself_is_no_fault_of_the_way(tmp_path: Path) -> None:
    """The rule on loops says it of the plan."""
    old, new = ring("switch-8", closed=False), ring("switch-8", closed=True)
    found = way(tmp_path, old, new)
    assert is_clean(found)


def broken_when_first(folder: Path, old: Plan, new: Plan, kind: str) -> tuple[tuple[str, str], ...]:
    """What is broken if the first job of that kind is done before all others but those that it needs."""
    found = course(build(folder, old), build(folder, new))
    bit = next(bit for bit, each in enumerate(found.bundles) if each.jobs[0].kind.name == kind)
    return found.effect(found.bundles[bit].needs, 1 << bit).broken


def test_a_ring_closed_too_early_is_a_loop(tmp_path: Path) -> None:
    old, new = ring("switch-8", closed=False), ring("switch-8-managed", closed=True)
    assert broken_when_first(tmp_path, old, new, "JOIN") == (("loop", "device:s1 device:s2 device:s3"),)


# No budget


def heads(first: str, second: str, budget: str = "40 W") -> Plan:
    """Two cameras of 24 W at the two switches with so much to give each."""
    plan = switched()
    del plan["vlans"]
    plan["parts"] = {
        "small-poe": {"like": "switch-8-poe", "gives-poe": {"budget": budget}},
        "big-camera": {"like": "camera", "takes-poe": {"class": 4}, "draw": "24 W"},
    }
    room = {"room": "den"}
    plan["devices"] = {
        "gateway": {"part": "gateway-1u", **room},
        "s1": {"part": "small-poe", **room},
        "s2": {"part": "small-poe", **room},
        "c1": {"part": "big-camera", **room},
        "c2": {"part": "big-camera", **room},
    }
    plan["links"] = [
        {"run": ["gateway/1", "s1/8"]}, {"run": ["gateway/2", "s2/8"]}, {"run": ["c1", first]}, {"run": ["c2", second]},
    ]  # fmt: skip
    return plan


def test_two_heads_change_their_sources_with_one_of_them_drawn_first(tmp_path: Path) -> None:
    """24 W and 24 W are more than 40 W: one is off until the other has left."""
    found = way(tmp_path, heads("s1/1", "s2/1"), heads("s2/2", "s1/2"))
    assert is_clean(found)
    assert acts(found)[0].startswith("UNPLUG")
    assert found.service_minutes == 12


def test_a_head_plugged_in_too_early_is_too_much_for_its_source(tmp_path: Path) -> None:
    old = heads("s1/1", "s2/1")
    new = heads("s1/1", "s2/1")
    new["devices"]["c3"] = {"part": "big-camera", "room": "den"}
    new["links"] = [link for link in new["links"] if link["run"][0] != "c2"] + [{"run": ["c3", "s2/3"]}]
    del new["devices"]["c2"]
    assert broken_when_first(tmp_path, old, new, "PLUG") == (("poe", "device:s2"),)
    found = way(tmp_path, old, new)
    order = [each.partition(":")[0] for each in acts(found)]
    assert order.index("UNPLUG") < order.index("PLUG")
    assert is_clean(found)


def test_with_enough_to_give_each_is_off_only_for_its_own_cord(tmp_path: Path) -> None:
    found = way(tmp_path, heads("s1/1", "s2/1", "60 W"), heads("s2/2", "s1/2", "60 W"))
    assert found.service_minutes == 8
    assert [len(step.down) for step in found.steps] == [1, 1]


@pytest.mark.parametrize(("outlets", "first"), [(3, "TAKE_OUT"), (9, "PUT_IN")])
def test_an_outlet_is_free_before_something_else_is_plugged_in(
    outlets: int, first: str, tmp_path: Path
) -> None:
    old, new = switched(), switched()
    for plan in (old, new):
        plan["sites"]["home"]["rooms"]["den"]["mains"] = outlets
        del plan["devices"]["desk"], plan["links"][2]
    old["devices"]["printer"] = {"part": "end-device", "room": "den", "vlan": "house"}
    old["links"].append({"run": ["printer", "a-near/6"]})
    new["devices"]["scanner"] = {"part": "end-device", "room": "den", "vlan": "house"}
    new["links"].append({"run": ["scanner", "a-near/7"]})
    found = way(tmp_path, old, new)
    order = [each.partition(":")[0] for each in acts(found)]
    assert min(order.index("TAKE_OUT"), order.index("PUT_IN")) == order.index(first)
    assert is_clean(found)


@pytest.mark.parametrize(("rating", "first"), [("10 A", "TAKE_OUT"), ("16 A", "PUT_IN")])
def test_a_circuit_never_carries_both_the_old_and_the_new(rating: str, first: str, tmp_path: Path) -> None:
    """Two kilns of 1 kW: of 10 A at 230 V, 80 % are 1840 W; of 16 A, 2944 W."""
    old = switched()
    old["circuits"] = {"ring": {"rating": rating, "volts": "230 V"}}
    old["sites"]["home"]["rooms"]["den"]["circuit"] = "ring"
    old["parts"] = {"kiln": {"like": "end-device", "draw": "1000 W"}}
    new = deepcopy(old)
    for plan, name, jack in ((old, "old-kiln", 6), (new, "kiln", 7)):
        plan["devices"][name] = {"part": "kiln", "room": "den", "vlan": "house"}
        plan["links"].append({"run": [name, f"a-near/{jack}"]})
    found = way(tmp_path, old, new)
    order = [each.partition(":")[0] for each in acts(found)]
    assert min(order.index("TAKE_OUT"), order.index("PUT_IN")) == order.index(first)
    assert is_clean(found)


# As little as possible goes down


def test_a_second_uplink_stands_before_the_first_is_taken_off(tmp_path: Path) -> None:
    new = switched()
    new["links"][1] = {"run": ["a-near/3", "b-far/2"], "along": ["shaft", "gable"]}
    found = way(tmp_path, switched(), new)
    order = [each.partition(":")[0] for each in acts(found)]
    assert order.index("JOIN") < order.index("UNPLUG")
    assert (found.service, found.management) == ((), ())
    assert is_clean(found)


def test_a_run_is_pulled_before_anything_is_drawn(tmp_path: Path) -> None:
    new = switched()
    new["devices"]["till"]["room"] = "loft"
    found = way(tmp_path, switched(), new)
    assert [each.partition(":")[0] for each in acts(found)] == [
        "PREPARE", "PULL", "CLOSE", "UNPLUG", "MOVE", "JOIN",
    ]  # fmt: skip
    assert not of_step(found, "PULL").disconnects
    (gap,) = found.interruptions
    assert gap == Interruption(4, 6, sum(step.minutes for step in found.steps[3:]), ("till",))


def test_changed_jacks_are_one_step_where_they_want_each_other_free(tmp_path: Path) -> None:
    """Desk and printer change jacks at the switch: neither is free before the other is drawn."""
    new = base()
    for link in new["links"]:
        name = link["run"][0]
        if name in ("desk", "printer"):
            link["run"] = [name, "a-near/4" if name == "desk" else "a-near/5"]
    found = way(tmp_path, base(), new)
    assert is_clean(found)
    assert {each.device for each in found.service} == {"desk", "printer"}


def test_what_hangs_on_a_replaced_switch_is_counted_for_as_long_as_it_takes(tmp_path: Path) -> None:
    new = switched()
    new["devices"]["b-far"]["part"] = "switch-8-half-width-1u"
    found = way(tmp_path, switched(), new)
    (step,) = found.steps
    # Fitting 15 min, starting 5; two cords at 3 min to plug and 1 to draw.
    assert step.minutes == 15 + 5 + 2 * (3 + 1)
    assert [(each.device, each.minutes) for each in found.service] == [("till", 28)]
    assert [(each.device, each.minutes) for each in found.management] == [("b-far", 28)]


def test_the_plans_own_durations_count(tmp_path: Path) -> None:
    new = switched()
    new["devices"]["b-far"]["part"] = "switch-8-half-width-1u"
    new["work"] = {"takes": {"fit": "50 min"}}
    assert way(tmp_path, switched(), new).steps[0].minutes == 63


# All of it


@pytest.mark.parametrize("some", list(permutations(sorted(EDITS), 2))[::5])
def test_all_steps_done_the_old_network_is_the_new_one(some: tuple[str, str], tmp_path: Path) -> None:
    """Cords, settings, devices and addresses, each worked out from the steps alone."""
    old, new = build(tmp_path, edited((some[0],))), build(tmp_path, edited((some[1],)))
    found = course(old, new)
    _, steps = best_order(found)
    before, after = side_of(old, {}), side_of(new, {})
    cords, settings, devices = set(before.laid), dict(before.settings), set(before.devices)
    turned: set[str] = set()
    for does in steps:
        for job in (job for bit, each in enumerate(found.bundles) if does >> bit & 1 for job in each.jobs):
            assert cords.issuperset(job.drops)
            assert cords.isdisjoint(job.adds)
            cords = (cords - set(job.drops)) | set(job.adds)
            settings |= dict(job.sets)
            turned.add(job.subject)
            if job.kind.name == "PUT_IN":
                devices.add(job.subject)
            if job.kind.name == "TAKE_OUT":
                devices.remove(job.subject)
    assert cords == set(after.laid)
    assert devices == set(after.devices)
    differ = {
        jack
        for jack in settings
        if settings[jack] != after.settings.get(jack, Setting())
        and jack.partition("/")[0] not in _follow(before, after)
    }
    swapped = {device for device in devices if before.devices.get(device) != after.devices[device]}
    assert {jack for jack in differ if f"device:{jack[5:].partition('/')[0]}" not in swapped} == set()
    assert turned >= {
        device for device in devices & set(before.claims) if before.claims[device] != after.claims.get(device)
    }


def _follow(*sides: Any) -> set[str]:
    """Jacks of what knows no tags are set by nobody; written without the jack's own name."""
    return {
        f"jack:{device[7:]}"
        for side in sides
        for device, each in side.devices.items()
        if each.part.bridges is False
    }


@pytest.mark.parametrize("some", list(permutations(sorted(EDITS), 3))[::29])
def test_no_step_breaks_a_rule(some: tuple[str, ...], tmp_path: Path) -> None:
    found = way(tmp_path, edited(some[:1]), edited(some[1:]))
    assert found.steps
    assert is_clean(found)
    assert found.is_proven


def test_the_same_two_plans_give_the_same_way(tmp_path: Path) -> None:
    old, new = edited(()), edited(tuple(sorted(EDITS)))
    shuffled = deepcopy(new)
    shuffled["devices"] = dict(reversed(new["devices"].items()))
    shuffled["links"] = new["links"][::-1]
    assert way(tmp_path, old, new) == way(tmp_path, old, shuffled)


def test_stopped_early_it_says_what_is_proved(tmp_path: Path) -> None:
    old, new = (build(tmp_path, plan) for plan in (base(), edited(tuple(sorted(EDITS)))))
    full, short = way_there(old, new, {}), way_there(old, new, {}, most_costs=0)
    assert full.is_proven
    assert short.least_service <= full.service_minutes <= short.service_minutes
    assert {act.id for step in short.steps for act in step.acts} == {
        act.id for step in full.steps for act in step.acts
    }


def test_who_sits_elsewhere_manages_from_there(tmp_path: Path) -> None:
    """At the far switch it is the near one that is far."""
    found = way(tmp_path, switched(), turned(), "device:b-far")
    assert found.station == "b-far"
    assert acts(found)[0].startswith("TURN:device:a-near")


# Windows


def _of(*minutes: int) -> Way:
    gaps = tuple(Interruption(at, at, each, ("x",)) for at, each in enumerate(minutes, 1))
    return Way((), "", (), (), gaps, True, 0, (), 0, ())


@pytest.mark.parametrize(
    ("minutes", "window", "want"),
    [
        ((10, 20, 30), 30, [[10, 20], [30]]),
        ((10, 20, 30), 60, [[10, 20, 30]]),
        ((40, 5), 30, [[40], [5]]),
        ((), 30, []),
    ],
)
def test_windows_hold_interruptions_in_order(
    minutes: tuple[int, ...], window: int, want: list[list[int]]
) -> None:
    assert [[each.minutes for each in held] for held in windows(_of(*minutes), window)] == want


# Care


@pytest.mark.parametrize(
    ("part", "caution"),
    [
        ("access-point", cautions.LADDER),
        ("storage-2-bay", cautions.LIFT),
        ("computer-desktop", cautions.MAINS),
    ],
)
def test_a_step_says_what_can_hurt(part: str, caution: str, tmp_path: Path) -> None:
    new = switched()
    if part == "access-point":
        new["devices"]["a-near"]["part"] = "switch-8-poe"
    new["devices"]["more"] = {"part": part, "room": "den", "vlan": "house"}
    new["links"].append({"run": ["more", "a-near/6"]})
    assert caution in of_step(way(tmp_path, switched(), new), "PUT_IN:device:more").cautions
