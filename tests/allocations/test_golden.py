"""An old plan with what was chosen for it then compiles to the same choices for good, whatever is chosen for new plans by now."""

from ipaddress import ip_network
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from allocations.keeping import kept_after, lines, said
from firstfix.allocations.choices import NO_CHOICES
from firstfix.build import ids
from firstfix.pipeline import compile_again, compile_plan
from repo.editing import HONEY_FARM

# Plan to how many of its choices, at the least, are none that would be chosen today. Each plan says with which version it was frozen;
# neither it nor the file beside it is ever written anew.
FROZEN = {
    "old-farm": 15,
    "old-club": 0,
    "old-club-moved": 20,
    "old-sailing-school": 12,
    "old-village-school": 8,
    "old-starter": 0,
}
GOLDEN = Path(__file__).parents[1] / "golden"


def test_every_frozen_plan_is_tried() -> None:
    assert {path.stem for path in GOLDEN.glob("*.yaml") if "." not in path.stem} == set(FROZEN)


@pytest.mark.parametrize(("name", "others"), FROZEN.items(), ids=list(FROZEN))
def test_an_old_plan_keeps_every_choice(name: str, others: int) -> None:
    path = GOLDEN / f"{name}.yaml"
    text = path.with_name(f"{name}.allocations.yaml").read_text("utf-8")
    old = compile_plan(path, path.name)
    assert said(old) == []
    assert kept_after(old) == text
    assert len(lines(text) - lines(kept_after(compile_again(old, NO_CHOICES)))) >= others


@pytest.mark.parametrize("name", FROZEN)
def test_it_stands_as_it_was_chosen(name: str) -> None:
    """The hosts, jacks and routes in the file are those of the build: read here by another reader."""
    path = GOLDEN / f"{name}.yaml"
    build = compile_plan(path, path.name).build
    assert build is not None
    entries = YAML(typ="safe", pure=True).load(path.with_name(f"{name}.allocations.yaml").read_text("utf-8"))
    hosts = {(ids.path(each.device), ids.path(each.vlan)): each.address for each in build.addresses}
    joined = {ids.path(end).removesuffix("@rear") for piece in build.pieces.values() for end in piece.ends}
    for entry in entries:
        if "host" in entry:
            subnet = ip_network(build.vlans[f"vlan:{entry['vlan']}"].subnet)
            assert hosts[entry["device"], entry["vlan"]] == str(subnet[entry["host"]])
        elif "run" in entry:
            assert {jack for each in entry["jacks"] for jack in _each(each)} <= joined


def _each(jacks: str | list[str]) -> list[str]:
    """One jack, or those of several lanes."""
    return [jacks] if isinstance(jacks, str) else jacks


def test_the_shipped_plan_stands_beside_what_its_build_keeps() -> None:
    """After a change of the plan: firstfix build plans/honey-farm.yaml -o out."""
    farm = compile_plan(HONEY_FARM, HONEY_FARM.name)
    assert said(farm) == []
    assert kept_after(farm) == HONEY_FARM.with_name("honey-farm.allocations.yaml").read_text("utf-8")
