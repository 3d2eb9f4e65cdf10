"""config.json: accepted by two independent judges and by our own check of references; what is wrong is
refused.
"""

import copy
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from documents.stubs.references import bridge_of, bridge_ports_of, component_of, dangling, interfaces_of
from documents.stubs.sample import mill
from documents.stubs.yang_oracles import yanglint_complaint, yangson_complaint
from firstfix.documents.stubs.files import stub_files

CONFIGS = {
    path.split("/")[1]: json.loads(text)
    for path, text in stub_files(mill()).items()
    if path.endswith("/config.json")
}


@pytest.mark.parametrize("device", sorted(CONFIGS))
def test_yanglint_accepts(device: str, tmp_path: Path) -> None:
    assert yanglint_complaint(CONFIGS[device], tmp_path) == ""


@pytest.mark.parametrize("device", sorted(CONFIGS))
def test_yangson_accepts(device: str) -> None:
    assert yangson_complaint(CONFIGS[device]) == ""


@pytest.mark.parametrize("device", sorted(CONFIGS))
def test_no_reference_dangles(device: str) -> None:
    assert list(dangling(CONFIGS[device])) == []


def _vid_4095(data: Any) -> None:
    component_of(data)["bridge-vlan"]["vlan"][0]["vid"] = 4095


def _unknown_leaf(data: Any) -> None:
    component_of(data)["colour"] = "red"


def _no_bridge_address(data: Any) -> None:
    del bridge_of(data)["address"]


def _port_of_no_bridge(data: Any) -> None:
    bridge_ports_of(data)["1"]["bridge-name"] = "elsewhere"


def _prefix_33(data: Any) -> None:
    interfaces_of(data)["vlan-99"]["ietf-ip:ipv4"]["address"][0]["prefix-length"] = 33


@pytest.mark.parametrize(
    "corrupt", [_vid_4095, _unknown_leaf, _no_bridge_address, _port_of_no_bridge, _prefix_33]
)
def test_both_judges_refuse_what_is_wrong(corrupt: Callable[[Any], None], tmp_path: Path) -> None:
    data = copy.deepcopy(CONFIGS["core"])
    corrupt(data)
    assert yanglint_complaint(data, tmp_path) != ""
    assert yangson_complaint(data) != ""


def test_own_check_refuses_what_the_judges_let_pass() -> None:
    data = copy.deepcopy(CONFIGS["core"])
    bridge_ports_of(data)["2"]["pvid"] = 10
    assert list(dangling(data)) == ["a port takes untagged frames into another VLAN than it sends untagged"]


def test_every_setup_of_a_switch_is_in_its_registrations() -> None:
    """Against the sample's own table, port by port; jack names of this switch are its port numbers."""
    build = mill()
    wanted = set()
    for setup in build.port_setups.values():
        device, _, jack = setup.jack.partition(":")[2].partition("/")
        if device == "core" and jack != "16":
            wanted.add((build.vlans[setup.untagged].vid, int(jack), "untagged"))
            wanted.update((build.vlans[vlan].vid, int(jack), "tagged") for vlan in setup.tagged)
    entries = component_of(CONFIGS["core"])["filtering-database"]["vlan-registration-entry"]
    found = {
        (
            int(entry["vids"]),
            member["port-ref"],
            member["static-vlan-registration-entries"]["vlan-transmitted"],
        )
        for entry in entries
        for member in entry["port-map"]
    }
    assert found == wanted


@pytest.mark.parametrize("vid", [0, 10, 4095])
def test_a_number_that_no_vlan_can_have_is_left_out(vid: int, tmp_path: Path) -> None:
    build = mill()
    vlans = {**build.vlans, "vlan:cameras": build.vlans["vlan:cameras"]._replace(vid=vid)}
    data = json.loads(stub_files(replace(build, vlans=vlans))["stubs/core/config.json"])
    assert yanglint_complaint(data, tmp_path) == ""
    assert list(dangling(data)) == []


def test_a_jack_that_no_vlan_goes_to_is_not_bridged() -> None:
    """The provider's line would else lie in VLAN 1 together with whatever else does."""
    build = mill()
    setups = {**build.port_setups, "jack:core/2": build.port_setups["jack:core/2"]._replace(untagged="")}
    data = json.loads(stub_files(replace(build, port_setups=setups))["stubs/core/config.json"])
    assert "2" in interfaces_of(data)
    assert "2" not in bridge_ports_of(data)


def test_aggregate_is_one_port_of_the_bridge() -> None:
    interfaces = interfaces_of(CONFIGS["core"])
    assert interfaces["aggregate-15"]["type"] == "iana-if-type:ieee8023adLag"
    assert "aggregate-15" in bridge_ports_of(CONFIGS["core"])
    assert not {"15", "16"} & set(bridge_ports_of(CONFIGS["core"]))


def test_addresses_stand_where_they_belong() -> None:
    placed = {
        (device, name, address["ip"])
        for device, data in CONFIGS.items()
        for name, interface in interfaces_of(data).items()
        for address in interface.get("ietf-ip:ipv4", {}).get("address", ())
    }
    assert placed == {
        ("gateway", "vlan-10", "10.40.10.1"), ("gateway", "vlan-30", "10.40.30.1"), ("gateway", "vlan-40",
        "10.40.40.1"), ("gateway", "vlan-53", "10.40.53.1"), ("gateway", "vlan-99", "10.40.99.1"), ("core",
        "vlan-99", "10.40.99.2"), ("hall-switch", "vlan-99", "10.40.99.3"), ("ap-hall", "1", "10.40.99.11"),
        ("cam-gate", "1", "10.40.40.21"), ("names-1", "1", "10.40.53.53"), ("names-2", "1", "10.40.53.54"),
    }  # fmt: skip
    kinds = {
        interfaces_of(CONFIGS[device])[name]["type"] for device, name, _ in placed if name.startswith("vlan-")
    }
    assert kinds == {"iana-if-type:l2vlan"}


def test_name_servers_in_the_order_of_asking() -> None:
    resolver = CONFIGS["core"]["ietf-system:system"]["dns-resolver"]
    assert [server["udp-and-tcp"]["address"] for server in resolver["server"]] == [
        "10.40.53.53",
        "10.40.53.54",
    ]


def test_bridge_address_is_a_documentation_address() -> None:
    """RFC 7042, section 2.1.2: 00-00-5E-00-53-00 to 00-00-5E-00-53-FF."""
    assert bridge_of(CONFIGS["core"])["address"].startswith("00-00-5E-00-53-")
