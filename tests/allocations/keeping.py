"""Small plans as data with the choices that are kept beside them, and a strategy that makes such plans."""

import copy
import json
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from firstfix.allocations.write import choices_text
from firstfix.pipeline import Compiled, choices_to_keep, compile_plan

Plan = dict[str, Any]


def compiled(folder: Path, plan: Plan, kept: str | bytes | None = None) -> Compiled:
    """`plan` with the text of its allocations file, or with none beside it."""
    path, beside = folder / "plan.yaml", folder / "plan.allocations.yaml"
    path.write_text(json.dumps(plan), encoding="utf-8")
    beside.unlink(missing_ok=True)
    if kept is not None:
        beside.write_bytes(kept.encode() if isinstance(kept, str) else kept)
    return compile_plan(path, "plan.yaml")


def kept_after(result: Compiled) -> str:
    """What a build would write beside the plan."""
    return choices_text(choices_to_keep(result))


def lines(text: str) -> set[str]:
    return {line for line in text.splitlines() if line.startswith("- ")}


def said(result: Compiled, prefix: str = "kept-") -> list[str]:
    return sorted(each.rule for each in result.report.findings if each.rule.startswith(prefix))


def without_device(plan: Plan, name: str) -> Plan:
    """`plan` without a device and the runs that touch it."""
    left = copy.deepcopy(plan)
    del left["devices"][name]
    left["links"] = [
        link for link in left["links"] if all(hop.partition("/")[0] != name for hop in link["run"])
    ]
    return left


def with_device(plan: Plan, name: str, device: Plan, links: list[Plan]) -> Plan:
    more = copy.deepcopy(plan)
    more["devices"][name] = device
    more["links"] = [*more["links"], *links]
    return more


PARTS = ("camera", "computer-desktop", "access-point", "printer", "end-device", "small-computer-poe")
ROOMS = ("study", "attic")
names = st.text("abcz", min_size=1, max_size=3)


@st.composite
def asked(draw: st.DrawFn) -> str:
    """The core switch with any jack, or one of a range; written jacks of a fixed number belong to one device, see `plans`."""
    low = draw(st.integers(1, 10))
    return draw(st.sampled_from(["core", f"core/{low}-{low + 6}"]))


@st.composite
def devices(draw: st.DrawFn, name: str) -> tuple[Plan, list[Plan]]:
    """A device of any kind, in any room, and its run: straight to the core, or through the panel where it is in another room."""
    room = draw(st.sampled_from(ROOMS))
    device = {"part": draw(st.sampled_from(PARTS)), "room": room, "vlan": "house"}
    through = ["panel"] if draw(st.booleans()) or room == "attic" else []
    return device, [{"run": [name, *through, draw(asked())]}]


@st.composite
def plans(draw: st.DrawFn, most: int = 6) -> Plan:
    """A core switch that gives PoE at half of its jacks, a panel, a strip, and some devices; two routes of one length between the rooms."""
    plan: Plan = {
        "sites": {"home": {"rooms": {"study": {"mains": 3}, "attic": {}}}},
        "ways": {
            name: {"between": ["study", "attic"], "length": "9 m", "kind": "riser"}
            for name in draw(st.sampled_from([("m", "n"), ("n",)]))
        },
        "vlans": {"house": {"id": 10, "subnet": "10.61.10.0/24"}},
        "devices": {
            "core": {"part": "switch-16-poe", "room": "study", "vlan": "house"},
            "gateway": {"part": "gateway-1u", "room": "study"},
            "panel": {"part": "keystone-panel-24-1u", "room": "study"},
            "strip": {"part": "power-strip-1u-8", "room": "study"},
        },
        "links": [{"run": ["gateway/1", "core/16"]}],
    }
    for name in sorted(draw(st.sets(names, max_size=most))):
        device, links = draw(devices(name))
        plan = with_device(plan, name, device, links)
    return plan
