"""What a plan is called by, and in which order it is written, changes no verdict."""

import random
import re
from pathlib import Path
from typing import Any

import pytest

from firstfix.plan.series import members
from laws.corpus import EXAMPLES, ONE_OF_EACH_RULE, changed, compiled, name_of, read, verdicts

ALL_PLANS = (*EXAMPLES, *ONE_OF_EACH_RULE)
# Before every device's name: sorts as before, so that jacks are dealt out as before.
_MARK = "zq-"
# What in a plan names devices, by the last keys of its path; a run's hops and the like may go on with "/jack".
_NAMES_A_DEVICE = {
    "run",
    "plugs-into",
    "power",
    "carries",
    "over",
    "servers",
    "through",
    "spare-for",
    "subject",
    "device",
}
# Kept by the order of places: which of two alike is the first, so which is named, may change with the order.
_BY_PLACE = {
    "jack-used-twice", "name-duplicate", "mounted-twice", "vlan-number", "address-duplicate", "key-duplicate", "cabinet-overlap",
    "subnet-overlap", "plan-size", "label-clash",
}  # fmt: skip
# About the names themselves: a label that is written clashes with a name that is a label, too.
_BY_NAME = {"label-clash"}
# Lists and tables whose order is the author's, or that of the jacks on the housing.
_IN_ORDER = {
    "run",
    "plugs-into",
    "servers",
    "along",
    "lengths",
    "power",
    "was",
    "jacks",
    "openings",
    "phases",
}


def _devices(plan: Any) -> list[str]:
    """As they are written, and each member of a series, the longest first."""
    written = list(plan.get("devices") or {})
    series = (members(name) for name in written if ".." in name)
    of_series = [name for names in series if not isinstance(names, str) for name in names]
    return sorted({*written, *of_series}, key=len, reverse=True)


def _renamed(plan: Any) -> Any:
    devices = _devices(plan)
    if not devices:
        return plan
    names = re.compile(
        r"(?:(?<![a-z0-9-])|(?<=[a-z0-9]--))(" + "|".join(map(re.escape, devices)) + r")(?![a-z0-9]|-(?!-))"
    )

    def change(leaf: Any, at: tuple[str, ...]) -> Any:
        if not isinstance(leaf, str):
            return leaf
        if at == ("devices", "<key>"):
            return _MARK + leaf
        if at[:2] == ("work", "after"):
            return names.sub(lambda found: _MARK + found[1], leaf)
        in_layout = "layout" in at and at[-1] not in ("<key>", "fit", "keep-free", "heat", "phase", "note")
        is_name = at[-1] in _NAMES_A_DEVICE or (in_layout and at[-1] != "side")
        if at[0] in ("devices", "links", "cabinets", "names", "internet", "exceptions") and is_name:
            return names.sub(lambda found: _MARK + found[1], leaf)
        return leaf

    return changed(plan, change)


@pytest.mark.parametrize("path", ALL_PLANS, ids=name_of)
def test_devices_by_other_names(path: Path, tmp_path: Path) -> None:
    plan = read(path)
    before = verdicts(compiled(plan, tmp_path))
    if any(rule == "name-unknown" for rule, *_ in before):
        pytest.skip("names what there is not: the nearest name is another one then")
    after = verdicts(compiled(_renamed(plan), tmp_path), lambda text: text.replace(_MARK, ""))
    assert [each for each in after if each[0] not in _BY_NAME] == [
        each for each in before if each[0] not in _BY_NAME
    ]


def _shuffled(node: Any, chance: random.Random, key: str = "") -> Any:
    if isinstance(node, dict):
        names = list(node)
        if key not in _IN_ORDER:
            chance.shuffle(names)
        return {name: _shuffled(node[name], chance, name) for name in names}
    if isinstance(node, list):
        items = [_shuffled(each, chance) for each in node]
        if key not in _IN_ORDER:
            chance.shuffle(items)
        return items
    return node


@pytest.mark.parametrize("path", ALL_PLANS, ids=name_of)
def test_entries_in_another_order(path: Path, tmp_path: Path) -> None:
    plan = read(path)
    other = _shuffled(plan, random.Random(path.stem))  # noqa: S311 - repeatable
    before, after = (verdicts(compiled(each, tmp_path)) for each in (plan, other))
    assert [each for each in after if each[0] not in _BY_PLACE] == [
        each for each in before if each[0] not in _BY_PLACE
    ]
    assert sorted(each[:2] for each in after) == sorted(each[:2] for each in before)
