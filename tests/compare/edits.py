"""Random edits of plans held as data: what somebody may do to a plan between two evenings, one small function each.

`edited` makes one; a plan in which an edit finds nothing to do is given back as it was. Not every edit leaves a sound plan, and that is
meant: builds of plans with faults are compared, too.
"""

import copy
import random
import re
from collections.abc import Callable
from typing import Any

from laws.test_more_and_less import _without as without_device

Plan = Any
Edit = Callable[[Plan, random.Random], None]


def edited(plan: Plan, chance: random.Random, count: int) -> Plan:
    """`count` edits, one after the other."""
    changed = copy.deepcopy(plan)
    for _ in range(count):
        chance.choice(EDITS)(changed, chance)
    return changed


def _device(plan: Plan, chance: random.Random) -> str:
    return str(chance.choice(sorted(plan["devices"])))


def _rooms(plan: Plan) -> list[str]:
    return sorted({each["room"] for each in plan["devices"].values() if isinstance(each.get("room"), str)})


def take_away(plan: Plan, chance: random.Random) -> None:
    left = without_device(plan, _device(plan, chance))
    plan.clear()
    plan.update(left)


def add_camera(plan: Plan, chance: random.Random) -> None:
    bridges = [name for name, each in plan["devices"].items() if "switch" in each["part"]]
    if bridges and _rooms(plan):
        name = f"cam-extra-{chance.randrange(99)}"
        plan["devices"][name] = {
            "part": "camera",
            "room": chance.choice(_rooms(plan)),
            "plugs-into": [chance.choice(sorted(bridges))],
        }


def longer_way(plan: Plan, chance: random.Random) -> None:
    way = plan["ways"][chance.choice(sorted(plan["ways"]))]
    way["length"] = f"{chance.randrange(3, 60)} m"


def other_room(plan: Plan, chance: random.Random) -> None:
    device = plan["devices"][_device(plan, chance)]
    if "room" in device:
        device["room"] = chance.choice(_rooms(plan))


def other_part(plan: Plan, chance: random.Random) -> None:
    device = plan["devices"][_device(plan, chance)]
    device["part"] = {
        "access-point": "camera",
        "camera": "access-point",
        "switch-8-poe": "switch-16-poe",
    }.get(device["part"], device["part"])


def own_it(plan: Plan, chance: random.Random) -> None:
    plan["devices"][_device(plan, chance)]["owned"] = chance.random() < 0.5


def other_vlan_number(plan: Plan, chance: random.Random) -> None:
    if plan.get("vlans"):
        plan["vlans"][chance.choice(sorted(plan["vlans"]))]["id"] = chance.randrange(100, 4000)


def other_host(plan: Plan, chance: random.Random) -> None:
    device = plan["devices"][_device(plan, chance)]
    if isinstance(device.get("host"), int):
        device["host"] = chance.randrange(60, 90)


def other_reach(plan: Plan, chance: random.Random) -> None:
    if plan.get("vlans"):
        vlan = plan["vlans"][chance.choice(sorted(plan["vlans"]))]
        vlan["reaches"] = sorted(chance.sample(sorted(plan["vlans"]), 1))


def other_jack(plan: Plan, chance: random.Random) -> None:
    """A hop on another jack of the same device: a run by another id."""
    links = [each for each in plan.get("links", []) if isinstance(each, dict) and "run" in each]
    if links:
        run = chance.choice(links)["run"]
        place = chance.randrange(len(run))
        run[place] = re.sub(r"(/\d+)?$", f"/{chance.randrange(1, 9)}", str(run[place]))


def keep_free_elsewhere(plan: Plan, chance: random.Random) -> None:
    for cabinet in plan.get("cabinets", {}).values():
        layout = cabinet["layout"]
        kept = [unit for unit, slot in layout.items() if isinstance(slot, dict) and "keep-free" in slot]
        if kept:
            slot = layout.pop(chance.choice(sorted(map(str, kept))), None)
            if slot is not None:
                layout[str(chance.randrange(1, 20))] = slot


def call_otherwise(plan: Plan, chance: random.Random) -> None:
    """One device by another name, with or without saying so."""
    old = _device(plan, chance)
    new = chance.choice(("aa-", "zz-")) + old
    if new in plan["devices"]:
        return
    name = re.compile(rf"(?<![a-z0-9-]){re.escape(old)}(?![a-z0-9-])")

    def called(node: Any, at: str) -> Any:
        if isinstance(node, dict):
            return {
                (new if at == "devices" and key == old else key): called(value, key)
                for key, value in node.items()
            }
        if isinstance(node, list):
            return [called(each, at) for each in node]
        is_name = at in ("run", "plugs-into", "power", "carries", "over", "servers", "through", "spare-for")
        is_slot = isinstance(node, str) and node == old and re.fullmatch(r"[\d-]+", at) is not None
        return name.sub(new, node) if isinstance(node, str) and (is_name or is_slot) else node

    changed = called(plan, "")
    if chance.random() < 0.5:
        changed["devices"][new]["was"] = old
    plan.clear()
    plan.update(changed)


EDITS: tuple[Edit, ...] = (
    take_away, add_camera, longer_way, other_room, other_part, own_it, other_vlan_number, other_host, other_reach, other_jack,
    keep_free_elsewhere, call_otherwise,
)  # fmt: skip
