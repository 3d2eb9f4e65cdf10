"""More never cures: a longer way cures no cable; and taking a device away makes no budget, fill, weight or heat worse.

That two plans which differ only in a cord's gauge, a way's warmth or one coupler differ in their margin is shown in
oracles/test_channels.py, against a second reckoning.
"""

import copy
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest

from laws.corpus import EXAMPLES, compiled, name_of, read

_LENGTH = re.compile(r"([\d.]+) m")
_OF_LENGTH = ("channel-length", "poe-reach", "channel-connections", "cable-exposure")
# Rules whose figure grows with what is there, and must not grow when something is taken away.
_OF_ALL_TOGETHER = (
    "poe-budget",
    "way-fill",
    "cabinet-load",
    "shelf-load",
    "cabinet-heat",
    "strip-load",
    "circuit-load",
)
# Of a large plan not every way and device, but so many from all over it: each is some compilations.
_MOST_WAYS = 10
_MOST_DEVICES = 50


def _from_all_over(names: Iterable[str], most: int) -> list[str]:
    """Every so manieth, so that there are no more than `most`."""
    every = sorted(names)
    return every[:: max(1, -(-len(every) // most))]


def _errors(result: Any) -> set[tuple[str, str]]:
    return {
        (each.rule, each.subject)
        for each in result.report.findings
        if each.rule in _OF_LENGTH and each.level == "error"
    }


@pytest.mark.parametrize("path", EXAMPLES, ids=name_of)
def test_a_longer_way_cures_nothing(path: Path, tmp_path: Path) -> None:
    plan = read(path)
    for name in _from_all_over(plan["ways"], _MOST_WAYS):
        found = _LENGTH.fullmatch(plan["ways"][name]["length"])
        assert found is not None
        worse: set[tuple[str, str]] = set()
        for more in (0, 20, 50, 65, 90, 140, 400, 3000):
            longer = copy.deepcopy(plan)
            longer["ways"][name]["length"] = f"{float(found[1]) + more} m"
            errors = _errors(compiled(longer, tmp_path))
            assert worse <= errors, (name, more)
            worse = errors


def _strained(plan: Any) -> Any:
    """The plan with every limit so low that each rule says its figure."""
    strained = copy.deepcopy(plan)
    parts = strained.setdefault("parts", {})
    for way in strained["ways"].values():
        if "bore" in way:
            way["bore"] = "3 mm"
    for cabinet in strained.get("cabinets", {}).values():
        own = f"strained-{cabinet['part']}"
        parts[own] = {"like": cabinet["part"], "cabinet": {"load": "1 kg"}}
        cabinet["part"] = own
    for device in strained["devices"].values():
        part = device["part"]
        if re.search(r"switch.*poe|injector", part) and "fed" not in part:
            own = f"strained-{part}"
            parts[own] = {"like": part, "gives-poe": {"budget": "1 W"}, "exposure": {"warmest": "20 °C"}}
            device["part"] = own
        if "strip" in part or "ups" in part:
            own = f"strained-{part}"
            parts[own] = {"like": part, "mains": {"rating": "1 W"}}
            device["part"] = own
    return strained


def _without(plan: Any, name: str) -> Any:
    """The plan without one device, and without all that goes to it."""
    left = copy.deepcopy(plan)
    del left["devices"][name]
    left["links"] = [
        each for each in left.get("links", []) if name not in {hop.partition("/")[0] for hop in each["run"]}
    ]
    for other in left["devices"].values():
        if name in {str(hop).partition("/")[0] for hop in _listed(other.get("plugs-into", []))}:
            other.pop("plugs-into")
        if name in _listed(other.get("power", [])):
            other.pop("power")
    for cabinet in left.get("cabinets", {}).values():
        cabinet["layout"] = {unit: slot for unit, slot in cabinet["layout"].items() if slot != name}
        for slot in cabinet["layout"].values():
            if isinstance(slot, dict) and name in _listed(slot.get("carries", [])):
                slot["carries"] = [each for each in _listed(slot["carries"]) if each != name]
    servers = left.get("names", {}).get("servers", [])
    if name in servers:
        servers.remove(name)
    if left.get("internet", {}).get("through") == name:
        left.pop("internet")
    left.pop("exceptions", None)
    return left


def _listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


def _figures(result: Any) -> dict[tuple[str, str], float]:
    return {
        (each.rule, each.subject): each.measurement.figure
        for each in result.report.findings
        if each.rule in _OF_ALL_TOGETHER and each.measurement is not None
    }


@pytest.mark.parametrize("path", EXAMPLES, ids=name_of)
def test_a_device_less_makes_nothing_worse(path: Path, tmp_path: Path) -> None:
    plan = _strained(read(path))
    before = _figures(compiled(plan, tmp_path))
    assert {rule for rule, _ in before} & {"poe-budget", "cabinet-load", "cabinet-heat"}
    # What feeds others is left: without it they hang on another thing, which then bears more.
    feeding = {name for name, each in plan["devices"].items() if re.search("strip|ups", each["part"])}
    for name in _from_all_over(plan["devices"].keys() - feeding, _MOST_DEVICES):
        after = _figures(compiled(_without(plan, name), tmp_path))
        for key, figure in after.items():
            assert key not in before or figure <= before[key] + 1e-9, (name, key, before.get(key), figure)
