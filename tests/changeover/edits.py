"""Edits of the plan of `networks.switched` that have nothing to do with each other, so that any of them may be done before others."""

from collections.abc import Callable
from copy import deepcopy

from changeover.networks import Plan

Edit = Callable[[Plan], None]


def _run(plan: Plan, first: str) -> list[str]:
    (run,) = [link["run"] for link in plan["links"] if link["run"][0].startswith(first)]
    return list(run)


def _patched(first: str, *new: str) -> Edit:
    def edit(plan: Plan) -> None:
        for link in plan["links"]:
            if link["run"] == _run(plan, first):
                link["run"] = list(new)
                return

    return edit


def _other(name: str, **facts: object) -> Edit:
    def edit(plan: Plan) -> None:
        plan["devices"][name].update(facts)

    return edit


def _another_place(plan: Plan) -> None:
    plan["devices"]["extra"] = {"part": "computer-desktop", "room": "den", "vlan": "house"}
    plan["links"].append({"run": ["extra", "a-near/7"]})


def _no_printer(plan: Plan) -> None:
    del plan["devices"]["printer"]
    plan["links"] = [link for link in plan["links"] if link["run"][0] != "printer"]


EDITS: dict[str, Edit] = {
    "desk to another jack": _patched("desk", "desk", "a-near/6"),
    "far switch replaced": _other("b-far", part="switch-8-half-width-1u"),
    "till moves": _other("till", room="loft"),
    "store in its own VLAN": _other("store", vlan="shelf"),
    "near switch by another address": _other("a-near", host=22),
    "uplink to another jack": _patched("gateway", "gateway/1", "a-near/3"),
    "another place": _another_place,
    "no printer": _no_printer,
}


def base() -> Plan:
    from changeover.networks import switched

    plan = switched()
    plan["vlans"]["shelf"] = {"id": 30, "subnet": "10.9.30.0/24"}
    plan["devices"]["gateway"]["tagged"] = ["house", "shelf"]
    plan["devices"]["store"] = {"part": "storage-2-bay", "room": "den", "vlan": "house", "host": 20}
    plan["devices"]["printer"] = {"part": "end-device", "room": "den", "vlan": "house"}
    plan["links"] += [{"run": ["store", "a-near/8"]}, {"run": ["printer", "a-near/4"]}]
    return plan


def edited(names: tuple[str, ...]) -> Plan:
    plan = deepcopy(base())
    for name in names:
        EDITS[name](plan)
    return plan
