"""An address is never there twice on the way: who gives it up comes first."""

from itertools import permutations
from pathlib import Path
from typing import Any

import pytest

from changeover.networks import Plan, acts, switched, way


def third(**hosts: int) -> Plan:
    """A third switch behind the far one; each with the host number given."""
    plan = switched()
    plan["devices"]["c-far"] = {"part": "switch-8-managed", "room": "loft", "vlan": "manage", "host": 4}
    plan["links"].append({"run": ["b-far/2", "c-far/1"]})
    for name, host in hosts.items():
        plan["devices"][name.replace("_", "-")]["host"] = host
    return plan


def given(plan: Plan) -> dict[str, Any]:
    return {f"device:{name}": each["host"] for name, each in plan["devices"].items() if "host" in each}


@pytest.mark.parametrize("hosts", list(permutations((2, 3, 4, 6), 3))[::3])
def test_no_address_is_there_twice_after_any_step(hosts: tuple[int, int, int], tmp_path: Path) -> None:
    names = ("a_near", "b_far", "c_far")
    old, new = third(), third(**dict(zip(names, hosts, strict=True)))
    found = way(tmp_path, old, new)
    now, then = given(old), given(new)
    for step in found.steps:
        for act in step.acts:
            kind, device = act.id.split(":", 1)
            assert kind == "ADDRESS"
            now[device] = then[device]
        assert len(set(now.values())) == len(now)
    assert now == then
    assert found.is_proven


def test_two_that_exchange_their_addresses_are_set_in_one_go(tmp_path: Path) -> None:
    found = way(tmp_path, third(), third(b_far=4, c_far=3))
    (step,) = found.steps
    assert [act.id for act in step.acts] == ["ADDRESS:device:b-far", "ADDRESS:device:c-far"]
    assert "a free address of the VLAN" in step.checks[0]


def test_what_is_new_gets_an_address_once_it_is_free(tmp_path: Path) -> None:
    new = third(b_far=8)
    new["devices"]["store"] = {"part": "storage-2-bay", "room": "den", "vlan": "manage", "host": 3}
    new["links"].append({"run": ["store", "a-near/6"]})
    order = acts(way(tmp_path, third(), new))
    assert order.index("ADDRESS:device:b-far") < order.index("PUT_IN:device:store")
