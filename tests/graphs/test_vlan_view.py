"""Each VLAN as one looks it up, in the example plans and in a small one whose answers are plain to see."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.graphs.vlan_view import GATEWAY, LEASED, VlanView, carriers, vlan_views
from firstfix.pipeline import compile_plan
from resolve.planning import build_of

PLANS = Path(__file__).parents[2] / "plans"
PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"den": {"mains": 8}}}},
    "vlans": {
        "home": {"id": 10, "subnet": "10.9.1.0/24", "dhcp": "100-199", "reaches": ["internet", "shop"]},
        "shop": {"id": 20, "subnet": "10.9.2.0/24", "reaches": []},
    },
    "wifi": {"sofa": {"ssid": "Sofa", "vlan": "home"}},
    "devices": {
        "gateway": {"part": "gateway-desktop", "room": "den", "vlan": "home"},
        "core": {"part": "switch-8-poe", "room": "den", "vlan": "home", "host": 2},
        "till": {"part": "end-device", "room": "den", "vlan": "shop", "host": 11, "plugs-into": "core"},
        "desk": {"part": "computer-desktop", "room": "den", "vlan": "home", "plugs-into": "core"},
        "ap": {
            "part": "access-point",
            "room": "den",
            "vlan": "shop",
            "tagged": ["home"],
            "plugs-into": "core",
        },
        "loose": {"part": "computer-desktop", "room": "den", "vlan": "home"},
    },
    "links": [{"run": ["gateway", "core"]}],
}


def views(build: Build) -> dict[str, VlanView]:
    return {view.vlan.name: view for view in vlan_views(build)}


def example(name: str) -> Build:
    path = PLANS / f"{name}.yaml"
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


def test_who_is_in_it_and_by_which_address(tmp_path: Path) -> None:
    found = views(build_of(tmp_path, PLAN))
    home = {ids.path(each.device): (each.address, each.whence) for each in found["home"].members}
    assert home["gateway"] == ("10.9.1.1", GATEWAY)
    assert home["core"] == ("10.9.1.2", "written")
    assert home["desk"] == ("", LEASED)
    assert "loose" not in home
    assert "till" not in home
    shop = {ids.path(each.device): each for each in found["shop"].members}
    assert (shop["till"].address, shop["till"].is_tagged) == ("10.9.2.11", False)


def test_an_access_point_takes_its_wireless_networks_tagged(tmp_path: Path) -> None:
    found = views(build_of(tmp_path, PLAN))
    (mine,) = (each for each in found["home"].members if each.device == "device:ap")
    assert mine.is_tagged
    assert found["home"].wireless == (("sofa", "Sofa"),)
    assert found["shop"].wireless == ()


def test_who_may_reach_whom(tmp_path: Path) -> None:
    found = views(build_of(tmp_path, PLAN))
    assert (found["home"].reaches, found["home"].reached_by) == (("shop", "internet"), ())
    assert (found["shop"].reaches, found["shop"].reached_by) == ((), ("home",))


@pytest.mark.parametrize("name", ["honey-farm", "rowing-club", "school"])
def test_members_and_carriers_are_those_of_the_build(name: str) -> None:
    build = example(name)
    for view in vlan_views(build):
        claimed = {(claim.device, claim.address) for claim in build.addresses if claim.vlan == view.vlan.id}
        assert {(each.device, each.address) for each in view.members if each.address} == claimed
        carried = {jack for each in view.carriers for jack in (*each.untagged, *each.tagged)}
        between = carriers(build)
        assert carried == {
            setup.jack
            for setup in build.port_setups.values()
            if view.vlan.id in (setup.untagged, *setup.tagged) and build.jacks[setup.jack].device in between
        }
        for member in view.members:
            for jack in member.at:
                setup = build.port_setups[jack]
                assert (view.vlan.id in setup.tagged) == member.is_tagged


def test_which_vlan_the_till_is_on() -> None:
    found = views(example("rowing-club"))
    inside = [
        name for name, view in found.items() if any(each.device == "device:till-1" for each in view.members)
    ]
    assert inside == ["till"]
