"""Small networks as data, and the way from one to another."""

from copy import deepcopy
from pathlib import Path
from typing import Any

from firstfix.build.model import Build
from firstfix.changeover.model import Way
from firstfix.changeover.way import way_there
from resolve.planning import build_of

Plan = dict[str, Any]

ROOMS = {"home": {"rooms": {"den": {"mains": 12}, "barn": {"mains": 6}, "loft": {"mains": 6}}}}
WAYS = {
    "yard": {"between": ["den", "barn"], "length": "20 m", "kind": "trunking"},
    "shaft": {"between": ["den", "loft"], "length": "8 m", "kind": "riser"},
    "gable": {"between": ["barn", "loft"], "length": "15 m", "kind": "trunking"},
}
VLANS = {
    "house": {"id": 10, "subnet": "10.9.10.0/24", "dhcp": "100-199"},
    "manage": {"id": 99, "subnet": "10.9.99.0/24"},
}


def switched(**more: Any) -> Plan:
    """A router, a switch near it and one far from it, with a computer at each; all is managed in one VLAN."""
    plan: Plan = {
        "sites": deepcopy(ROOMS),
        "ways": deepcopy(WAYS),
        "vlans": deepcopy(VLANS),
        "devices": {
            "gateway": {"part": "gateway-1u", "room": "den", "vlan": "manage", "tagged": ["house"]},
            "a-near": {"part": "switch-8-managed", "room": "den", "vlan": "manage", "host": 2},
            "b-far": {"part": "switch-8-managed", "room": "barn", "vlan": "manage", "host": 3},
            "desk": {"part": "computer-desktop", "room": "den", "vlan": "house"},
            "till": {"part": "computer-desktop", "room": "barn", "vlan": "house"},
        },
        "links": [
            {"run": ["gateway/1", "a-near/1"]},
            {"run": ["a-near/2", "b-far/1"]},
            {"run": ["desk", "a-near/5"]},
            {"run": ["till", "b-far/5"]},
        ],
    }
    plan.update(more)
    return plan


def build(folder: Path, plan: Plan) -> Build:
    return build_of(folder, plan)


def way(folder: Path, old: Plan, new: Plan, station: str = "") -> Way:
    before, after = build(folder, old), build(folder, new)
    names = {was: now for now, was in after.renames.items()}
    return way_there(before, after, names, station)


def acts(found: Way) -> list[str]:
    """Ids of what is done, in order."""
    return [act.id for step in found.steps for act in step.acts]
